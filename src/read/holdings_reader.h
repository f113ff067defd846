// SPDX-License-Identifier: MIT
// What the gardener has besides beds, and what has happened.
#pragma once

#include <optional>
#include <span>

#include "base/diagnostics.h"
#include "garden/plan.h"
#include "read/sheet_library.h"
#include "read/toml_table.h"

namespace trug::read {

// [shelter]: what is not written there is not there.
void read_shelter(TomlTable& table, std::span<const KeyHome> homes, Plan& plan);

// [[elsewhere]]: added to the plan's list of plantings, after those of the beds.
void read_elsewhere(TomlTable& file, SheetLibrary& sheets, Diagnostics& diagnostics,
                    std::span<const KeyHome> homes, Plan& plan);

// [[have]].
void read_have(TomlTable& file, SheetLibrary& sheets, Diagnostics& diagnostics,
               std::span<const KeyHome> homes, Plan& plan);

// [[happened]]: given to the plantings it speaks of, by day; contradictions are reported with both
// places. After the plantings have been read.
void read_happened(TomlTable& file, SheetLibrary& sheets, Diagnostics& diagnostics,
                   std::span<const KeyHome> homes, Plan& plan);

// `since` of a crop: a year not after the flowering year.
std::optional<int> read_since(TomlTable& table, int flowering_year);

}  // namespace trug::read
