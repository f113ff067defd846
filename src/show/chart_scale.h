// SPDX-License-Identifier: MIT
// The scales of a bed in the chart: metres above it, days down its left side, frosts across.
#pragma once

#include <string_view>

#include "base/date.h"
#include "base/quantity.h"
#include "show/chart_layout.h"
#include "show/svg.h"

namespace trug::show {

// The first day of each month; the year where it begins.
void draw_days(Svg& svg, const BedPage& page);
// A line across the bed on the first day of each month, and the bed's edge.
void draw_month_lines(Svg& svg, const BedPage& page);
void draw_metres(Svg& svg, const BedPage& page, Millimetres length);
// A line across the bed on the day, where it is shown.
void draw_frost(Svg& svg, const BedPage& page, std::string_view name, Date day);
// Such a line, for the legend.
void draw_frost_line(Svg& svg, double x, double y, double right);

}  // namespace trug::show
