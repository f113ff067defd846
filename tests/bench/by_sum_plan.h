// SPDX-License-Identifier: MIT
// The whole plan's choice by sums of stems, kept to set beside the one by vases.
#pragma once

#include "climate/climate.h"
#include "garden/plan.h"
#include "ground/schedule.h"

namespace trug::by_sum {

// Chooses among what was weighed for the plan: each stretch again and again for the stems that the
// others leave wanting. Plans without successions only.
ground::Schedule choose_plan(const Plan& plan, const climate::Climate& climate,
                             const std::vector<ground::Weighed>& weighed);

}  // namespace trug::by_sum
