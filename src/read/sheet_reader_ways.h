// SPDX-License-Identifier: MIT
// The groups, ways and yearly jobs of a sheet.
#pragma once

#include <optional>
#include <string_view>

#include "garden/sheet.h"
#include "read/sheet_reader_growth.h"
#include "read/toml_table.h"

namespace trug::read {

Group read_group(TomlTable& table, const SheetKind& kind);
Way read_way(TomlTable& table, const SheetKind& kind);
// What the trade begins from; seed where the key is absent.
Usual read_usual(TomlTable& table);
// nullopt where the sheet has no such job.
std::optional<YearlyJob> read_yearly_job(TomlTable& parent, std::string_view key);

}  // namespace trug::read
