// SPDX-License-Identifier: MIT
// Findings in words: every wording and every line to paste stands here once.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "ask/findings.h"

namespace trug::show {

// One sentence without its full stop, lower-case start, with the numbers.
std::string message(const Plan& plan, const ask::Finding& finding);
// Its numbers by their stable names in files.
std::vector<std::pair<std::string, double>> numbers(const ask::Finding& finding);
// What would help; empty where nothing is known to.
std::string remedy_text(const Plan& plan, const ask::Finding& finding);
// To paste into the plan; absent where there is nothing to paste.
std::optional<std::string> remedy_toml(const Plan& plan, const ask::Finding& finding);

}  // namespace trug::show
