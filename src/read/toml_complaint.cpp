// SPDX-License-Identifier: MIT
#include "read/toml_complaint.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <utility>
#include <vector>

#include "base/text.h"

namespace trug::read {
namespace {

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }
bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }

constexpr std::string_view kBlanks = " \t\r";

std::string_view trimmed(std::string_view text) { return trug::trimmed(text, kBlanks); }

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

// The ending that a key takes for a unit: "_cm" for "cm"; empty for what is no unit of ours.
std::string_view key_ending(std::string_view unit) {
  constexpr std::pair<std::string_view, std::string_view> kUnits[] = {
      {"m", "_m"},       {"metre", "_m"},     {"metres", "_m"},  {"meter", "_m"}, {"meters", "_m"},
      {"cm", "_cm"},     {"ft", "_ft"},       {"foot", "_ft"},   {"feet", "_ft"}, {"'", "_ft"},
      {"in", "_in"},     {"inch", "_in"},     {"inches", "_in"}, {"\"", "_in"},   {"c", "_c"},
      {"\u00b0c", "_c"}, {"degc", "_c"},      {"celsius", "_c"}, {"f", "_f"},     {"\u00b0f", "_f"},
      {"degf", "_f"},    {"fahrenheit", "_f"}};
  const std::string word = lower_ascii(unit);
  const auto found =
      std::ranges::find(kUnits, word, &std::pair<std::string_view, std::string_view>::first);
  return found == std::end(kUnits) ? std::string_view{} : found->second;
}

// "length_cm" for "length_m" and "length" with "_cm".
std::string key_with(std::string_view key, std::string_view ending) {
  for (const std::string_view old : {"_m", "_cm", "_ft", "_in", "_c", "_f"}) {
    if (!key.ends_with(old)) continue;
    key.remove_suffix(old.size());
    break;
  }
  return fmt::format("{}{}", key, ending);
}

// A value's number and what follows it: "5", "m" of "5 m". No number: both empty.
std::pair<std::string_view, std::string_view> number_and_rest(std::string_view value) {
  const std::size_t end = std::min(value.find_first_not_of("0123456789.+-"), value.size());
  if (std::ranges::none_of(value.substr(0, end), is_digit)) return {};
  return {value.substr(0, end), trimmed(value.substr(end))};
}

std::string comma_hint(std::string_view key, std::string_view digits, std::string_view rest) {
  const bool is_comma =
      rest.size() > 1 && rest.front() == ',' && std::all_of(rest.begin() + 1, rest.end(), is_digit);
  if (!is_comma) return {};
  return fmt::format("write a point, not a comma: {} = {}.{}", key, digits, rest.substr(1));
}

std::string unit_hint(std::string_view key, std::string_view digits, std::string_view rest) {
  const std::string_view ending = key_ending(rest);
  if (ending.empty()) return {};
  return fmt::format("the unit is in the key, not in the value: {} = {}", key_with(key, ending),
                     digits);
}

// Groups of digits, and what stands between them left out.
std::vector<std::string> digit_groups(std::string_view value) {
  std::vector<std::string> groups(1);
  for (const char c : value) {
    if (is_digit(c)) {
      groups.back() += c;
    } else {
      groups.emplace_back();
    }
  }
  return groups;
}

// The hint for figures that are to be a date and are none: "28.11.2027", "2027-28-11".
std::string date_hint(std::string_view key, std::string_view value) {
  std::vector<std::string> groups = digit_groups(value);
  if (groups.size() != 3) return {};
  const bool year_first = groups[0].size() == 4;
  std::string year = groups[year_first ? 0 : 2];
  std::string one = groups[1], other = groups[year_first ? 2 : 0];
  const auto is_short = [](const std::string& group) {
    return group.size() == 1 || group.size() == 2;
  };
  if (year.size() != 4 || !is_short(one) || !is_short(other)) return {};
  const bool one_is_day = std::stoi(one) > 12, other_is_day = std::stoi(other) > 12;
  if (one_is_day && other_is_day) return {};
  if (!one_is_day && !other_is_day) {
    return year_first ? "" : fmt::format("a date is year, month, day: {} = 2027-05-14", key);
  }
  if (year_first && other_is_day) return {};
  if (one_is_day) std::swap(one, other);
  return fmt::format("a date is year, month, day: {} = {}-{:0>2}-{:0>2}", key, year, one, other);
}

// The hint for a value that begins with a digit or a sign.
std::string number_hint(std::string_view key, std::string_view value) {
  if (const std::string hint = date_hint(key, value); !hint.empty()) return hint;
  const auto [digits, rest] = number_and_rest(value);
  if (rest.empty()) return {};
  if (const std::string hint = comma_hint(key, digits, rest); !hint.empty()) return hint;
  if (const std::string hint = unit_hint(key, digits, rest); !hint.empty()) return hint;
  if (rest.front() == ':' && rest.size() > 1 &&
      std::all_of(rest.begin() + 1, rest.end(), is_digit)) {
    return fmt::format("write the seconds too: {} = {}:00", key, value);
  }
  return fmt::format("text and days stand in quotes: {} = \"{}\"", key, value);
}

// The hint for a list whose words lack their quotes: "[peony, sweet pea]".
std::string list_hint(std::string_view key, std::string_view value) {
  if (!value.ends_with(']') || value.find_first_of("\"'[{", 1) != std::string_view::npos) return {};
  std::string quoted;
  std::string_view rest = value.substr(1, value.size() - 2);
  while (!rest.empty()) {
    const std::size_t comma = std::min(rest.find(','), rest.size());
    const std::string_view word = trimmed(rest.substr(0, comma));
    if (word.empty() || !is_letter(word.front())) return {};
    quoted += fmt::format("{}\"{}\"", quoted.empty() ? "" : ", ", word);
    rest.remove_prefix(std::min(comma + 1, rest.size()));
  }
  return fmt::format("text stands in quotes: {} = [{}]", key, quoted);
}

// The hint for a heading that reads well and yet is refused: it comes a second time, though there
// may be several.
std::string heading_hint(std::string_view line) {
  constexpr std::string_view kLists[] = {"bed", "stretch", "crop",    "have",   "elsewhere",
                                         "way", "group",   "caution", "source", "happened"};
  line = trimmed(line.substr(0, line.find('#')));
  const std::size_t brackets = line.starts_with("[[") && line.ends_with("]]") ? 2 : 1;
  if (line.size() <= 2 * brackets || !line.ends_with(']')) return {};
  const std::string_view name = line.substr(brackets, line.size() - 2 * brackets);
  if (name.find_first_of("[]") != std::string_view::npos) return {};
  const std::string_view last = name.substr(name.rfind('.') + 1);
  if (std::ranges::find(kLists, last) == std::end(kLists)) return {};
  if (brackets == 1) {
    return fmt::format("write [[{}]] with double brackets: there may be several", name);
  }
  return fmt::format("an earlier [{0}] has single brackets: write [[{0}]] there too", name);
}

// The hint for a line without an equals sign.
std::string colon_hint(std::string_view line) {
  const std::size_t colon = line.find(':');
  if (colon == std::string_view::npos) return {};
  const std::string_view key = trimmed(line.substr(0, colon));
  const std::string_view value = trimmed(line.substr(colon + 1));
  const bool is_key = !key.empty() && std::ranges::all_of(key, [](char c) {
    return is_letter(c) || is_digit(c) || c == '_' || c == '-';
  });
  if (!is_key || value.empty()) return {};
  return fmt::format("write an equals sign: {} = {}", key, value);
}

std::string word_hint(std::string_view key, std::string_view value) {
  const std::string lower = lower_ascii(value);
  if (lower == "yes" || lower == "true") return fmt::format("write {} = true", key);
  if (lower == "no" || lower == "false") return fmt::format("write {} = false", key);
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
  return uncapitalised(std::move(text));
}

std::string quoted_number_hint(std::string_view key, std::string_view text) {
  const auto [digits, rest] = number_and_rest(trimmed(text));
  if (digits.empty()) return {};
  if (rest.empty()) return "leave the quotes away";
  if (const std::string hint = comma_hint(key, digits, rest); !hint.empty()) return hint;
  if (const std::string hint = unit_hint(key, digits, rest); !hint.empty()) return hint;
  return fmt::format("write the number alone: {} = {}", key, digits);
}

std::string slip_hint(std::string_view line) {
  line = trimmed(line);
  if (line.starts_with('[')) return heading_hint(line);
  const std::size_t equals = line.find('=');
  if (equals == std::string_view::npos) return colon_hint(line);
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
  if (value.front() == '[') return list_hint(key, value);
  return is_letter(value.front()) ? word_hint(key, value) : std::string();
}

}  // namespace trug::read
