// SPDX-License-Identifier: MIT
// How much a finding weighs.
#pragma once

#include <string_view>

namespace trug::ask {

// Broken: the plan cannot do it. Short: it can, but the wish goes short. Mild: worth knowing.
enum class Rank { Broken, Short, Mild };
std::string_view to_string(Rank rank);

}  // namespace trug::ask
