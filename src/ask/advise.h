// SPDX-License-Identifier: MIT
// What would help, and what a crop costs its stretch: found by asking, never by guessing.
#pragma once

#include <vector>

#include "ask/findings.h"
#include "ask/free_ground.h"
#include "ask/garden.h"
#include "ask/reckon.h"

namespace trug::ask {

// The findings with what would make each go, and with the crops that cost their stretch more than a
// fifth of its stems where the weeks are worth more without them. A remedy is one change; it was
// tried, makes its finding go and breaks nothing that held. Each answer is a choice made anew: for
// those who show them.
std::vector<Finding> advised(const Garden& garden, const Outcome& now, const AllSheets& all_sheets);

}  // namespace trug::ask
