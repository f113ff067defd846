// SPDX-License-Identifier: MIT
// The weeks of the wish by how often they have their vases, a line each.
#pragma once

#include <string>

#include "ask/years.h"
#include "garden/plan.h"
#include "show/style.h"

namespace trug::show {

std::string years_page(const Plan& plan, const ask::Chances& chances, Style style);

}  // namespace trug::show
