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
// For who buys it: all of what spreads, which is asked about before it is bought; of other harm its
// name.
std::vector<std::string> buyers_caution_lines(const Sheet& sheet);
// "Poisonous and irritant: what to do stands at "Sow foxgloves"."
std::string short_caution(const Sheet& sheet, std::string_view title_of_first_job);

}  // namespace trug::show
