// SPDX-License-Identifier: MIT
#include "calendar/planting_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <vector>

#include "base/text.h"
#include "calendar/content_line.h"

namespace trug::calendar {
namespace {

constexpr std::string_view kNone = "-";

// Letters, digits, '.', '_' and '~' stand for themselves.
std::string encoded(std::string_view text) {
  if (text.empty()) return std::string(kNone);
  std::string result;
  for (const char c : text) {
    const auto octet = static_cast<unsigned char>(c);
    const bool plain =
        octet < 0x80 && (std::isalnum(octet) != 0 || c == '.' || c == '_' || c == '~');
    result += plain ? std::string(1, c) : fmt::format("%{:02X}", octet);
  }
  return result;
}

std::optional<std::string> decoded(std::string_view text) {
  std::string result;
  if (text == kNone) return result;
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text[at] != '%') {
      result += text[at];
      continue;
    }
    const std::string_view digits = text.substr(at + 1, 2);
    unsigned octet = 0;
    const auto end = std::from_chars(digits.data(), digits.data() + digits.size(), octet, 16).ptr;
    if (digits.size() != 2 || end != digits.data() + 2) return std::nullopt;
    result += static_cast<char>(octet);
    at += 2;
  }
  return is_valid_utf8(result) ? std::optional(result) : std::nullopt;
}

template <class Value, std::size_t kSize>
std::optional<Value> value_of(const Word<Value> (&words)[kSize], const std::string& word) {
  const auto* found = std::ranges::find(words, word, &Word<Value>::word);
  return found == std::end(words) ? std::nullopt : std::optional(found->value);
}

// Takes the words of a line one after the other; `sound` once and for all false where one is not as
// it should be.
class Words {
 public:
  explicit Words(std::string_view text) : words_(words_of(text)) {}

  template <class Value, class Parse>
  void take(Value& target, Parse parse) {
    if (next_ == words_.size()) {
      sound = false;
      return;
    }
    const auto value = parse(words_[next_++]);
    if (value) {
      target = *value;
    } else {
      sound = false;
    }
  }
  bool all_taken() const { return sound && next_ == words_.size(); }

  bool sound = true;

 private:
  std::vector<std::string_view> words_;
  std::size_t next_ = 0;
};

}  // namespace

Uuid planting_id(const Uuid& garden, const work::JobKey& key) {
  // U+001F (unit separator) is a control character: no name or id of a plan can hold it.
  return uuid_v5(
      garden, folded(fmt::format("planting\x1f{}\x1f{}\x1f{}\x1f{}\x1f{}\x1f{}", key.flowering_year,
                                 key.bed, key.crop, key.planting, key.succession, key.repeat)));
}

std::string planting_value(const PlantingLine& line) {
  const ToldStart& start = line.start;
  return fmt::format("{} {} {} {} {} {} {} {} {} {} {} {} {} {}", to_string(line.id),
                     line.flowering_year, encoded(start.way), encoded(start.group),
                     word_of(kMethods, start.method), encoded(word_of(kRaised, start.raised)),
                     date_value(start.start), date_value(start.in_ground), date_value(start.lift),
                     start.at.value(), start.length.value(), start.width.value(), start.plants,
                     encoded(start.variety));
}

std::optional<PlantingLine> parse_planting_value(std::string_view value) {
  PlantingLine line;
  ToldStart& start = line.start;
  Words words(value);
  const auto word = [](const auto& table) {
    return [&table](std::string_view text) { return value_of(table, decoded(text).value_or("")); };
  };
  words.take(line.id, parse_uuid);
  words.take(line.flowering_year, parse_count);
  words.take(start.way, decoded);
  words.take(start.group, decoded);
  words.take(start.method, word(kMethods));
  words.take(start.raised, word(kRaised));
  for (Date* day : {&start.start, &start.in_ground, &start.lift})
    words.take(*day, parse_date_value);
  const auto millimetres = [](std::string_view text) {
    const auto count = parse_count(text);
    return count ? std::optional(Millimetres{*count}) : std::nullopt;
  };
  for (Millimetres* each : {&start.at, &start.length, &start.width}) words.take(*each, millimetres);
  words.take(start.plants, parse_count);
  words.take(start.variety, decoded);
  return words.all_taken() ? std::optional(line) : std::nullopt;
}

}  // namespace trug::calendar
