// SPDX-License-Identifier: MIT
// Whether a sheet can be believed: what the reader cannot see in its single figures.
#pragma once

#include <string>
#include <vector>

#include "garden/sheet.h"

namespace trug::ground {

// What is wrong with a sheet that reads well, one sentence each; empty: nothing. Judges plausible
// ranges, the order of windows, the caution that a harmful genus must carry, and whether every way
// has a possible date in at least one of four climates: maritime 52.5 N, continental 39 N, southern
// 38 S and one of mild winters, 34 N.
std::vector<std::string> judge_sheet(const Sheet& sheet);

}  // namespace trug::ground
