// SPDX-License-Identifier: MIT
// Plantings as people name them: by bed, by crop, or by both.
#pragma once

#include <cstddef>
#include <vector>

#include "app/environment.h"
#include "app/options.h"
#include "garden/plan.h"

namespace trug::app {

// Those of the options' bed, by its name or id, and crop, by its name or the planting's id; what is
// empty names all. In the plan's order.
std::vector<std::size_t> named_plantings(const Options& options, const Plan& plan);
// Says that there are none, and which there are. Returns the exit code.
int refuse_named(const Options& options, const Environment& environment, const Plan& plan);

}  // namespace trug::app
