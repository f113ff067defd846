// SPDX-License-Identifier: MIT
// What is cut in each week, beside what the wish wants of it.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/plan.h"

namespace trug::harvest {

// The likely stems of one sowing, after losses, for each day from its first cut to its lift.
struct Cut {
  std::size_t planting = 0;  // in the plan's list
  Date first;
  std::vector<double> stems;
};

// A calendar week of the flowering year.
struct Week {
  Date monday;
  bool wished = false;
  double wanted = 0;  // stems
  double stems = 0;   // likely, of all plantings
};

// The days of the wish in the flowering year, both ends inside; nullopt: the plan wishes nothing.
std::optional<DateRange> wish_days(const Plan& plan, const climate::Climate& climate);

// The weeks of the wish, or of the whole flowering year without one, with all that is cut in them.
std::vector<Week> count_weeks(const Plan& plan, const climate::Climate& climate,
                              const std::vector<Cut>& cuts);

}  // namespace trug::harvest
