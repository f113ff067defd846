// SPDX-License-Identifier: MIT
#include "read/toml_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "base/text.h"
#include "read/text_file.h"
#include "read/toml_complaint.h"

// Debian's toml++ 3.3.0 asserts on "[[[" and "[?*", which are then reported well without it.
#define TOML_ASSERT(expression) static_assert(true)
#define TOML_MAX_NESTED_VALUES 32
#define TOML_HEADER_ONLY 1
#include <toml++/toml.h>

namespace trug::read {
namespace {

struct Document {
  toml::table root;
  std::string path;
  Diagnostics* diagnostics = nullptr;
};

struct Missing {
  std::vector<std::string> keys;  // any one of them
  std::string example;
};

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
      return "a number";
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

std::optional<double> number_in(const toml::node& node) {
  if (const auto* whole = node.as_integer()) return static_cast<double>(whole->get());
  if (const auto* real = node.as_floating_point()) return real->get();
  return std::nullopt;
}

// What to do about a number that is written as a string.
std::string quotes_hint(const toml::node& node) {
  const auto* text = node.as_string();
  const bool is_number = text && !text->get().empty() &&
                         text->get().find_first_not_of("0123456789.-+") == std::string::npos;
  return is_number ? "leave the quotes away" : "";
}

std::size_t characters(std::string_view text) {
  return static_cast<std::size_t>(std::ranges::count_if(
      text, [](char c) { return (static_cast<unsigned char>(c) & 0xc0) != 0x80; }));
}

std::string trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(' ') - first + 1));
}

// Two groups of digits with a mark between them, "05-14": which is the day?
bool is_day_or_month(std::string_view text) {
  const std::size_t mark = text.find_first_of("-/.");
  if (mark == std::string_view::npos || mark == 0 || mark + 1 == text.size()) return false;
  return text.find_first_not_of("0123456789") == mark &&
         text.find_first_not_of("0123456789", mark + 1) == std::string_view::npos;
}

// A day and a month's name, but no such day: "30 February".
bool is_impossible_day(std::string_view text) {
  const std::size_t blank = text.find(' ');
  if (blank == std::string_view::npos) return false;
  const auto is_number = [](std::string_view part) {
    return !part.empty() && part.find_first_not_of("0123456789") == std::string_view::npos;
  };
  const std::string_view first = text.substr(0, blank);
  const std::string_view second = text.substr(blank + 1);
  return (is_number(first) && parse_month_day("1 " + std::string(second))) ||
         (is_number(second) && parse_month_day("1 " + std::string(first)));
}

// "'a', 'b' or 'c'"
std::string quoted_list(std::span<const std::string> words, std::string_view last_word) {
  std::vector<std::string> quoted;
  for (const std::string& word : words) quoted.push_back(fmt::format("'{}'", word));
  return listed(quoted, last_word);
}

}  // namespace

struct TomlTable::Impl {
  std::shared_ptr<const Document> document;
  const toml::table* table = nullptr;
  std::string path;     // "bed.stretch"
  std::string heading;  // "[[bed.stretch]]"; empty for the file itself
  Position at;
  std::vector<std::string> known;
  std::vector<Missing> missing;

  Position position(const toml::source_region& source) const {
    return {document->path, static_cast<int>(source.begin.line),
            static_cast<int>(source.begin.column)};
  }

  Position position(const toml::node& node) const { return position(node.source()); }

  // The node of a key, noting that the key is known and whether it was needed.
  const toml::node* look(std::string_view key, const Need& need) {
    if (std::ranges::find(known, key) == known.end()) known.emplace_back(key);
    const toml::node* node = table->get(key);
    if (!node && need.required) missing.push_back({{std::string(key)}, std::string(need.example)});
    return node;
  }

  void error(const toml::node& node, std::string message, std::string hint = {}) const {
    document->diagnostics->error(position(node), std::move(message), std::move(hint));
  }

  void wrong_kind(std::string_view key, const toml::node& node, std::string_view wanted,
                  std::string hint = {}) const {
    error(node, fmt::format("'{}' must be {}, not {}", key, wanted, kind_of(node)),
          std::move(hint));
  }

  bool within(std::string_view key, const toml::node& node, double value, Bounds bounds) const {
    if (!std::isfinite(value)) {
      error(node, fmt::format("'{}' must be a finite number", key));
      return false;
    }
    if (value >= bounds.low && value <= bounds.high) return true;
    error(node,
          fmt::format("'{}' must be from {} to {}, not {}", key, bounds.low, bounds.high, value),
          value > bounds.high ? std::string(bounds.hint) : "");
    return false;
  }

  std::optional<double> number(std::string_view key, const toml::node& node, Bounds bounds) const {
    const auto value = number_in(node);
    if (!value) {
      wrong_kind(key, node, "a number", quotes_hint(node));
      return std::nullopt;
    }
    if (!within(key, node, *value, bounds)) return std::nullopt;
    return value;
  }

  std::optional<std::string> text(std::string_view key, const toml::node& node,
                                  std::size_t longest) const {
    const auto* string = node.as_string();
    if (!string) {
      wrong_kind(key, node, "a string", number_in(node) ? "put it in quotes" : "");
      return std::nullopt;
    }
    const std::string value = trimmed(nfc(string->get()));
    if (has_control_character(value)) {
      error(node, fmt::format("'{}' holds a line break or another control character", key),
            "write it as one plain line");
      return std::nullopt;
    }
    if (value.empty()) {
      error(node, fmt::format("'{}' is empty", key));
      return std::nullopt;
    }
    if (characters(value) > longest) {
      error(node, fmt::format("'{}' has {} characters; at most {} are allowed", key,
                              characters(value), longest));
      return std::nullopt;
    }
    return value;
  }

  std::unique_ptr<Impl> child(std::string_view key, const toml::table& entry, bool in_list) const {
    auto result = std::make_unique<Impl>();
    result->document = document;
    result->table = &entry;
    result->path = path.empty() ? std::string(key) : fmt::format("{}.{}", path, key);
    result->heading = fmt::format(fmt::runtime(in_list ? "[[{}]]" : "[{}]"), result->path);
    result->at = position(entry);
    return result;
  }

  std::string in_heading() const {
    return heading.empty() ? std::string("before the first heading") : "under " + heading;
  }

  // The needed key that a mistyped one stands for is not reported a second time.
  void forget_missing(const std::string& key) {
    std::erase_if(missing, [&](const Missing& entry) {
      return std::ranges::find(entry.keys, key) != entry.keys.end();
    });
  }

  void report_unknown(const toml::key& key, const toml::node& node, std::span<const KeyHome> homes);
  void report_missing() const;
  void add_paths(const toml::table& from, const std::string& prefix, int deeper,
                 std::vector<KeyPath>& paths) const;
};

namespace {

// Where homes put a key: "[[bed]] or [[bed.stretch]]"; empty for a key they do not know.
std::string home_of(std::string_view key, std::span<const KeyHome> homes) {
  std::vector<std::string> headings;
  for (const KeyHome& home : homes) {
    if (home.key == key) headings.emplace_back(home.heading);
  }
  return listed(headings, "or");
}

}  // namespace

void TomlTable::Impl::report_unknown(const toml::key& key, const toml::node& node,
                                     std::span<const KeyHome> homes) {
  const std::string name(key.str());
  std::string written = fmt::format("key '{}'", name);
  const std::string full = path.empty() ? name : fmt::format("{}.{}", path, name);
  if (node.is_table()) written = fmt::format("heading [{}]", full);
  if (node.is_array_of_tables()) written = fmt::format("heading [[{}]]", full);

  const std::string home = home_of(name, homes);
  std::vector<std::string> absent;
  for (const std::string& candidate : known) {
    if (!table->contains(candidate)) absent.push_back(candidate);
  }
  std::string near = nearest(name, absent);
  if (near.empty()) near = nearest(name, known);
  std::string hint;
  if (!home.empty()) {
    hint = home.starts_with('[') ? fmt::format("'{}' belongs under {}: move it there", name, home)
                                 : fmt::format("'{}' belongs {}: move it there", name, home);
  } else if (!near.empty()) {
    hint = fmt::format("did you mean '{}'?", near);
    forget_missing(near);
  } else {
    std::vector<std::string> elsewhere;
    for (const KeyHome& candidate : homes) elsewhere.emplace_back(candidate.key);
    near = nearest(name, elsewhere);
    if (!near.empty()) hint = fmt::format("did you mean '{}' of {}?", near, home_of(near, homes));
  }
  const std::string place =
      heading.empty() || !written.starts_with("key") ? "" : " " + in_heading();
  document->diagnostics->error(position(key.source()), "unknown " + written + place, hint);
}

void TomlTable::Impl::report_missing() const {
  for (const Missing& entry : missing) {
    const bool is_heading = entry.example.starts_with('[');
    std::string message = is_heading ? "missing heading " + entry.example
                                     : "missing key " + quoted_list(entry.keys, "or");
    if (!heading.empty()) message += " " + in_heading();
    std::string hint;
    if (!is_heading && !entry.example.empty()) hint = "for example: " + entry.example;
    document->diagnostics->error(at, std::move(message), std::move(hint));
  }
}

void TomlTable::Impl::add_paths(const toml::table& from, const std::string& prefix, int deeper,
                                std::vector<KeyPath>& paths) const {
  if (deeper == 0) return;
  for (const auto& [key, node] : from) {
    const std::string full = prefix + std::string(key.str());
    const auto* list = node.as_array();
    bool is_number = node.is_number();
    if (list) {
      for (const toml::node& item : *list) is_number = is_number || item.is_number();
    }
    paths.push_back({full, position(key.source()), is_number});
    if (const auto* inner = node.as_table()) add_paths(*inner, full + ".", deeper - 1, paths);
    if (!list) continue;
    for (const toml::node& item : *list) {
      const auto* inner = item.as_table();
      if (!inner) continue;
      const auto* name = inner->get_as<std::string>("name");
      const std::string entry = name ? full + "." + name->get() : full;
      if (name) paths.push_back({entry, position(item), false});
      add_paths(*inner, entry + ".", deeper - 1, paths);
    }
  }
}

TomlTable::TomlTable(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
TomlTable::~TomlTable() = default;
TomlTable::TomlTable(TomlTable&&) noexcept = default;
TomlTable& TomlTable::operator=(TomlTable&&) noexcept = default;

std::optional<TomlTable> TomlTable::parse(std::string_view text, const std::string& path,
                                          Diagnostics& diagnostics) {
  const auto checked = checked_text(text, path, diagnostics);
  if (!checked) return std::nullopt;
  try {
    auto document = std::make_shared<Document>();
    document->root = toml::parse(std::string_view(*checked), std::string_view(path));
    document->path = path;
    document->diagnostics = &diagnostics;
    auto impl = std::make_unique<Impl>();
    impl->table = &document->root;
    impl->document = std::move(document);
    impl->at = {path, 1, 1};
    return TomlTable(std::move(impl));
  } catch (const toml::parse_error& complaint) {
    const auto& place = complaint.source().begin;
    std::size_t from = 0;
    for (toml::source_index line = 1; line < place.line && from != std::string::npos; ++line) {
      from = checked->find('\n', from);
      if (from != std::string::npos) ++from;
    }
    const std::string_view line =
        std::string_view(*checked).substr(std::min(from, checked->size()));
    diagnostics.error({path, static_cast<int>(place.line), static_cast<int>(place.column)},
                      plain_complaint(complaint.description()),
                      slip_hint(line.substr(0, line.find('\n'))));
    return std::nullopt;
  }
}

const Position& TomlTable::at() const { return impl_->at; }

Position TomlTable::at(std::string_view key) const {
  const toml::node* node = impl_->table->get(key);
  return node ? impl_->position(*node) : impl_->at;
}

bool TomlTable::has(std::string_view key) { return impl_->look(key, kOptional) != nullptr; }

std::optional<std::string> TomlTable::text(std::string_view key, Need need, std::size_t longest) {
  const toml::node* node = impl_->look(key, need);
  if (!node) return std::nullopt;
  return impl_->text(key, *node, longest);
}

std::optional<double> TomlTable::number(std::string_view key, Need need, Bounds bounds) {
  const toml::node* node = impl_->look(key, need);
  if (!node) return std::nullopt;
  return impl_->number(key, *node, bounds);
}

std::optional<int> TomlTable::whole_number(std::string_view key, Need need, Bounds bounds) {
  const toml::node* node = impl_->look(key, need);
  if (!node) return std::nullopt;
  if (const auto* real = node->as_floating_point()) {
    impl_->error(*node, fmt::format("'{}' must be a whole number, not {}", key, real->get()));
    return std::nullopt;
  }
  if (!node->is_integer()) {
    impl_->wrong_kind(key, *node, "a whole number", quotes_hint(*node));
    return std::nullopt;
  }
  const auto value = impl_->number(key, *node, bounds);
  if (!value) return std::nullopt;
  return static_cast<int>(*value);
}

std::optional<bool> TomlTable::boolean(std::string_view key, Need need) {
  const toml::node* node = impl_->look(key, need);
  if (!node) return std::nullopt;
  if (const auto* value = node->as_boolean()) return value->get();
  impl_->wrong_kind(key, *node, "true or false");
  return std::nullopt;
}

std::optional<Date> TomlTable::date(std::string_view key, Need need) {
  const toml::node* node = impl_->look(key, need);
  if (!node) return std::nullopt;
  const auto* value = node->as_date();
  if (!value) {
    const auto* string = node->as_string();
    std::string hint = fmt::format("write the date alone: {} = 2027-05-14", key);
    if (string && parse_iso(string->get())) {
      hint = fmt::format("leave the quotes away: {} = {}", key, string->get());
    }
    impl_->wrong_kind(key, *node, "a date", hint);
    return std::nullopt;
  }
  const toml::date& date = value->get();
  if (date.year < 1900 || date.year > 2100) {
    impl_->error(*node,
                 fmt::format("'{}' must lie in the years 1900 to 2100, not in {}", key, date.year));
    return std::nullopt;
  }
  return make_date(date.year, date.month, date.day);
}

std::optional<MonthDay> TomlTable::month_day(std::string_view key, Need need) {
  const toml::node* node = impl_->look(key, need);
  if (!node) return std::nullopt;
  if (const auto* date = node->as_date()) {
    return MonthDay{std::chrono::month{date->get().month}, std::chrono::day{date->get().day}};
  }
  const std::string example = fmt::format("write the month as a word: {} = \"14 May\"", key);
  const auto* string = node->as_string();
  if (!string) {
    impl_->wrong_kind(key, *node, "a day such as \"14 May\"", example);
    return std::nullopt;
  }
  const auto text = impl_->text(key, *node, 40);
  if (!text) return std::nullopt;
  if (const auto day = parse_month_day(*text)) return day;
  if (is_day_or_month(*text)) {
    impl_->error(*node,
                 fmt::format("'{}' is '{}': which is the day and which the month?", key, *text),
                 example);
  } else if (is_impossible_day(*text)) {
    impl_->error(*node, fmt::format("'{}' is '{}', a day that no year has", key, *text));
  } else {
    impl_->error(*node, fmt::format("'{}' must be a day such as \"14 May\", not '{}'", key, *text),
                 example);
  }
  return std::nullopt;
}

std::optional<int> TomlTable::time_of_day(std::string_view key, Need need) {
  const toml::node* node = impl_->look(key, need);
  if (!node) return std::nullopt;
  const auto* value = node->as_time();
  if (!value) {
    impl_->wrong_kind(key, *node, "a time of day",
                      fmt::format("write it without quotes: {} = 18:00:00", key));
    return std::nullopt;
  }
  const toml::time& time = value->get();
  if (time.second != 0 || time.nanosecond != 0) {
    impl_->error(*node, fmt::format("'{}' must be a whole minute", key));
    return std::nullopt;
  }
  return time.hour * 60 + time.minute;
}

std::vector<std::chrono::weekday> TomlTable::weekdays(std::string_view key) {
  std::vector<std::chrono::weekday> days;
  if (!impl_->table->contains(key)) {
    has(key);
    return days;
  }
  const std::vector<PlacedText> words = strings(key);
  for (const PlacedText& word : words) {
    const auto day = parse_weekday(word.text);
    if (!day) {
      impl_->document->diagnostics->error(word.at,
                                          fmt::format("'{}' is no day of the week", word.text),
                                          fmt::format("for example: {} = [\"Sat\", \"Sun\"]", key));
    } else if (std::ranges::find(days, *day) == days.end()) {
      days.push_back(*day);
    }
  }
  const auto* list = impl_->table->get_as<toml::array>(key);
  if (list && list->empty()) {
    impl_->error(*list, fmt::format("'{}' names no day", key), "leave it out if any day will do");
  }
  return days;
}

std::vector<PlacedText> TomlTable::strings(std::string_view key, Need need, std::size_t longest) {
  std::vector<PlacedText> result;
  const toml::node* node = impl_->look(key, need);
  if (!node) return result;
  const auto* list = node->as_array();
  if (!list) {
    std::string hint;
    if (const auto* one = node->as_string())
      hint = fmt::format("write {} = [\"{}\"]", key, one->get());
    impl_->wrong_kind(key, *node, "a list of strings", has_control_character(hint) ? "" : hint);
    return result;
  }
  for (const toml::node& item : *list) {
    if (!item.is_string()) {
      impl_->error(item, fmt::format("'{}' must list strings, not {}", key, kind_of(item)));
    } else if (auto text = impl_->text(key, item, longest)) {
      result.push_back({std::move(*text), impl_->position(item)});
    }
  }
  return result;
}

std::optional<std::vector<double>> TomlTable::numbers(std::string_view key, std::size_t count,
                                                      std::string_view meaning, Bounds bounds) {
  const toml::node* node = impl_->look(key, kOptional);
  if (!node) return std::nullopt;
  const auto* list = node->as_array();
  if (!list) {
    impl_->wrong_kind(key, *node, fmt::format("a list of {} numbers, {}", count, meaning));
    return std::nullopt;
  }
  if (list->size() != count) {
    impl_->error(*node, fmt::format("'{}' must list {} numbers, {}, not {}", key, count, meaning,
                                    list->size()));
    return std::nullopt;
  }
  std::vector<double> values;
  for (const toml::node& item : *list) {
    const auto value = impl_->number(key, item, bounds);
    if (!value) return std::nullopt;  // one report is enough where all may be in another unit
    values.push_back(*value);
  }
  return values;
}

std::optional<Range> TomlTable::range(std::string_view key, Need need, Bounds bounds) {
  const toml::node* node = impl_->look(key, need);
  if (!node) return std::nullopt;
  const auto* list = node->as_array();
  if (!list) {
    const auto value = impl_->number(key, *node, bounds);
    if (!value) return std::nullopt;
    return Range{*value, *value};
  }
  if (list->size() != 2) {
    impl_->error(*node, fmt::format("'{}' must be a number or [lowest, highest], not {}", key,
                                    counted(static_cast<int>(list->size()), "number")));
    return std::nullopt;
  }
  const auto low = impl_->number(key, (*list)[0], bounds);
  const auto high = impl_->number(key, (*list)[1], bounds);
  if (!low || !high) return std::nullopt;
  if (*low > *high) {
    impl_->error(*node, fmt::format("'{}' must have the lower number first", key),
                 fmt::format("write {} = [{}, {}]", key, *high, *low));
    return std::nullopt;
  }
  return Range{*low, *high};
}

std::optional<std::size_t> TomlTable::word_index(std::string_view key,
                                                 const std::vector<std::string>& words, Need need) {
  const toml::node* node = impl_->look(key, need);
  if (!node) return std::nullopt;
  const auto text = impl_->text(key, *node, 80);
  if (!text) return std::nullopt;
  const auto found = std::ranges::find(words, *text);
  if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
  const std::string near = nearest(*text, words);
  impl_->error(*node,
               fmt::format("'{}' must be {}, not '{}'", key, quoted_list(words, "or"), *text),
               near.empty() ? "" : fmt::format("did you mean '{}'?", near));
  return std::nullopt;
}

std::optional<std::string> TomlTable::one_of(std::span<const std::string> keys, Need need) {
  std::vector<std::string> present;
  for (const std::string& key : keys) {
    if (has(key)) present.push_back(key);
  }
  if (present.empty()) {
    if (need.required) {
      impl_->missing.push_back({{keys.begin(), keys.end()}, std::string(need.example)});
    }
    return std::nullopt;
  }
  if (present.size() > 1) {
    error(present[1], fmt::format("{} say the same thing twice", quoted_list(present, "and")),
          "keep one of them");
    return std::nullopt;
  }
  return present.front();
}

std::optional<TomlTable> TomlTable::table(std::string_view key, Need need) {
  const toml::node* node = impl_->look(key, need);
  if (!node) return std::nullopt;
  if (const auto* found = node->as_table()) return TomlTable(impl_->child(key, *found, false));
  const std::string full = impl_->child(key, *impl_->table, false)->heading;
  if (node->is_array_of_tables()) {
    impl_->error(*node, fmt::format("there is one {}, not a list of them", full),
                 fmt::format("write {} with single brackets", full));
  } else {
    impl_->wrong_kind(key, *node, fmt::format("a heading {}", full));
  }
  return std::nullopt;
}

std::vector<TomlTable> TomlTable::tables(std::string_view key, Need need) {
  std::vector<TomlTable> result;
  const toml::node* node = impl_->look(key, need);
  if (!node) return result;
  const std::string full = impl_->child(key, *impl_->table, true)->heading;
  const auto* list = node->as_array();
  if (node->is_table()) {
    impl_->error(*node, fmt::format("there may be several {}: each is one of a list", full),
                 fmt::format("write {} with double brackets", full));
  } else if (!list) {
    impl_->wrong_kind(key, *node, fmt::format("a list of headings {}", full));
  }
  if (!list) return result;
  for (const toml::node& item : *list) {
    if (const auto* found = item.as_table()) {
      result.push_back(TomlTable(impl_->child(key, *found, true)));
    } else {
      impl_->wrong_kind(key, item, fmt::format("a list of headings {}", full));
    }
  }
  return result;
}

void TomlTable::error(std::string_view key, std::string message, std::string hint) {
  impl_->document->diagnostics->error(at(key), std::move(message), std::move(hint));
}

void TomlTable::finish(std::span<const KeyHome> homes) {
  for (const auto& [key, node] : *impl_->table) {
    if (std::ranges::find(impl_->known, key.str()) != impl_->known.end()) continue;
    impl_->report_unknown(key, node, homes);
  }
  impl_->report_missing();
}

std::vector<KeyPath> TomlTable::key_paths() const {
  std::vector<KeyPath> paths;
  constexpr int kDeepest = 8;  // a dotted key of thousands of parts must not fill the stack
  impl_->add_paths(*impl_->table, "", kDeepest, paths);
  return paths;
}

}  // namespace trug::read
