// SPDX-License-Identifier: MIT
#include "read/key_hint.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "base/text.h"

namespace trug::read {
namespace {

bool holds(std::span<const std::string> words, std::string_view word) {
  return std::ranges::find(words, word) != words.end();
}

// Whether a key of the same meaning in the usual unit is in the list too: "length_ft" beside
// "length_m".
bool is_other_unit(std::string_view key, std::span<const std::string> asked) {
  constexpr std::pair<std::string_view, std::string_view> kUsual[] = {
      {"_cm", "_m"}, {"_ft", "_m"}, {"_in", "_m"}, {"_in", "_cm"}, {"_f", "_c"}};
  return std::ranges::any_of(kUsual, [&](const auto& units) {
    if (!key.ends_with(units.first)) return false;
    const std::string_view name = key.substr(0, key.size() - units.first.size());
    return holds(asked, fmt::format("{}{}", name, units.second));
  });
}

// The key, its heading where it is one, or nothing.
std::string shown(std::string_view path, std::string_view key, std::span<const KeyHome> homes) {
  const std::string one = fmt::format("[{}]", key);
  const std::string list =
      path.empty() ? fmt::format("[[{}]]", key) : fmt::format("[[{}.{}]]", path, key);
  for (const KeyHome& home : homes) {
    if (home.heading == list || (path.empty() && home.heading == one))
      return std::string(home.heading);
  }
  const bool is_known =
      homes.empty() || std::ranges::find(homes, key, &KeyHome::key) != homes.end();
  return is_known ? std::string(key) : "";
}

}  // namespace

std::string keys_that_may_stand(std::string_view path, std::span<const std::string> asked,
                                std::span<const KeyHome> homes) {
  std::vector<std::string> keys;
  for (const std::string& key : asked) {
    const std::string word = is_other_unit(key, asked) ? "" : shown(path, key, homes);
    if (!word.empty() && !holds(keys, word)) keys.push_back(word);
  }
  return listed(keys);
}

}  // namespace trug::read
