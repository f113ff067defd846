// SPDX-License-Identifier: MIT
// Findings in words: every wording stands here once; what would help, in remedy_words.h.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "ask/findings.h"

namespace trug::show {

// One sentence without its full stop, lower-case start, with the numbers.
std::string message(const Plan& plan, const ask::Finding& finding);
// Its numbers by their stable names in files.
std::vector<std::pair<std::string, double>> numbers(const ask::Finding& finding);

}  // namespace trug::show
