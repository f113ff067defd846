// SPDX-License-Identifier: MIT
#include "app/terminal.h"

#include <algorithm>
#include <charconv>
#include <system_error>

namespace trug::app {
namespace {

bool is_set(const TerminalFacts& facts, const char* name) {
  return !facts.variable(name).value_or("").empty();
}

bool wants_colour(const TerminalFacts& facts) {
  if (is_set(facts, "NO_COLOR")) return false;
  if (is_set(facts, "CLICOLOR_FORCE") && facts.variable("CLICOLOR_FORCE") != "0") return true;
  return facts.is_terminal && facts.variable("CLICOLOR") != "0" &&
         facts.variable("TERM").value_or("dumb") != "dumb";
}

std::optional<int> columns_variable(const TerminalFacts& facts) {
  const std::string text = facts.variable("COLUMNS").value_or("");
  int columns = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), columns);
  const bool is_number = error == std::errc{} && end == text.data() + text.size();
  if (!is_number || columns < 1) return std::nullopt;
  return columns;
}

}  // namespace

Terminal terminal(const TerminalFacts& facts) {
  std::optional<int> columns = columns_variable(facts);
  if (!columns && facts.is_terminal) columns = facts.columns;
  return {wants_colour(facts), std::max(columns.value_or(kUsualWidth), kNarrowest)};
}

}  // namespace trug::app
