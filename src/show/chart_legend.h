// SPDX-License-Identifier: MIT
// What the marks of the chart mean, in two rows.
#pragma once

#include <string>

#include "show/svg.h"

namespace trug::show {

inline constexpr double kLegendHeight = 13;

// Its top left corner at the page's left margin. `frosts`: when they are.
void draw_legend(Svg& svg, double top, const std::string& frosts, bool has_weeks);

}  // namespace trug::show
