// SPDX-License-Identifier: MIT
// The TOML library's complaints in the gardener's words.
#pragma once

#include <string>
#include <string_view>

namespace trug::read {

// The library's description reworded: lower-case start, no terms of programmers.
std::string plain_complaint(std::string_view description);
// What to write instead, for the usual slips in a line that is not TOML: text without quotes, a
// unit after the number, a comma in a number, a time without seconds, curly quotes. Else empty.
std::string slip_hint(std::string_view line);

}  // namespace trug::read
