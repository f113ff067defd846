// SPDX-License-Identifier: MIT
// The scales of a bed in the chart: metres above it, months and frosts down its sides.
#pragma once

#include <string>

#include "base/date.h"
#include "base/quantity.h"
#include "show/chart_layout.h"
#include "show/svg.h"

namespace trug::show {

// Type sizes: 2.6 mm is 7.4 points.
inline constexpr double kSmall = 2.6;
inline constexpr double kPlain = 3.3;

class ChartScale {
 public:
  // All three must outlive it.
  ChartScale(Svg& svg, const ChartLayout& layout, const DateRange& days)
      : svg_(svg), layout_(layout), days_(days) {}

  // A bed's ground on the page: as wide as the bed is long, as high as the days.
  Box ground(const BedPlace& place, Millimetres length) const;
  double y_of(const Box& ground, Date day) const;

  // Months beside a bed, each in the middle of its days; the year where it begins.
  void months(const Box& ground);
  // A line across the bed where each month begins, and the bed's edge.
  void month_lines(const Box& ground);
  void metre_rule(const Box& ground, Millimetres length);
  // A line across the bed on the day; its name beside the last bed of a row.
  void frost(const Box& ground, const BedPlace& place, const std::string& name, Date day);

 private:
  Svg& svg_;
  const ChartLayout& layout_;
  const DateRange& days_;
};

}  // namespace trug::show
