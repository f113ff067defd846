// SPDX-License-Identifier: MIT
// Where on its page a bed lies: one page a bed, below each other.
//
// Millimetres on A4 upright; A3 has the same picture, larger.
#pragma once

#include <algorithm>
#include <cstddef>

#include "base/date.h"
#include "base/quantity.h"
#include "show/svg.h"

namespace trug::show {

inline constexpr double kPageWidth = 210;
inline constexpr double kPageHeight = 297;
inline constexpr double kPageMargin = 9;
inline constexpr double kPageHead = 25;   // a bed's name, the plan's and the metres
inline constexpr double kDayColumn = 16;  // left of the bed: the days
inline constexpr double kWeekColumn = 9;  // right of it: the weeks of the wish
inline constexpr double kWeekGap = 2.5;
inline constexpr double kMostPerMetre = 100;
inline constexpr double kLeastPerMonth = 5.5;

// Type sizes. Text of 4 mm is 5.7 mm on A3, with capitals of 4.1 mm: seven minutes of arc from two
// metres, where an eye of full acuity reads five (Snellen's letters).
inline constexpr double kText = 4;
inline constexpr double kName = 5.6;
inline constexpr double kTitle = 9;
inline constexpr double kLine = 1.2;    // of a line's height, in type sizes
inline constexpr double kAscent = 0.9;  // of the base line below a line's top, in type sizes

// A bed's ground on its page: as wide as the bed is long, as high as the days.
struct BedPage {
  Box ground;
  DateRange days;
  double per_metre = 0;
  double per_day = 0;

  double x_of(double cm) const { return ground.x + per_metre * cm / 100; }
  double y_of(Date day) const {
    return ground.y + per_day * days_between(days.from, std::clamp(day, days.from, days.until));
  }
  Box box(double at_cm, double length_cm, DateRange when) const;
  // Within the margins, left to right.
  double left() const { return kPageMargin; }
  static double width() { return kPageWidth - 2 * kPageMargin; }
};

// `page`: counted from 0. `foot` is kept free below the ground.
BedPage bed_page(std::size_t page, Millimetres length, DateRange days, bool has_weeks, double foot);
// The largest foot that leaves the days readable.
double most_foot(DateRange days);

}  // namespace trug::show
