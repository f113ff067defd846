// SPDX-License-Identifier: MIT
#include "read/toml_complaint.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <utility>

namespace trug::read {
namespace {

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }
bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

std::string replaced(std::string text, std::string_view what, std::string_view with) {
  const std::size_t at = text.find(what);
  if (at != std::string::npos) text.replace(at, what.size(), with);
  return text;
}

// "'title' is given a second time" out of "cannot redefine existing string 'title' ...".
std::string second_time(std::string_view complaint) {
  const std::size_t from = complaint.find('\'');
  const std::size_t to = complaint.find('\'', from + 1);
  if (to == std::string_view::npos) return "a key is given a second time";
  return fmt::format("{} is given a second time", complaint.substr(from, to - from + 1));
}

// The hint for a value that begins with a digit or a sign.
std::string number_hint(std::string_view key, std::string_view value) {
  const std::size_t end = value.find_first_not_of("0123456789.+-");
  if (end == std::string_view::npos) return {};
  const std::string_view digits = value.substr(0, end);
  const std::string_view rest = value.substr(end);
  const bool more_digits = rest.size() > 1 && std::all_of(rest.begin() + 1, rest.end(), is_digit);
  if (rest.front() == ',' && more_digits) {
    return fmt::format("write a point, not a comma: {} = {}.{}", key, digits, rest.substr(1));
  }
  if (rest.front() == ':' && more_digits) {
    return fmt::format("write the seconds too: {} = {}:00", key, value);
  }
  if (std::ranges::all_of(rest, is_letter)) {
    return fmt::format("the unit is in the key, not in the value: {} = {}", key, digits);
  }
  return fmt::format("text and days stand in quotes: {} = \"{}\"", key, value);
}

}  // namespace

std::string plain_complaint(std::string_view description) {
  constexpr std::string_view kPrefix = "Error while parsing ";
  // The library's words and ours, in the order in which they are replaced.
  constexpr std::pair<std::string_view, std::string_view> kWords[] = {
      {"the root table: expected keys, tables, whitespace or comments",
       "this line: expected a key, a heading or a comment"},
      {"the key-value pair", "this line"},
      {"the table header", "the heading"},
      {"the literal string", "the text"},
      {"the string", "the text"},
      {"the decimal integer", "the number"},
      {"the floating-point", "the number"},
      {"expected bare key starting character or string delimiter", "expected a name"},
      {"could not determine value type", "it is no text in quotes, number, date, true or false"},
      {"unescaped control characters other than TAB (U+0009) are explicitly prohibited",
       "it must end on its line and hold no control character"},
      {"control characters other than TAB (U+0009) are explicitly prohibited",
       "it must end on its line and hold no control character"},
      {"exceeded maximum nested value depth of 32 (TOML_MAX_NESTED_VALUES)",
       "more than 32 brackets lie in one another"},
      {"encountered end-of-file", "the file ends in the middle of it"},
      {" (inclusive)", ""},
  };
  if (description.find("cannot redefine existing") != std::string_view::npos) {
    return second_time(description);
  }
  std::string text(description);
  if (description.starts_with(kPrefix)) {
    text = "cannot read the " + text.substr(kPrefix.size());
  }
  for (const auto& [theirs, ours] : kWords) text = replaced(text, theirs, ours);
  text.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(text.front())));
  return text;
}

std::string slip_hint(std::string_view line) {
  const std::size_t equals = line.find('=');
  if (equals == std::string_view::npos) return {};
  const std::string_view key = trimmed(line.substr(0, equals));
  std::string_view value = trimmed(line.substr(equals + 1));
  value = trimmed(value.substr(0, value.find('#')));
  if (key.empty() || value.empty()) return {};
  if (value.starts_with("\u201c") || value.starts_with("\u201d") || value.starts_with("\u2018")) {
    return "use straight quotes: \"";
  }
  if (value.front() == '"' && std::ranges::count(value, '"') == 1) {
    return "the closing quote is missing";
  }
  if (is_digit(value.front()) || value.front() == '-' || value.front() == '+') {
    return number_hint(key, value);
  }
  if (!is_letter(value.front())) return {};
  std::string lower(value);
  for (char& c : lower) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  if (lower == "yes" || lower == "true") return fmt::format("write {} = true", key);
  if (lower == "no" || lower == "false") return fmt::format("write {} = false", key);
  return fmt::format("text and days stand in quotes: {} = \"{}\"", key, value);
}

}  // namespace trug::read
