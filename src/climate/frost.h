// SPDX-License-Identifier: MIT
// Frost dates: what the plan's two dates mean, in which season they fall, and the risk on a day.
#pragma once

#include <optional>

#include "base/date.h"
#include "garden/plan.h"

namespace trug::climate {

// Standard deviation of the last and the first frost's date from year to year, in days, where only
// one date is known. NOAA's freeze normals 1981-2010 give medians of 11.7 and 10.9 over 4829
// stations; the Netherlands 12-15 and 18-19, central England 17.5 and 15.7 (daily records).
inline constexpr double kSpringSpreadDays = 13;
inline constexpr double kAutumnSpreadDays = 15;

// The frost that marks tender plants (screen minimum about +2 degC) against a screen minimum of
// 0 degC: so many days later in spring, earlier in autumn (medians of ten daily records).
inline constexpr int kGardenFrostLaterDays = 13;
inline constexpr int kGardenFrostEarlierDays = 14;

// Average garden frosts either side of one season's growth.
struct SeasonFrosts {
  Date last;   // before it
  Date first;  // after it
  bool operator==(const SeasonFrosts&) const = default;
};

// The day on which one frost winter ends and the next begins: 24 July, south 24 January. The
// hottest time of the year, so that a last frost in December or a first one in February falls on
// the right side.
MonthDay frost_winter_start(bool southern);

// The garden frosts of the season that flowers in `flowering_year`, from the plan's dates by their
// meaning.
SeasonFrosts season_frosts(const Place& place, int flowering_year);

// The first day on which a frost still to come has at most the probability `risk` (0 < risk < 1),
// rounded up; spread is a standard deviation in days, `frost_share` the share of years that have
// frost at all. nullopt: no day need be waited for, the risk is never that high.
std::optional<Date> frost_safe_day(Date mean_last, double spread_days, double risk,
                                   double frost_share = 1);
// The last day by which a frost has come with at most the probability `risk`, rounded down: lift or
// cover by then. nullopt: no day.
std::optional<Date> cover_by_day(Date mean_first, double spread_days, double risk,
                                 double frost_share = 1);

// Probability that a standard normal variable is at most z.
double normal_cdf(double z);
// Its inverse, for 0 < probability < 1; good to 1e-12.
double normal_quantile(double probability);

}  // namespace trug::climate
