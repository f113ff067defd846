// SPDX-License-Identifier: MIT
// The average of every day of the year: temperature, from twelve monthly figures or from two; sun.
#pragma once

#include <array>

#include "base/date.h"

namespace trug::climate {

// 365 daily values, degrees Celsius where nothing else is said; 29 February takes the value of the
// 28th.
class YearCurve {
 public:
  // A smooth periodic curve whose days average, month by month, to exactly the twelve figures: a
  // periodic cubic spline through the cumulative sums at the month ends, differenced by day (after
  // Delhez 2003, "A spline interpolation technique that preserves mass budgets", Applied
  // Mathematics Letters 16:17).
  static YearCurve from_months(const std::array<double, 12>& monthly_c);
  // A cosine through the year's mean that is warmest on 23 July (south: 22 January); 0.985 turns
  // the warmest month's mean into the peak. Flowering dates within 2 days on average of those from
  // the full curve, at most 6 (14 stations, 35 to 53 degrees north).
  static YearCurve from_two(double year_mean_c, double warmest_month_c, bool southern);

  // The sun above the air, megajoules a square metre and day.
  static YearCurve of_sun(double latitude);

  double on(Date day) const;

 private:
  std::array<double, 365> days_{};
};

}  // namespace trug::climate
