// SPDX-License-Identifier: MIT
#include "show/style.h"

#include "base/text.h"

namespace trug::show {

std::string bold(const std::string& text, Style style) {
  return style.colour ? "\033[1m" + text + "\033[0m" : text;
}

std::string faint(const std::string& text, Style style) {
  return style.colour ? "\033[2m" + text + "\033[0m" : text;
}

std::string headline(const std::string& name, const std::string& rest, Style style) {
  if (display_width(name + rest) > style.width) return indented(name + rest, 0, style);
  return bold(name, style) + rest + "\n";
}

std::string indented(std::string_view text, int indent, Style style) {
  return hanging(text, indent, indent, style);
}

std::string hanging(std::string_view text, int first_indent, int indent, Style style) {
  std::string result;
  for (const std::string& line : wrapped(text, style.width - indent)) {
    const int blanks = result.empty() ? first_indent : indent;
    result += std::string(static_cast<std::size_t>(blanks), ' ') + line + "\n";
  }
  return result;
}

}  // namespace trug::show
