// SPDX-License-Identifier: MIT
// What a crop that is late or left out gave way to, in words.
#pragma once

#include <optional>
#include <string>

#include "ask/gave_way.h"
#include "garden/plan.h"
#include "ground/schedule.h"
#include "show/style.h"

namespace trug::show {

// A paragraph with its heading; empty where there is nothing to say.
std::string why_choice(const Plan& plan, const ground::Schedule& schedule, std::size_t planting,
                       const std::optional<ask::GaveWay>& gave_way, Style style);

}  // namespace trug::show
