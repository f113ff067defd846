// SPDX-License-Identifier: MIT
// What a job says: what to do, with how many plants, and what it is for.
#pragma once

#include <string>
#include <vector>

#include "garden/plan.h"
#include "ground/plan_choice.h"
#include "growth/crop_clock.h"
#include "work/jobs.h"

namespace trug::work {

// The ground one sowing of a planting stands on: the whole stretch, or a strip of it for each
// succession.
struct Strip {
  const ground::Candidate* candidate = nullptr;
  Date lift;
  int succession = 0;  // from 1; 0 where there are none
  int at_cm = 0;       // from the bed's start
  int length_cm = 0;
  int plants = 0;
  int rows = 0;
};

std::vector<Strip> strips_of(const Plan& plan, const ground::PlantingChoice& planting);

// "Sow: late cornflower 2": two plantings of a crop in one bed are told apart by their ids.
std::string job_title(const Plan& plan, const ground::PlantingChoice& planting, const Job& job);

// One paragraph, sentences ended with full stops.
std::string job_text(const Plan& plan, const ground::PlantingChoice& planting, const Strip& strip,
                     const growth::CropClock& clock, const Job& job);

// The jobs that make someone touch, buy or cut the plant.
bool handles_plant(JobKind kind);
// One line a caution: "Poisonous: ... What to do."
std::vector<std::string> caution_lines(const Sheet& sheet);

}  // namespace trug::work
