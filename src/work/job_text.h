// SPDX-License-Identifier: MIT
// What a job says: what to do, with how many plants, and what it is for.
#pragma once

#include <string>
#include <vector>

#include "garden/plan.h"
#include "ground/schedule.h"
#include "growth/crop_clock.h"
#include "work/jobs.h"

namespace trug::work {

// A length as whole centimetres, for people.
int whole_cm(Millimetres length);

// "Sow: late cornflower 2": two plantings of a crop in one bed are told apart by their ids.
std::string job_title(const Planting& planting, const Sheet& sheet, const Job& job);

// One paragraph, sentences ended with full stops.
std::string job_text(const Place& place, const ground::Sowing& sowing,
                     const growth::CropClock& clock, const Job& job);

// The jobs that make someone touch, buy or cut the plant.
bool handles_plant(JobKind kind);
// One line a caution: "Poisonous: ... What to do."
std::vector<std::string> caution_lines(const Sheet& sheet);

}  // namespace trug::work
