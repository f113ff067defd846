// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "ground/candidates.h"

namespace trug::show {

// Why a way was refused, with both numbers.
std::string refusal_words(const ground::Refusal& refusal);
// What to do, or to count on, where it is grown all the same.
std::string told_words(const ground::Refusal& refusal);

}  // namespace trug::show
