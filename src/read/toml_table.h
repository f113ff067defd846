// SPDX-License-Identifier: MIT
// One table of a TOML file, read key by key with every mistake reported at its line.
//
// With toml_value.h the only door to toml++. A reader asks for each key it knows and ends with
// `finish()`, which reports the missing and the unknown keys together. Nothing throws; a value that
// is wrong is reported and comes back absent.
#pragma once

#include <chrono>
#include <cstddef>
#include <initializer_list>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/date.h"
#include "base/diagnostics.h"
#include "base/words.h"
#include "garden/sheet.h"
#include "read/toml_terms.h"

namespace trug::read {

class TomlTable {
 public:
  // Reads a whole file. Keeps its text in `diagnostics` for quoting.
  static std::optional<TomlTable> parse(std::string_view text, const std::string& path,
                                        Diagnostics& diagnostics);
  ~TomlTable();
  TomlTable(TomlTable&&) noexcept;
  TomlTable& operator=(TomlTable&&) noexcept;

  // Where the table begins: its heading.
  const Position& at() const;
  // Where the value of `key` begins; the table's own place when the key is absent.
  Position at(std::string_view key) const;
  // Whether the key is there. It counts as known from now on.
  bool has(std::string_view key);
  bool has_text(std::string_view key);  // and is a string

  // One line of text: trimmed, normal form C, not empty, no control characters, at most `longest`
  // characters.
  std::optional<std::string> text(std::string_view key, Need need = kOptional,
                                  std::size_t longest = 80);
  // Any finite number, whole or not.
  std::optional<double> number(std::string_view key, Need need = kOptional, Bounds bounds = {});
  std::optional<int> whole_number(std::string_view key, Need need = kOptional, Bounds bounds = {});
  std::optional<bool> boolean(std::string_view key, Need need = kOptional);
  // A TOML date, 1900 to 2100.
  std::optional<Date> date(std::string_view key, Need need = kOptional);
  // "14 May", "May 14" or a TOML date, whose year is ignored.
  std::optional<MonthDay> month_day(std::string_view key, Need need = kOptional);
  // A TOML time of whole minutes, as minutes after midnight.
  std::optional<int> time_of_day(std::string_view key, Need need = kOptional);
  // At least one day; a day named twice counts once.
  std::vector<std::chrono::weekday> weekdays(std::string_view key);
  std::vector<PlacedText> strings(std::string_view key, Need need = kOptional,
                                  std::size_t longest = 80);
  // Exactly `count` numbers; `meaning` says what they are: "January to December".
  std::optional<std::vector<double>> numbers(std::string_view key, std::size_t count,
                                             std::string_view meaning, Bounds bounds = {});
  // One number, or [low, high].
  std::optional<Range> range(std::string_view key, Need need = kOptional, Bounds bounds = {});
  // One of the words, as what it stands for.
  template <class Value, std::size_t kSize>
  std::optional<Value> choice(std::string_view key, const Word<Value> (&words)[kSize],
                              Need need = kOptional) {
    std::vector<std::string> known;
    for (const auto& [value, word] : words) known.emplace_back(word);
    const std::optional<std::size_t> index = word_index(key, known, need);
    return index ? std::optional(words[*index].value) : std::nullopt;
  }
  template <class Value>
  std::optional<Value> choice(std::string_view key,
                              std::initializer_list<std::pair<std::string_view, Value>> words,
                              Need need = kOptional) {
    std::vector<std::string> known;
    for (const auto& [word, value] : words) known.emplace_back(word);
    const std::optional<std::size_t> index = word_index(key, known, need);
    return index ? std::optional((words.begin() + *index)->second) : std::nullopt;
  }
  // Which one of several keys is there; two are an error, none only where one is needed.
  std::optional<std::string> one_of(std::span<const std::string> keys, Need need = kOptional);

  std::optional<TomlTable> table(std::string_view key, Need need = kOptional);
  std::vector<TomlTable> tables(std::string_view key, Need need = kOptional);

  // Reports at the value of `key`.
  void error(std::string_view key, std::string message, std::string hint = {});
  // Reports the needed keys that are not there and those nobody asked for, a mistyped one once.
  void finish(std::span<const KeyHome> homes = {});
  // What the table says, in one form whatever its remarks, blanks and order of keys; without the
  // keys of `left_out`.
  std::string canonical(std::initializer_list<std::string_view> left_out) const;
  // Every key below this table, eight tables deep, in no particular order.
  std::vector<KeyPath> key_paths() const;

 private:
  struct Impl;
  explicit TomlTable(std::unique_ptr<Impl> impl);
  std::optional<std::size_t> word_index(std::string_view key, std::span<const std::string> words,
                                        Need need);

  std::unique_ptr<Impl> impl_;
};

}  // namespace trug::read
