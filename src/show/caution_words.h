// SPDX-License-Identifier: MIT
// What harmful plants are said to do, and what to do about it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "garden/sheet.h"

namespace trug::show {

// "poisonous".
std::string_view harm(Caution::Kind kind);
// One line a caution: "Poisonous: ... What to do."
std::vector<std::string> caution_lines(const Sheet& sheet);

}  // namespace trug::show
