// SPDX-License-Identifier: MIT
// [[bed]], [[bed.stretch]] and their crops.
#pragma once

#include <span>

#include "base/diagnostics.h"
#include "garden/plan.h"
#include "read/sheet_library.h"
#include "read/toml_table.h"

namespace trug::read {

// All beds of a plan file and the list of what is planted in them, checked against each other:
// names, lengths, plantings that could be confused. `homes` says where the keys of a plan belong.
void read_beds(TomlTable& file, SheetLibrary& sheets, Diagnostics& diagnostics,
               std::span<const KeyHome> homes, Plan& plan);

}  // namespace trug::read
