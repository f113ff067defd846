// SPDX-License-Identifier: MIT
// Plants that no week of the wish needs.
#pragma once

#include <cstddef>
#include <vector>

#include "ask/reckon.h"
#include "garden/plan.h"

namespace trug::ask {

// Fewer plants of a planting that leave every week its vases.
struct Spare {
  std::size_t planting = 0;
  int plants = 0;
  int enough = 0;   // of them; 0: the weeks are as full without it
  double best = 0;  // likely stems in its best week of the wish
};

// In the plan's order; true of all of them together. Quarters of a planting, three plants at least.
// None without a wish, nor of what flowers outside it.
std::vector<Spare> spare_plants(const Plan& plan, const Outcome& outcome);

}  // namespace trug::ask
