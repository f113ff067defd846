// SPDX-License-Identifier: MIT
// The sheets of crops/ compiled into the program (made at build time by embed_sheets.cmake).
#pragma once

#include <span>
#include <string_view>

namespace trug::read {

struct EmbeddedSheet {
  std::string_view name;  // of the file, without ".toml": "sweet_william"
  std::string_view text;
};

std::span<const EmbeddedSheet> embedded_sheets();

}  // namespace trug::read
