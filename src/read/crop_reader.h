// SPDX-License-Identifier: MIT
// [[bed.stretch.crop]]: one crop asked for, checked against its sheet.
#pragma once

#include <span>
#include <string_view>

#include "base/diagnostics.h"
#include "garden/plan.h"
#include "garden/sheet.h"
#include "read/sheet_library.h"
#include "read/toml_table.h"

namespace trug::read {

// Puts the sheet's own spelling into the entry; reports a crop without a sheet at `at`. Null then,
// and where the sheet has errors.
const Sheet* resolve_crop(CropEntry& entry, const Position& at, SheetLibrary& sheets,
                          Diagnostics& diagnostics);

// The keys of one crop. `homes` says where the keys of a plan belong.
CropEntry read_crop(TomlTable& table, SheetLibrary& sheets, Diagnostics& diagnostics,
                    std::span<const KeyHome> homes, int flowering_year);

// Reports a key that a later version will read; it counts as known.
void refuse_for_now(TomlTable& table, std::string_view key, std::string_view instead);

}  // namespace trug::read
