// SPDX-License-Identifier: MIT
// What the terminal can show and what the environment says of it, decided once.
#pragma once

#include <functional>
#include <optional>
#include <string>

namespace trug::app {

// What main() asked the system.
struct TerminalFacts {
  bool is_terminal = false;    // standard output
  std::optional<int> columns;  // as the system knows them
  // A variable of the environment; absent where it is not set.
  std::function<std::optional<std::string>(const char*)> variable;
};

struct Terminal {
  bool colour = false;
  int width = 100;  // columns
};

inline constexpr int kNarrowest = 30;
inline constexpr int kUsualWidth = 100;  // where nobody says: a file, a pipe

// Colour: NO_COLOR (set and not empty) forbids it, CLICOLOR_FORCE (not 0) wants it everywhere, and
// else it is for terminals that are not "dumb" and where CLICOLOR is not 0 (no-color.org,
// bixense.com/clicolors). Width: COLUMNS, the terminal's own, or the usual.
Terminal terminal(const TerminalFacts& facts);

}  // namespace trug::app
