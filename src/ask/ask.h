// SPDX-License-Identifier: MIT
// What would be otherwise, if one thing of the plan were: one way of asking for every remedy and
// for all that is said to cost something.
#pragma once

#include <cstddef>
#include <vector>

#include "ask/change.h"
#include "ask/findings.h"
#include "ask/reckon.h"

namespace trug::ask {

struct Difference {
  double stems = 0;    // likely, of all plantings: after less before
  int weeks = 0;       // with all their stems
  int jobs_moved = 0;  // to another day, of those that are there before and after
  std::vector<Finding> cleared;
  std::vector<Finding> fresh;
  ChangedPlan plan;
  Outcome after;
};

// The plan with the change, chosen and reckoned anew by averages. `before`: what comes of the
// garden as it is, by averages too.
Difference ask(const Garden& garden, const Outcome& before, const Change& change);

// The garden with these plantings (by index, ascending) and no others.
Garden with_only(const Garden& garden, const std::vector<std::size_t>& kept);

}  // namespace trug::ask
