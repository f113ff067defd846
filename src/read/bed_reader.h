// SPDX-License-Identifier: MIT
// [[bed]], [[bed.stretch]] and their crops.
#pragma once

#include <span>
#include <string_view>

#include "base/diagnostics.h"
#include "garden/plan.h"
#include "read/sheet_library.h"
#include "read/toml_table.h"

namespace trug::read {

// All beds of a plan file and the list of what is planted in them, checked against each other:
// names, lengths, plantings that could be confused. `homes` says where the keys of a plan belong.
void read_beds(TomlTable& file, SheetLibrary& sheets, Diagnostics& diagnostics,
               std::span<const KeyHome> homes, Plan& plan);

// Puts the sheet's own spelling into the entry; reports a crop without a sheet. Null then, and where
// the sheet has errors.
const Sheet* resolve_crop(CropEntry& entry, const Position& at, SheetLibrary& sheets,
                          Diagnostics& diagnostics);

// Reports a key that a later version will read; it counts as known.
void refuse_for_now(TomlTable& table, std::string_view key, std::string_view instead);

}  // namespace trug::read
