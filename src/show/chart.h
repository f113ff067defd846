// SPDX-License-Identifier: MIT
// The bed as it lies and the year as it goes, as a picture (SVG 1.1), a bed a page.
//
// Across: the bed's length, to scale. Down: the year. Each planting is a block as wide as its
// ground and as tall as its time in it, the stalk of its raising above it; beside the bed stand the
// weeks of the wish. What has no room for its words has a number, and its words below the bed. The
// same input gives the same bytes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "climate/climate.h"
#include "garden/plan.h"
#include "ground/schedule.h"
#include "harvest/weeks.h"

namespace trug::show {

// Upright. A3 is A4 with everything larger, to be read from further away.
enum class Paper { A4, A3 };

// `weeks`: those of ask::reckon.
std::string chart_svg(const Plan& plan, const ground::Schedule& schedule,
                      const std::vector<harvest::Week>& weeks, const climate::Climate& climate,
                      Paper paper = Paper::A4);

// Whether chart_svg wrote it.
bool is_chart(std::string_view bytes);

}  // namespace trug::show
