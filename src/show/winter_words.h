// SPDX-License-Identifier: MIT
// What the winter takes, as jobs say it.
#pragma once

#include <string>

#include "garden/plan.h"
#include "ground/schedule.h"

namespace trug::show {

// "a tenth to a fifth more than that: the winter takes some"; where it takes more than of any
// planting, how many plants.
std::string more_for_the_winter(const ground::Sowing& sowing);
// What to lay over it and what that gives.
std::string cover_words(const Place& place, const ground::Sowing& sowing);

}  // namespace trug::show
