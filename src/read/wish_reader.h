// SPDX-License-Identifier: MIT
// [wish]: how many vases, of what, and when.
#pragma once

#include <span>

#include "base/date.h"
#include "base/diagnostics.h"
#include "garden/plan.h"
#include "read/sheet_library.h"
#include "read/toml_table.h"

namespace trug::read {

// Days from the first of the month `season_start` to a day, in a year without 29 February.
int days_into_season(MonthDay season_start, MonthDay day);

// After the plan's place.
void read_wish(TomlTable& table, SheetLibrary& sheets, Diagnostics& diagnostics,
               std::span<const KeyHome> homes, Plan& plan);

}  // namespace trug::read
