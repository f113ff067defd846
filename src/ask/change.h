// SPDX-License-Identifier: MIT
// One thing of a plan made another: what a question tries, and what a remedy proposes.
#pragma once

#include <cstddef>
#include <optional>
#include <variant>
#include <vector>

#include "base/date.h"
#include "garden/plan.h"

namespace trug::ask {

// Plantings by index in the plan's list.
struct LeaveOut {
  std::size_t planting = 0;
};
struct LiftOn {
  std::size_t planting = 0;
  Date day;
};
struct Plants {
  std::size_t planting = 0;
  int number = 0;
};
// Nothing of it is done earlier.
struct StartAfter {
  std::size_t planting = 0;
  Date day;
};
// Of one succession.
struct Sowings {
  std::size_t planting = 0;
  int number = 0;
};
// The plan's flowering year.
struct Year {
  int flowering = 0;
};

using Change = std::variant<LeaveOut, LiftOn, Plants, StartAfter, Sowings, Year>;

// A plan with a change made, and where each planting of the old one stands in it.
struct ChangedPlan {
  Plan plan;
  std::vector<std::optional<std::size_t>> place;  // empty: it is gone
};

ChangedPlan changed(const Plan& plan, const Change& change);

}  // namespace trug::ask
