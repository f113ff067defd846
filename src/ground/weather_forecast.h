// SPDX-License-Identifier: MIT
// Forecasts moved by weather that was measured. What is grown, when it is begun and when it is
// lifted stays: weather moves forecasts, never choices, or February's would undo September's
// sowing.
#pragma once

#include <memory>
#include <vector>

#include "climate/climate.h"
#include "garden/weather.h"
#include "ground/schedule.h"

namespace trug::ground {

// The schedule with the timelines of all sowings reckoned again in `climate`, one with a record.
// Some may now be lifted before they are cut. `days_late`: of flowers that were not recorded.
Schedule retimed(Schedule schedule, const climate::Climate& climate, int flowering_year,
                 int days_late = 0);

// The clock of a sowing's crop, under what covers it.
growth::CropClock clock_of(const climate::Climate& climate, const Sowing& sowing,
                           int flowering_year, int days_late = 0);

// Fewer recorded lives of a planting than this tell no spread, and no more than the last so many
// are run: older ones are of another climate.
inline constexpr int kFewestYears = 10;
inline constexpr int kMostYears = 30;

// The schedule with the years of a record in place of what weather has in the usual spread of the
// first flowers and cuts: each sowing is run, begun on the same days, through every year whose
// record has fewer than ten days of its life missing. The years' 10 and 90 in 100, counted from
// their middle (Hazen's plotting positions), and the spread of variety and place, which no record
// tells, are joined in quadrature; a year without a flower comes after all others. Sowings that go
// by windows keep theirs.
Schedule spread_by_years(Schedule schedule, const climate::Climate& averages,
                         const std::shared_ptr<const DailyRecord>& record, int flowering_year);

// The schedule in the weather of one recorded year.
struct LivedYear {
  int year = 0;  // of its flowers
  Schedule schedule;
};
// In every year whose record has fewer than ten days missing of each life that goes by warmth, the
// latest first, no more than kMostYears of them.
std::vector<LivedYear> lived_years(const Schedule& schedule, const climate::Climate& averages,
                                   const std::shared_ptr<const DailyRecord>& record,
                                   int flowering_year);

}  // namespace trug::ground
