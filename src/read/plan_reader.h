// SPDX-License-Identifier: MIT
// The plan file (TOML) -> a checked Plan whose crops are known.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "base/diagnostics.h"
#include "base/files.h"
#include "garden/plan.h"
#include "read/sheet_library.h"
#include "read/toml_terms.h"

namespace trug::read {

// Reports every problem of the file in one run; nothing comes back where there was one. Crops carry
// their sheet's name, and their groups and ways are ones the sheet has.
std::optional<Plan> read_plan(const FileReader& files, const std::string& path,
                              SheetLibrary& sheets, Diagnostics& diagnostics);

// Every key of a plan and the headings under which it may stand.
std::span<const KeyHome> plan_keys();

}  // namespace trug::read
