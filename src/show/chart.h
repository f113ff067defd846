// SPDX-License-Identifier: MIT
// The bed as it lies and the year as it goes, as a picture (SVG 1.1).
//
// Across: the bed's length, to scale. Down: the year. Each planting is a block as wide as its
// ground and as tall as its time in it: hatched in leaf, in its flower's colours while it can be
// cut. Millimetres on A4; the same input gives the same bytes.
#pragma once

#include <string>
#include <string_view>

#include "climate/climate.h"
#include "garden/plan.h"
#include "ground/schedule.h"

namespace trug::show {

std::string chart_svg(const Plan& plan, const ground::Schedule& schedule,
                      const climate::Climate& climate);

// Whether chart_svg wrote it.
bool is_chart(std::string_view bytes);

}  // namespace trug::show
