// SPDX-License-Identifier: MIT
// The garden's own clock: by how much its records of first cuts and counted stems differ from what
// is reckoned. It moves forecasts, never choices; in the plan ([place] days_late, stems_times) it
// moves both.
#pragma once

#include "climate/climate.h"
#include "garden/plan.h"
#include "ground/schedule.h"

namespace trug::ground {

// Fewer records than this tell nothing.
inline constexpr int kFewestRecords = 3;

// From the first cuts that were recorded of starts whose day is known, and from the counted stems
// of those that are over: of either the middle one, so that a single odd record moves nothing. A
// pinch and measured days are in what they are compared with, as is what the plan says of its
// clock.
OwnClock own_clock(const Plan& plan, const Schedule& schedule, const climate::Climate& climate);

// The schedule with the forecasts of all that has no such record moved by it.
Schedule by_own_clock(Schedule schedule, const OwnClock& own, const climate::Climate& climate,
                      int flowering_year);

}  // namespace trug::ground
