// SPDX-License-Identifier: MIT
#include "read/sheet_library.h"

#include <fmt/format.h>

#include <mutex>
#include <span>
#include <utility>

#include "base/text.h"
#include "read/embedded_sheets.h"
#include "read/sheet_reader.h"
#include "read/text_file.h"

namespace trug::read {
namespace {

constexpr std::string_view kEnding = ".toml";

// A name as it is compared: "Sweet_William" -> "sweet william".
std::string compared(std::string_view name) {
  std::string result;
  for (const char c : folded(name)) {
    const char letter = c == '_' || c == '-' ? ' ' : c;
    if (letter == ' ' && (result.empty() || result.back() == ' ')) continue;
    result += letter;
  }
  if (result.ends_with(' ')) result.pop_back();
  return result;
}

// The one name that holds the word or its singular: "chrysanthemum" for "mums". Empty: none, or
// several.
std::string name_that_holds(std::string_view word, std::span<const std::string> names) {
  if (word.ends_with('s')) word.remove_suffix(1);
  if (word.size() < 3) return {};
  std::string found;
  for (const std::string& name : names) {
    if (name.find(word) == std::string::npos) continue;
    if (!found.empty()) return {};
    found = name;
  }
  return found;
}

}  // namespace

struct SheetLibrary::Item {
  Item(std::string compared_name, std::string file, std::string content)
      : name(std::move(compared_name)), path(std::move(file)), text(std::move(content)) {}

  const std::string name;  // compared
  const std::string path;
  const std::string text;
  std::once_flag once;  // for what follows
  std::optional<Sheet> sheet;

  // Says what is wrong with it.
  std::optional<Sheet> read(Diagnostics& diagnostics) const {
    auto result = read_sheet(text, path, diagnostics);
    if (!result || compared(result->name) == name) return result;
    // The file's name finds a sheet without opening the others; the two must agree.
    diagnostics.error({path, 0, 0},
                      fmt::format("this is the sheet of '{}', but the file is named for '{}'",
                                  result->name, name),
                      "give the file the name of its crop");
    return std::nullopt;
  }
};

const SheetLibrary::Items& SheetLibrary::built_in() {
  static const Items kItems = [] {
    Items items;
    for (const EmbeddedSheet& sheet : embedded_sheets()) {
      const std::string name = compared(sheet.name);
      items[name] = std::make_shared<Item>(name, fmt::format("built-in {}.toml", sheet.name),
                                           std::string(sheet.text));
    }
    return items;
  }();
  return kItems;
}

SheetLibrary::SheetLibrary() : items_(built_in()) {}

bool SheetLibrary::add_folder(const FileReader& files, const std::string& folder,
                              Diagnostics& diagnostics) {
  const auto names = files.list(folder, kEnding);
  if (!names) return false;
  for (const std::string& file : *names) {
    const std::string path = fmt::format("{}/{}", folder, file);
    auto text = read_bytes(files, path, diagnostics);
    if (!text) continue;
    const std::string name = compared(file.substr(0, file.size() - kEnding.size()));
    items_[name] = std::make_shared<Item>(name, path, std::move(*text));
  }
  other_names_.reset();
  return true;
}

const Sheet* SheetLibrary::read(Item& item, Diagnostics& diagnostics) {
  std::call_once(item.once, [&item] {
    Diagnostics told_below;
    item.sheet = item.read(told_below);
  });
  if (!item.sheet && told_.insert(&item).second) item.read(diagnostics);
  return item.sheet ? &*item.sheet : nullptr;
}

const SheetLibrary::OtherNames& SheetLibrary::other_names(Diagnostics& diagnostics) {
  if (!other_names_) {
    other_names_.emplace();
    for (auto& [name, item] : items_) {
      const Sheet* sheet = read(*item, diagnostics);
      if (!sheet) continue;
      for (const std::string& alias : sheet->aliases) {
        (*other_names_)[compared(alias)].push_back(name);
      }
      (*other_names_)[compared(sheet->botanical_name)].push_back(name);
    }
  }
  return *other_names_;
}

const Sheet* SheetLibrary::find(std::string_view name, Diagnostics& diagnostics) {
  const std::string wanted = compared(name);
  auto found = items_.find(wanted);
  if (found == items_.end()) {
    const auto& others = other_names(diagnostics);
    const auto other = others.find(wanted);
    if (other == others.end() || other->second.size() > 1) return nullptr;
    found = items_.find(other->second.front());
  }
  return read(*found->second, diagnostics);
}

bool SheetLibrary::has(std::string_view name) const { return items_.contains(compared(name)); }

std::vector<std::string> SheetLibrary::names() const {
  std::vector<std::string> result;
  for (const auto& [name, item] : items_) result.push_back(name);
  return result;
}

std::string SheetLibrary::what_to_write(std::string_view name, Diagnostics& diagnostics) {
  const std::string wanted = compared(name);
  const auto& others = other_names(diagnostics);
  if (const auto other = others.find(wanted); other != others.end()) {
    return fmt::format("{} are so called: write the one you mean", listed(other->second));
  }
  std::vector<std::string> candidates = names();
  for (const auto& [one, own] : others) candidates.push_back(one);
  std::string near = nearest(wanted, candidates);
  if (near.empty()) near = name_that_holds(wanted, names());
  return near.empty() ? "" : fmt::format("did you mean '{}'?", near);
}

}  // namespace trug::read
