// SPDX-License-Identifier: MIT
// How far the best choice that was found can be from the best there is: an upper bound by prices of
// stems. As dear as the search itself, so only on request.
#pragma once

#include <vector>

#include "ground/plan_weeks.h"
#include "harvest/vase.h"

namespace trug::ground {

// The stems of each kind that are worth most in a week where each has its price, and what they are
// worth beyond it.
struct Priced {
  std::vector<double> stems;
  double worth = 0;
};
Priced best_at_prices(const harvest::Wanted& wanted, const std::vector<harvest::Part>& kinds,
                      const std::vector<double>& prices);

inline constexpr int kBoundSteps = 120;

// No choice that leaves out as few crops is worth more, in stems. `picks` is the best one found:
// its own marginal worths are the first prices.
double upper_bound(const PlanProblem& problem, const std::vector<Picks>& picks,
                   int steps = kBoundSteps);

}  // namespace trug::ground
