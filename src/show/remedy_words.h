// SPDX-License-Identifier: MIT
// What would help, in words and to paste.
#pragma once

#include <optional>
#include <string>

#include "ask/change.h"
#include "ask/findings.h"

namespace trug::show {

// Empty where nothing is known to help.
std::string remedy_text(const Plan& plan, const ask::Finding& finding);
// To paste into the plan; absent where there is nothing to paste.
std::optional<std::string> remedy_toml(const Plan& plan, const ask::Finding& finding);
// What a change does: "grow zinnia on stretch 2 of long bed".
std::string change_words(const Plan& plan, const ask::Change& change);
// One change to paste.
std::optional<std::string> change_toml(const Plan& plan, const ask::Change& change);

}  // namespace trug::show
