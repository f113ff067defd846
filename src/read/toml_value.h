// SPDX-License-Identifier: MIT
// One value of a TOML file, read as what it should be. With toml_table.cpp the only door to
// toml++; no other file includes this one.
#pragma once

// Debian's toml++ 3.3.0 asserts on "[[[" and "[?*", which are then reported well without it.
#define TOML_ASSERT(expression) static_assert(true)
#define TOML_MAX_NESTED_VALUES 32
#define TOML_HEADER_ONLY 0
#include <toml++/toml.h>

#include <chrono>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/date.h"
#include "base/day_text.h"
#include "base/diagnostics.h"
#include "garden/sheet.h"
#include "read/toml_terms.h"

namespace trug::read {

// A whole file, kept alive by every table of it.
struct TomlFile {
  toml::table root;
  std::string path;
  Diagnostics* diagnostics;

  TomlFile(toml::table table, std::string its_path, Diagnostics* its_diagnostics)
      : root(std::move(table)), path(std::move(its_path)), diagnostics(its_diagnostics) {}
  Position position(const toml::source_region& source) const;
};

// "a string", "a date": what a value is, for messages.
std::string_view kind_of(const toml::node& node);
// "'a', 'b' or 'c'"
std::string quoted_list(std::span<const std::string> words, std::string_view last_word);

// The value of a key. Each answer is empty where it has reported why. Meanings and limits as in
// TomlTable.
class TomlValue {
 public:
  TomlValue(const TomlFile& file, std::string_view key, const toml::node& node)
      : file_(file), key_(key), node_(node) {}

  const TomlFile& file() const { return file_; }
  std::string_view key() const { return key_; }
  const toml::node& node() const { return node_; }
  Position at() const { return file_.position(node_.source()); }

  std::optional<std::string> text(std::size_t longest) const;
  std::optional<double> number(Bounds bounds) const;
  std::optional<int> whole_number(Bounds bounds) const;
  std::optional<bool> boolean() const;
  std::optional<Date> date() const;
  std::optional<MonthDay> month_day() const;
  std::optional<int> time_of_day() const;
  // Which of the words it is.
  std::optional<std::size_t> index_in(std::span<const std::string> words) const;

  // An item of a list, reported under the list's key.
  TomlValue item(const toml::node& node) const { return {file_, key_, node}; }

  // Reports at the value.
  void error(std::string message, std::string hint = {}) const;
  // "'key' must be WANTED, not a string"
  void wrong_kind(std::string_view wanted, std::string hint = {}) const;

 private:
  bool is_within(double value, Bounds bounds) const;
  // A day as people write it; `example` is one for the hint.
  std::optional<WrittenDay> written_day(std::string_view example) const;
  std::optional<Date> written_date() const;

  const TomlFile& file_;
  std::string_view key_;
  const toml::node& node_;
};

// Lists of values, and what is one or a list.
std::vector<std::chrono::weekday> weekdays_in(const TomlValue& value);
std::vector<PlacedText> strings_in(const TomlValue& value, std::size_t longest);
std::optional<std::vector<double>> numbers_in(const TomlValue& value, std::size_t count,
                                              std::string_view meaning, Bounds bounds);
std::optional<Range> range_in(const TomlValue& value, Bounds bounds);

}  // namespace trug::read
