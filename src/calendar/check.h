// SPDX-License-Identifier: MIT
// Whether bytes are a calendar every client reads: the rules of RFC 5545 (and RFC 7986) about
// lines, components, cardinalities and values, as far as trug uses them, and a few of trug's own.
// Independent of the writer, and of libical, whose own check lets most of these pass.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace trug::calendar {

// What is wrong, in the order of the file: "line 12: VEVENT has no UID (RFC 5545, 3.6.1)". Empty:
// nothing is.
std::vector<std::string> check_calendar(std::string_view bytes);

}  // namespace trug::calendar
