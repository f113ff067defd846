// SPDX-License-Identifier: MIT
// What would be otherwise, if one thing of the plan were: one way of asking for every remedy and
// for all that is said to cost something.
#pragma once

#include <cstddef>
#include <vector>

#include "ask/change.h"
#include "ask/findings.h"
#include "ask/garden.h"
#include "ask/reckon.h"

namespace trug::ask {

struct Difference {
  double stems = 0;    // likely, of all plantings: after less before
  int weeks = 0;       // that have their vases
  double worth = 0;    // of the weeks, as the choice counts them
  int jobs_moved = 0;  // to another day, of those that are there before and after
  std::vector<Finding> cleared;
  std::vector<Finding> fresh;
  ChangedPlan plan;
  Outcome after;
};

// The plan with the change, chosen and reckoned anew. `before`: what comes of the garden as it is.
Difference ask(const Garden& garden, const Outcome& before, const Change& change);

// Whether a finding is among them, as one of the same plan.
bool has(const std::vector<Finding>& list, const Finding& finding);

// The same garden with another plan.
Garden with_plan(const Garden& garden, Plan plan);
// The garden with these plantings (by index, ascending) and no others.
Garden with_only(const Garden& garden, const std::vector<std::size_t>& kept);

// Whether something is grown against a rule since: what a change pins stands whatever it breaks,
// but no such thing is advised.
bool breaks_rule(const Difference& found);

}  // namespace trug::ask
