// SPDX-License-Identifier: MIT
// The TOML library's complaints in the gardener's words.
#pragma once

#include <string>
#include <string_view>

namespace trug::read {

// The library's description reworded: lower-case start, no terms of programmers.
std::string plain_complaint(std::string_view description);
// What to write instead, for the usual slips in a line that is not TOML: text without quotes, a
// unit after the number, a comma in a number, a time without seconds, curly quotes, a colon for the
// equals sign, single brackets around one of a list. Else empty.
std::string slip_hint(std::string_view line);
// What to write for a number that stands in quotes: "5 m" under length_m. Else empty.
std::string quoted_number_hint(std::string_view key, std::string_view text);

}  // namespace trug::read
