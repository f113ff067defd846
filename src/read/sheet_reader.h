// SPDX-License-Identifier: MIT
// The text of crops/NAME.toml -> a checked Sheet.
//
// The keys are the members of `Sheet` (garden/sheet.h), in format 2. Format 1 is still read: its
// coldest nights give frost class, hardiness and what mulch adds, and long days count half in
// winter as they lengthen; what it does not say is not judged. Every figure must be covered by a
// `[[source]]`: by its key, by a table that holds it ("way.sown in place"), or by "*".
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/diagnostics.h"
#include "garden/sheet.h"

namespace trug::read {

// Reports every mistake; nothing comes back where there was one.
std::optional<Sheet> read_sheet(std::string_view text, const std::string& path,
                                Diagnostics& diagnostics);

}  // namespace trug::read
