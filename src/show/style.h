// SPDX-License-Identifier: MIT
// How text is set for people: colour where the terminal has it, lines as wide as it is.
#pragma once

#include <string>
#include <string_view>

namespace trug::show {

struct Style {
  bool colour = false;  // escape sequences for a terminal
  int width = 100;      // columns
};

std::string bold(const std::string& text, Style style);
std::string faint(const std::string& text, Style style);
// A bold name and what follows it, in one line, or wrapped and plain where it is too long.
std::string headline(const std::string& name, const std::string& rest, Style style);
// Wrapped into lines that begin with so many blanks; each ends.
std::string indented(std::string_view text, int indent, Style style);
// The same with the first line further out: "label  text" whose text hangs under itself.
std::string hanging(std::string_view text, int first_indent, int indent, Style style);

}  // namespace trug::show
