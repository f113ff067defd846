// SPDX-License-Identifier: MIT
#include "read/toml_table.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "read/key_hint.h"
#include "read/text_file.h"
#include "read/toml_complaint.h"

// This file compiles the library, for toml_value.cpp too.
#define TOML_IMPLEMENTATION
#include "read/toml_value.h"

namespace trug::read {
namespace {

// A key that was needed and is not there.
struct Missing {
  std::vector<std::string> keys;  // any one of them
  std::string example;
};

// Where homes put a key: "[[bed]] or [[bed.stretch]]"; empty for a key they do not know.
std::string home_of(std::string_view key, std::span<const KeyHome> homes) {
  std::vector<std::string> headings;
  for (const KeyHome& home : homes) {
    if (home.key == key) headings.emplace_back(home.heading);
  }
  return listed(headings, "or");
}

bool holds_number(const toml::node& node) {
  if (node.is_number()) return true;
  const auto* list = node.as_array();
  return list &&
         std::ranges::any_of(*list, [](const toml::node& item) { return item.is_number(); });
}

// Collects the place of every key.
class KeyPaths {
 public:
  explicit KeyPaths(const TomlFile& file) : file_(file) {}

  void add(const toml::table& from, const std::string& prefix, int deeper) {
    if (deeper == 0) return;
    for (const auto& [key, node] : from) {
      const std::string path = prefix + std::string(key.str());
      paths_.push_back({path, file_.position(key.source()), holds_number(node)});
      if (const auto* inner = node.as_table()) add(*inner, path + ".", deeper - 1);
      if (const auto* list = node.as_array()) add_entries(*list, path, deeper - 1);
    }
  }

  std::vector<KeyPath> take() { return std::move(paths_); }

 private:
  void add_entries(const toml::array& list, const std::string& path, int deeper) {
    for (const toml::node& item : list) {
      const auto* inner = item.as_table();
      if (!inner) continue;
      const auto* name = inner->get_as<std::string>("name");
      const std::string entry = name ? path + "." + name->get() : path;
      if (name) paths_.push_back({entry, file_.position(item.source()), false});
      add(*inner, entry + ".", deeper);
    }
  }

  const TomlFile& file_;
  std::vector<KeyPath> paths_;
};

// Reports the library's complaint in our words, at the line it names.
void report(const toml::parse_error& complaint, std::string_view text, const std::string& path,
            Diagnostics& diagnostics) {
  const auto& place = complaint.source().begin;
  std::size_t from = 0;
  for (toml::source_index line = 1; line < place.line && from != std::string::npos; ++line) {
    from = text.find('\n', from);
    if (from != std::string::npos) ++from;
  }
  const std::string_view line = text.substr(std::min(from, text.size()));
  diagnostics.error({path, static_cast<int>(place.line), static_cast<int>(place.column)},
                    plain_complaint(complaint.description()),
                    slip_hint(line.substr(0, line.find('\n'))));
}

// Null where the text is no TOML, which is reported then.
std::shared_ptr<const TomlFile> parsed(std::string_view text, const std::string& path,
                                       Diagnostics& diagnostics) {
  const auto checked = checked_text(text, path, diagnostics);
  if (!checked) return nullptr;
  try {
    return std::make_shared<const TomlFile>(
        toml::parse(std::string_view(*checked), std::string_view(path)), path, &diagnostics);
  } catch (const toml::parse_error& complaint) {
    report(complaint, *checked, path, diagnostics);
    return nullptr;
  }
}

// Reports a value that is not the one table of its heading.
void no_table(const TomlValue& value, const std::string& heading) {
  if (value.node().is_array_of_tables()) {
    value.error(fmt::format("there is one {}, not a list of them", heading),
                fmt::format("write {} with single brackets", heading));
  } else {
    value.wrong_kind("a heading " + heading);
  }
}

// Reports a value that is no list of tables.
void no_tables(const TomlValue& value, const std::string& heading) {
  if (value.node().is_table()) {
    value.error(fmt::format("there may be several {}: each is one of a list", heading),
                fmt::format("write {} with double brackets", heading));
  } else {
    value.wrong_kind("a list of headings " + heading);
  }
}

}  // namespace

struct TomlTable::Impl {
  std::shared_ptr<const TomlFile> file;
  const toml::table* table = nullptr;
  std::string path;     // "bed.stretch"
  std::string heading;  // "[[bed.stretch]]"; empty for the file itself
  Position at;
  std::vector<std::string> known;
  std::vector<Missing> missing;

  // The value of a key, noting that the key is known and whether it was needed.
  std::optional<TomlValue> look(std::string_view key, const Need& need) {
    if (std::ranges::find(known, key) == known.end()) known.emplace_back(key);
    const toml::node* node = table->get(key);
    if (!node && need.required) missing.push_back({{std::string(key)}, std::string(need.example)});
    return node ? std::optional<TomlValue>(std::in_place, *file, key, *node) : std::nullopt;
  }

  // What `ask` makes of the value of a key; an empty answer where the key is absent.
  template <class Ask>
  auto read(std::string_view key, const Need& need, Ask ask) {
    const std::optional<TomlValue> value = look(key, need);
    return value ? ask(*value) : decltype(ask(*value)){};
  }

  std::string path_of(std::string_view key) const {
    return path.empty() ? std::string(key) : fmt::format("{}.{}", path, key);
  }
  std::string heading_of(std::string_view key) const { return fmt::format("[{}]", path_of(key)); }
  std::string list_heading_of(std::string_view key) const {
    return fmt::format("[[{}]]", path_of(key));
  }

  std::unique_ptr<Impl> child(std::string_view key, const toml::table& entry,
                              std::string its_heading) const {
    auto result = std::make_unique<Impl>();
    result->file = file;
    result->table = &entry;
    result->path = path_of(key);
    result->heading = std::move(its_heading);
    result->at = file->position(entry.source());
    return result;
  }

  std::string in_heading() const {
    return heading.empty() ? std::string("before the first heading") : "under " + heading;
  }

  // The known key that a mistyped one stands for: one that is absent rather than one that is there.
  std::string nearest_known(const std::string& name) const {
    std::vector<std::string> absent;
    for (const std::string& candidate : known) {
      if (!table->contains(candidate)) absent.push_back(candidate);
    }
    const std::string near = nearest(name, absent);
    return near.empty() ? nearest(name, known) : near;
  }

  // The needed key that a mistyped one stands for is not reported a second time.
  void forget_missing(const std::string& key) {
    std::erase_if(missing, [&](const Missing& entry) {
      return std::ranges::find(entry.keys, key) != entry.keys.end();
    });
  }

  std::string what_may_stand(std::span<const KeyHome> homes) const {
    const std::string keys = keys_that_may_stand(path, known, homes);
    return heading.empty() ? fmt::format("there may stand {}", keys)
                           : fmt::format("under {} may stand {}", heading, keys);
  }

  // What to do about a key that nobody asked for.
  std::string unknown_hint(const std::string& name, std::span<const KeyHome> homes) {
    const std::string home = home_of(name, homes);
    if (!home.empty()) {
      return fmt::format("'{}' belongs {}{}: move it there", name,
                         home.starts_with('[') ? "under " : "", home);
    }
    if (const std::string near = nearest_known(name); !near.empty()) {
      forget_missing(near);
      return fmt::format("did you mean '{}'?", near);
    }
    std::vector<std::string> elsewhere;
    for (const KeyHome& candidate : homes) elsewhere.emplace_back(candidate.key);
    const std::string near = nearest(name, elsewhere);
    return near.empty() ? what_may_stand(homes)
                        : fmt::format("did you mean '{}' of {}?", near, home_of(near, homes));
  }

  void report_unknown(const toml::key& key, const toml::node& node,
                      std::span<const KeyHome> homes) {
    const std::string name(key.str());
    std::string written = fmt::format("key '{}'", name);
    if (!heading.empty()) written += " " + in_heading();
    if (node.is_table()) written = "heading " + heading_of(name);
    if (node.is_array_of_tables()) written = "heading " + list_heading_of(name);
    file->diagnostics->error(file->position(key.source()), "unknown " + written,
                             unknown_hint(name, homes));
  }

  // Those of the keys that are there, noting that all are known and whether one was needed.
  std::vector<std::string> present(std::span<const std::string> keys, const Need& need) {
    std::vector<std::string> found;
    for (const std::string& key : keys) {
      if (look(key, kOptional)) found.push_back(key);
    }
    if (found.empty() && need.required) {
      missing.push_back({{keys.begin(), keys.end()}, std::string(need.example)});
    }
    return found;
  }

  void report_missing() const {
    for (const Missing& entry : missing) {
      // "[place] what stands under it"
      const bool is_heading = entry.example.starts_with('[');
      const std::size_t end = is_heading ? entry.example.find(' ') : std::string::npos;
      std::string message = is_heading ? "missing heading " + entry.example.substr(0, end)
                                       : "missing key " + quoted_list(entry.keys, "or");
      if (!heading.empty()) message += " " + in_heading();
      std::string hint;
      if (!is_heading && !entry.example.empty()) hint = "for example: " + entry.example;
      if (end != std::string::npos) hint = entry.example.substr(end + 1);
      file->diagnostics->error(at, std::move(message), std::move(hint));
    }
  }
};

TomlTable::TomlTable(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
TomlTable::~TomlTable() = default;
TomlTable::TomlTable(TomlTable&&) noexcept = default;
TomlTable& TomlTable::operator=(TomlTable&&) noexcept = default;

std::optional<TomlTable> TomlTable::parse(std::string_view text, const std::string& path,
                                          Diagnostics& diagnostics) {
  auto file = parsed(text, path, diagnostics);
  if (!file) return std::nullopt;
  auto impl = std::make_unique<Impl>();
  impl->table = &file->root;
  impl->file = std::move(file);
  impl->at = {path, 1, 1};
  return TomlTable(std::move(impl));
}

const Position& TomlTable::at() const { return impl_->at; }

Position TomlTable::at(std::string_view key) const {
  const toml::node* node = impl_->table->get(key);
  return node ? impl_->file->position(node->source()) : impl_->at;
}

bool TomlTable::has(std::string_view key) { return impl_->look(key, kOptional).has_value(); }

bool TomlTable::has_text(std::string_view key) {
  return has(key) && impl_->look(key, kOptional)->node().is_string();
}

std::optional<std::string> TomlTable::text(std::string_view key, Need need, std::size_t longest) {
  return impl_->read(key, need, [&](const TomlValue& value) { return value.text(longest); });
}

std::optional<double> TomlTable::number(std::string_view key, Need need, Bounds bounds) {
  return impl_->read(key, need, [&](const TomlValue& value) { return value.number(bounds); });
}

std::optional<int> TomlTable::whole_number(std::string_view key, Need need, Bounds bounds) {
  return impl_->read(key, need, [&](const TomlValue& value) { return value.whole_number(bounds); });
}

std::optional<bool> TomlTable::boolean(std::string_view key, Need need) {
  return impl_->read(key, need, [&](const TomlValue& value) { return value.boolean(); });
}

std::optional<Date> TomlTable::date(std::string_view key, Need need) {
  return impl_->read(key, need, [&](const TomlValue& value) { return value.date(); });
}

std::optional<MonthDay> TomlTable::month_day(std::string_view key, Need need) {
  return impl_->read(key, need, [&](const TomlValue& value) { return value.month_day(); });
}

std::optional<int> TomlTable::time_of_day(std::string_view key, Need need) {
  return impl_->read(key, need, [&](const TomlValue& value) { return value.time_of_day(); });
}

std::vector<std::chrono::weekday> TomlTable::weekdays(std::string_view key) {
  return impl_->read(key, kOptional, [&](const TomlValue& value) { return weekdays_in(value); });
}

std::vector<PlacedText> TomlTable::strings(std::string_view key, Need need, std::size_t longest) {
  return impl_->read(key, need, [&](const TomlValue& value) { return strings_in(value, longest); });
}

std::optional<std::vector<double>> TomlTable::numbers(std::string_view key, std::size_t count,
                                                      std::string_view meaning, Bounds bounds) {
  return impl_->read(key, kOptional, [&](const TomlValue& value) {
    return numbers_in(value, count, meaning, bounds);
  });
}

std::optional<Range> TomlTable::range(std::string_view key, Need need, Bounds bounds) {
  return impl_->read(key, need, [&](const TomlValue& value) { return range_in(value, bounds); });
}

std::optional<std::size_t> TomlTable::word_index(std::string_view key,
                                                 std::span<const std::string> words, Need need) {
  return impl_->read(key, need, [&](const TomlValue& value) { return value.index_in(words); });
}

std::optional<std::string> TomlTable::one_of(std::span<const std::string> keys, Need need) {
  const std::vector<std::string> present = impl_->present(keys, need);
  if (present.size() > 1) {
    error(present[1], fmt::format("{} say the same thing twice", quoted_list(present, "and")),
          "keep one of them");
  }
  return present.size() == 1 ? std::optional(present.front()) : std::nullopt;
}

std::optional<TomlTable> TomlTable::table(std::string_view key, Need need) {
  const auto value = impl_->look(key, need);
  if (!value) return std::nullopt;
  const std::string heading = impl_->heading_of(key);
  if (const auto* found = value->node().as_table()) {
    return TomlTable(impl_->child(key, *found, heading));
  }
  no_table(*value, heading);
  return std::nullopt;
}

std::vector<TomlTable> TomlTable::tables(std::string_view key, Need need) {
  std::vector<TomlTable> result;
  const auto value = impl_->look(key, need);
  if (!value) return result;
  const std::string heading = impl_->list_heading_of(key);
  const auto* list = value->node().as_array();
  if (!list) {
    no_tables(*value, heading);
    return result;
  }
  for (const toml::node& node : *list) {
    if (const auto* found = node.as_table()) {
      result.push_back(TomlTable(impl_->child(key, *found, heading)));
    } else {
      value->item(node).wrong_kind("a list of headings " + heading);
    }
  }
  return result;
}

void TomlTable::error(std::string_view key, std::string message, std::string hint) {
  impl_->file->diagnostics->error(at(key), std::move(message), std::move(hint));
}

void TomlTable::finish(std::span<const KeyHome> homes) {
  for (const auto& [key, node] : *impl_->table) {
    if (std::ranges::find(impl_->known, key.str()) != impl_->known.end()) continue;
    impl_->report_unknown(key, node, homes);
  }
  impl_->report_missing();
}

std::string TomlTable::canonical(std::initializer_list<std::string_view> left_out) const {
  toml::table said = *impl_->table;
  for (const std::string_view key : left_out) said.erase(key);
  return text_of(said);
}

std::vector<KeyPath> TomlTable::key_paths() const {
  constexpr int kDeepest = 8;  // a dotted key of thousands of parts must not fill the stack
  KeyPaths paths(*impl_->file);
  paths.add(*impl_->table, "", kDeepest);
  return paths.take();
}

}  // namespace trug::read
