// SPDX-License-Identifier: MIT
#include "app/key_homes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <vector>

#include "base/text.h"
#include "read/key_hint.h"
#include "read/plan_reader.h"

namespace trug::app {
namespace {

bool means(std::string_view key, const show::GlossaryEntry& entry) {
  return std::ranges::any_of(show::find_words(key), [&](const show::GlossaryEntry& found) {
    return found.kind == show::WordKind::Key && found.word == entry.word;
  });
}

}  // namespace

std::string homes_of(const show::GlossaryEntry& key) {
  std::vector<std::string> headings;
  for (const read::KeyHome& home : read::plan_keys()) {
    const std::string heading(home.heading);
    const bool is_new = std::ranges::find(headings, heading) == headings.end();
    if (is_new && means(home.key, key)) headings.push_back(heading);
  }
  const std::string text = listed(headings, "or");
  return text.starts_with('[') ? "under " + text : text;
}

std::string keys_under(const show::GlossaryEntry& heading) {
  const std::string ending = fmt::format("{}]", heading.word);
  std::vector<std::string> keys;
  for (const read::KeyHome& home : read::plan_keys()) {
    const std::size_t at = home.heading.find(ending);
    const bool is_it = at != std::string_view::npos && at > 0 &&
                       (home.heading[at - 1] == '[' || home.heading[at - 1] == '.');
    if (is_it && home.key != heading.word) keys.emplace_back(home.key);
  }
  return read::keys_that_may_stand("", keys, {});
}

std::string told(const show::GlossaryEntry& entry) {
  const std::string text(entry.text);
  if (entry.kind != show::WordKind::Heading) return text;
  return fmt::format("{} Under it stand {}.", text, keys_under(entry));
}

}  // namespace trug::app
