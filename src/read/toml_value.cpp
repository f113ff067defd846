// SPDX-License-Identifier: MIT
#include "read/toml_value.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ios>
#include <sstream>
#include <utility>

#include "base/text.h"
#include "read/toml_complaint.h"

namespace trug::read {
namespace {

std::optional<double> number_in(const toml::node& node) {
  if (const auto* whole = node.as_integer()) return static_cast<double>(whole->get());
  if (const auto* real = node.as_floating_point()) return real->get();
  return std::nullopt;
}

// What to do about a number that is written as a string.
std::string quotes_hint(std::string_view key, const toml::node& node) {
  const auto* text = node.as_string();
  return text ? quoted_number_hint(key, text->get()) : "";
}

}  // namespace

std::string_view kind_of(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::none:
      return "nothing";
    case toml::node_type::table:
      return "a table";
    case toml::node_type::array:
      return "a list";
    case toml::node_type::string:
      return "a string";
    case toml::node_type::integer:
    case toml::node_type::floating_point:
      return "a number";
    case toml::node_type::boolean:
      return "true or false";
    case toml::node_type::date:
      return "a date";
    case toml::node_type::time:
      return "a time of day";
    case toml::node_type::date_time:
      return "a date with a time of day";
  }
  return "nothing";
}

std::string quoted_list(std::span<const std::string> words, std::string_view last_word) {
  std::vector<std::string> quoted;
  for (const std::string& word : words) quoted.push_back(fmt::format("'{}'", word));
  return listed(quoted, last_word);
}

Position TomlFile::position(const toml::source_region& source) const {
  return {path, static_cast<int>(source.begin.line), static_cast<int>(source.begin.column)};
}

void TomlValue::error(std::string message, std::string hint) const {
  file_.diagnostics->error(at(), std::move(message), std::move(hint));
}

void TomlValue::wrong_kind(std::string_view wanted, std::string hint) const {
  error(fmt::format("'{}' must be {}, not {}", key_, wanted, kind_of(node_)), std::move(hint));
}

bool TomlValue::is_within(double value, Bounds bounds) const {
  if (!std::isfinite(value)) {
    error(fmt::format("'{}' must be a finite number", key_));
    return false;
  }
  if (value >= bounds.low && value <= bounds.high) return true;
  error(fmt::format("'{}' must be from {} to {}, not {}", key_, bounds.low, bounds.high, value),
        value > bounds.high ? std::string(bounds.hint) : "");
  return false;
}

std::optional<double> TomlValue::number(Bounds bounds) const {
  const auto value = number_in(node_);
  if (!value) {
    wrong_kind("a number", quotes_hint(key_, node_));
    return std::nullopt;
  }
  return is_within(*value, bounds) ? value : std::nullopt;
}

std::optional<int> TomlValue::whole_number(Bounds bounds) const {
  if (const auto* real = node_.as_floating_point()) {
    error(fmt::format("'{}' must be a whole number, not {}", key_, real->get()));
    return std::nullopt;
  }
  if (!node_.is_integer()) {
    wrong_kind("a whole number", quotes_hint(key_, node_));
    return std::nullopt;
  }
  const auto value = number(bounds);
  return value ? std::optional(static_cast<int>(*value)) : std::nullopt;
}

std::optional<bool> TomlValue::boolean() const {
  if (const auto* value = node_.as_boolean()) return value->get();
  wrong_kind("true or false");
  return std::nullopt;
}

std::optional<std::string> TomlValue::text(std::size_t longest) const {
  const auto* string = node_.as_string();
  if (!string) {
    wrong_kind("a string", number_in(node_) ? "put it in quotes" : "");
    return std::nullopt;
  }
  const std::string composed = nfc(string->get());
  const std::string_view value = trimmed(composed);
  if (has_control_character(value)) {
    error(fmt::format("'{}' holds a line break or another character that cannot be seen", key_),
          "write it as one plain line");
  } else if (value.empty()) {
    error(fmt::format("'{}' is empty", key_));
  } else if (static_cast<std::size_t>(characters(value)) > longest) {
    error(fmt::format("'{}' has {} characters; at most {} are allowed", key_, characters(value),
                      longest));
  } else {
    return std::string(value);
  }
  return std::nullopt;
}

std::optional<Date> TomlValue::date() const {
  std::optional<Date> date;
  if (const auto* value = node_.as_date()) {
    date = make_date(value->get().year, value->get().month, value->get().day);
  } else if (node_.is_string()) {
    date = written_date();
  } else {
    wrong_kind("a date", fmt::format("write the date alone: {} = 2027-05-14", key_));
  }
  if (!date || (year_of(*date) >= 1900 && year_of(*date) <= 2100)) return date;
  error(fmt::format("'{}' must lie in the years 1900 to 2100, not in {}", key_, year_of(*date)));
  return std::nullopt;
}

std::optional<Date> TomlValue::written_date() const {
  const auto day = written_day("2027-05-14");
  if (!day) return std::nullopt;
  if (day->year) return on(day->day, *day->year);
  const std::string words = short_day(day->day);
  error(fmt::format("'{}' is '{}', without a year", key_, words),
        fmt::format("write the year too: {} = \"{} 2027\"", key_, words));
  return std::nullopt;
}

std::optional<MonthDay> TomlValue::month_day() const {
  if (const auto* date = node_.as_date()) {
    return MonthDay{std::chrono::month{date->get().month}, std::chrono::day{date->get().day}};
  }
  constexpr std::string_view kExample = "\"14 May\"";
  if (!node_.is_string()) {
    wrong_kind(fmt::format("a day such as {}", kExample),
               fmt::format("write the month as a word: {} = {}", key_, kExample));
    return std::nullopt;
  }
  const auto day = written_day(kExample);
  return day ? std::optional(day->day) : std::nullopt;
}

std::optional<WrittenDay> TomlValue::written_day(std::string_view example) const {
  const auto words = text(40);
  if (!words) return std::nullopt;
  const DayReading reading = read_written_day(*words);
  if (reading.day) return reading.day;
  const std::string_view hint = fault_hint(reading.fault);
  error(fmt::format("'{}' is '{}'{}", key_, *words, fault_words(reading.fault)),
        hint.empty() ? "" : fmt::format("{}: {} = {}", hint, key_, example));
  return std::nullopt;
}

std::optional<int> TomlValue::time_of_day() const {
  const auto* value = node_.as_time();
  if (!value) {
    wrong_kind("a time of day", fmt::format("write it without quotes: {} = 18:00:00", key_));
    return std::nullopt;
  }
  const toml::time& time = value->get();
  if (time.second != 0 || time.nanosecond != 0) {
    error(fmt::format("'{}' must be a whole minute", key_));
    return std::nullopt;
  }
  return time.hour * 60 + time.minute;
}

std::optional<std::size_t> TomlValue::index_in(std::span<const std::string> words) const {
  const auto word = text(80);
  if (!word) return std::nullopt;
  const auto found = std::ranges::find(words, *word);
  if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
  const std::string near = nearest(*word, words);
  error(fmt::format("'{}' must be {}, not '{}'", key_, quoted_list(words, "or"), *word),
        near.empty() ? "" : fmt::format("did you mean '{}'?", near));
  return std::nullopt;
}

std::vector<PlacedText> strings_in(const TomlValue& value, std::size_t longest) {
  std::vector<PlacedText> result;
  const auto* list = value.node().as_array();
  if (!list) {
    std::string hint;
    if (const auto* one = value.node().as_string()) {
      hint = fmt::format("write {} = [\"{}\"]", value.key(), one->get());
    }
    value.wrong_kind("a list of strings", has_control_character(hint) ? "" : hint);
    return result;
  }
  for (const toml::node& node : *list) {
    const TomlValue item = value.item(node);
    if (!node.is_string()) {
      item.error(fmt::format("'{}' must list strings, not {}", value.key(), kind_of(node)));
    } else if (auto text = item.text(longest)) {
      result.push_back({std::move(*text), item.at()});
    }
  }
  return result;
}

std::vector<std::chrono::weekday> weekdays_in(const TomlValue& value) {
  std::vector<std::chrono::weekday> days;
  for (const PlacedText& word : strings_in(value, 80)) {
    const auto day = parse_weekday(word.text);
    if (!day) {
      value.file().diagnostics->error(
          word.at, fmt::format("'{}' is no day of the week", word.text),
          fmt::format("for example: {} = [\"Sat\", \"Sun\"]", value.key()));
    } else if (std::ranges::find(days, *day) == days.end()) {
      days.push_back(*day);
    }
  }
  const auto* list = value.node().as_array();
  if (list && list->empty()) {
    value.error(fmt::format("'{}' names no day", value.key()), "leave it out if any day will do");
  }
  return days;
}

std::optional<std::vector<double>> numbers_in(const TomlValue& value, std::size_t count,
                                              std::string_view meaning, Bounds bounds) {
  const auto* list = value.node().as_array();
  if (!list) {
    value.wrong_kind(fmt::format("a list of {} numbers, {}", count, meaning));
    return std::nullopt;
  }
  if (list->size() != count) {
    value.error(fmt::format("'{}' must list {} numbers, {}, not {}", value.key(), count, meaning,
                            list->size()));
    return std::nullopt;
  }
  std::vector<double> numbers;
  for (const toml::node& node : *list) {
    const auto number = value.item(node).number(bounds);
    if (!number) return std::nullopt;  // one report is enough where all may be in another unit
    numbers.push_back(*number);
  }
  return numbers;
}

std::optional<Range> range_in(const TomlValue& value, Bounds bounds) {
  const auto* list = value.node().as_array();
  if (!list) {
    const auto number = value.number(bounds);
    return number ? std::optional(Range{*number, *number}) : std::nullopt;
  }
  if (list->size() != 2) {
    value.error(fmt::format("'{}' must be a number or [lowest, highest], not {}", value.key(),
                            counted(static_cast<int>(list->size()), "number")));
    return std::nullopt;
  }
  const auto low = value.item((*list)[0]).number(bounds);
  const auto high = value.item((*list)[1]).number(bounds);
  if (!low || !high) return std::nullopt;
  if (*low > *high) {
    value.error(fmt::format("'{}' must have the lower number first", value.key()),
                fmt::format("write {} = [{}, {}]", value.key(), *high, *low));
    return std::nullopt;
  }
  return Range{*low, *high};
}

std::string text_of(const toml::table& table) {
  std::ostringstream text;
  text.exceptions(std::ios::badbit);  // memory refused is no shorter text
  text << table;
  return text.str();
}

}  // namespace trug::read
