// SPDX-License-Identifier: MIT
// Ground that lies free for some days: bed that is no stretch, and stretches between their crops.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "ask/garden.h"
#include "base/date.h"
#include "base/quantity.h"
#include "garden/plan.h"
#include "ground/schedule.h"

namespace trug::ask {

struct Plot {
  std::size_t bed = 0;
  std::optional<std::size_t> stretch;     // by index; absent: bed that is no stretch yet
  std::optional<std::size_t> after;       // the planting before it; absent: before all
  std::optional<std::size_t> instead_of;  // the planting whose place it is
  DateRange days;                         // with the days between crops taken off
  Millimetres length, width;
};

// In the plan's order. Where a crop that cannot be grown has its place between two that are, the
// ground is that crop's. `replant`: also the places of annuals of which nothing is begun, recorded
// or pinned.
std::vector<Plot> plots(const Garden& garden, const ground::Schedule& schedule, bool replant);

}  // namespace trug::ask
