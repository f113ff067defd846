// SPDX-License-Identifier: MIT
// What `trug frost` shows of a daily record: for people, and for a plan to paste.
#pragma once

#include <optional>
#include <string>

#include "show/frost_report.h"
#include "show/style.h"

namespace trug::show {

// Last and first frosts at each threshold, how they lie (a mark for each winter), the months'
// temperatures and the cold. What a short record cannot tell is said, not shown.
std::string frost_page(const FrostReport& report, Style style);

// The [place] table of a plan, as far as the record tells it; the rest as comments. Without
// `latitude`, degrees, its line is a comment too.
std::string place_block(const FrostReport& report, std::optional<double> latitude);

}  // namespace trug::show
