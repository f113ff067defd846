// SPDX-License-Identifier: MIT
// Findings in words: every wording stands here once.
#pragma once

#include <string>

#include "ground/findings.h"

namespace trug::show {

// One sentence without its full stop, lower-case start, with the numbers.
std::string message(const ground::Finding& finding);
// What would help; empty where nothing is known to.
std::string remedy_text(const ground::Finding& finding);
// Why a way was refused, with both numbers.
std::string refusal_words(const ground::Refusal& refusal);

}  // namespace trug::show
