// SPDX-License-Identifier: MIT
// Whether a sheet can be believed: what the reader cannot see in its single figures.
#pragma once

#include <string>
#include <vector>

#include "garden/sheet.h"

namespace trug::ground {

// What is wrong with a sheet that reads well, one sentence each; empty: nothing. Judges plausible
// ranges, the order of windows, the caution that a harmful genus must carry, and whether every way
// has a possible date in at least one of three climates: maritime 52.5 N, continental 39 N and
// southern 38 S.
std::vector<std::string> judge_sheet(const Sheet& sheet);

}  // namespace trug::ground
