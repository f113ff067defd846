// SPDX-License-Identifier: MIT
// What was told of a start, beside what was recorded of it: a record, a pin and the plan's own
// words stand above it.
#pragma once

#include <cstddef>
#include <optional>

#include "climate/season.h"
#include "garden/plan.h"
#include "garden/sheet.h"
#include "garden/told.h"
#include "ground/begun.h"
#include "ground/schedule.h"

namespace trug::ground {

// The days of one start.
struct StartDays {
  std::optional<Date> sown, planted, planted_out;
};

// Sowings that are asked for; where as many are as are useful, those that are recorded or told.
int sowings_told_of(const Planting& planting);

// The way that the plan pins, where the days agree with it; else the one whose usual weeks they
// miss least, the first of the sheet among equals.
std::optional<std::size_t> way_of(const Planting& planting, const Sheet& sheet,
                                  const StartDays& days, const climate::Season& season);

// Adds what the calendar told of that start; `recorded`: its days in the records.
void take_told(const Planting& planting, const Sheet& sheet, const climate::Season& season,
               const StartDays& recorded, Begun& begun);

// How a sowing was chosen, as a calendar keeps it.
ToldStart told_start(const Planting& planting, const Sowing& sowing);

}  // namespace trug::ground
