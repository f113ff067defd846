// SPDX-License-Identifier: MIT
#include "app/key_homes.h"

#include <algorithm>
#include <string_view>
#include <vector>

#include "base/text.h"
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

}  // namespace trug::app
