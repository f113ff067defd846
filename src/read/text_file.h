// SPDX-License-Identifier: MIT
// A file as text: within limits, UTF-8, one complaint of its own for everything else.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/diagnostics.h"
#include "base/files.h"

namespace trug::read {

// The largest file and the longest line that are read, in bytes, and the most dots in a line. The
// TOML library overflows the stack on tables too deep in one another; each part of a dotted key is
// one. (Dots in strings and comments count too: telling them apart would take the parser.)
inline constexpr std::size_t kLargestFile = 1024 * 1024;
inline constexpr std::size_t kLongestLine = 4096;
inline constexpr std::size_t kMostDots = 200;

// The bytes of a file. Reports one that is missing, a folder, larger than `limit` bytes or
// unreadable.
std::optional<std::string> read_bytes(const FileReader& files, const std::string& path,
                                      Diagnostics& diagnostics, std::size_t limit = kLargestFile);

// The text without a byte-order mark, kept in `diagnostics` for quoting. Reports one that is empty,
// larger than the limit, not UTF-8, holds a NUL or an overlong line.
std::optional<std::string> checked_text(std::string_view bytes, const std::string& path,
                                        Diagnostics& diagnostics);

}  // namespace trug::read
