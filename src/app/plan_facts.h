// SPDX-License-Identifier: MIT
// What a plan's days hang on, in short: kept in the head of its calendar, to be compared with.
#pragma once

#include <optional>
#include <string>

#include "base/uuid.h"
#include "calendar/render.h"
#include "garden/plan.h"
#include "garden/weather.h"
#include "ground/schedule.h"

namespace trug::app {

// Frost dates and the last measured day as they are; the rest as digests, which only tell whether
// it is still the same. They are keyed by the plan's garden, which no file holds: nobody can find
// out by trying what they stand for. The plan must have a garden.
calendar::Facts facts_of(const Plan& plan, const ground::Sheets& sheets,
                         const std::optional<MeasuredWeather>& weather);

// The facts of one planting: its ground with all that stands there, its records, its sheet.
std::string ground_name(const Uuid& garden, const Plan& plan, const Planting& planting);
std::string records_name(const Uuid& garden, const Plan& plan, const Planting& planting);
std::string sheet_name(const Uuid& garden, const std::string& crop);

// Whether anything is another than when the plan's calendar was written but the weather, which
// moves forecasts alone (Plan::unchanged); and by planting what was edited on its own ground
// (Planting::touched).
void compare_facts(calendar::Facts before, calendar::Facts now, Plan& plan);

}  // namespace trug::app
