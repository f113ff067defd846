// SPDX-License-Identifier: MIT
// The weeks of the wish beside a bed: whole, half filled or crossed, as `weeks` counts them.
#pragma once

#include <vector>

#include "harvest/weeks.h"
#include "show/chart_layout.h"
#include "show/svg.h"

namespace trug::show {

// Full: filled. Half: its left half. Short: empty, struck through.
void draw_week(Svg& svg, harvest::WeekState state, const Box& box);
// A box each, right of the ground and as high as its days; under one head.
void draw_weeks(Svg& svg, const BedPage& page, const std::vector<harvest::Week>& weeks);

}  // namespace trug::show
