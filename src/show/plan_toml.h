// SPDX-License-Identifier: MIT
// A plan as its file says it: what is read again is the same plan.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "garden/plan.h"

namespace trug::show {

// A basic string of TOML.
std::string toml_text(std::string_view text);

// A list of them.
std::string toml_texts(const std::vector<std::string>& texts);

// The whole file. `commented`: beside the keys that a beginner asks about stands what they mean.
std::string plan_toml(const Plan& plan, bool commented = false);

}  // namespace trug::show
