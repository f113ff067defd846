// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "ground/candidates.h"

namespace trug::show {

// Why a way was refused, with both numbers.
std::string refusal_words(const ground::Refusal& refusal);

}  // namespace trug::show
