// SPDX-License-Identifier: MIT
// Forecasts moved by weather that was measured. What is grown, when it is begun and when it is
// lifted stays: weather moves forecasts, never choices, or February's would undo September's
// sowing.
#pragma once

#include <memory>

#include "climate/climate.h"
#include "garden/plan.h"
#include "garden/weather.h"
#include "ground/plan_choice.h"

namespace trug::ground {

// Reckons the timelines of all that is chosen again in `climate`, one with a record, and counts the
// weeks again. A planting that would not flower in that weather before it is lifted keeps its
// timeline.
void forecast_in(const climate::Climate& climate, const Plan& plan, PlanChoice& choice);

// Fewer recorded lives of a planting than this tell no spread, and no more than the last so many
// are run: older ones are of another climate.
inline constexpr int kFewestYears = 10;
inline constexpr int kMostYears = 30;

// Puts the years of a record in place of what weather has in the usual spread of the first flowers
// and cuts: each planting is run, begun on the same days, through every year whose record has fewer
// than ten days of its life missing. The years' 10 and 90 in 100, counted from their middle
// (Hazen's plotting positions), and the spread of variety and place, which no record tells, are
// joined in quadrature; a year without a flower comes after all others. Plantings that go by
// windows keep theirs.
void spread_by_years(const climate::Climate& averages,
                     const std::shared_ptr<const DailyRecord>& record, const Plan& plan,
                     PlanChoice& choice);

}  // namespace trug::ground
