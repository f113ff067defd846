// SPDX-License-Identifier: MIT
#include "show/caution_words.h"

#include <utility>

#include "base/text.h"
#include "base/words.h"

namespace trug::show {
namespace {

constexpr Word<Caution::Kind> kHarms[] = {{Caution::Kind::Poisonous, "poisonous"},
                                          {Caution::Kind::Irritant, "irritant"},
                                          {Caution::Kind::Phototoxic, "burns skin in sunlight"},
                                          {Caution::Kind::Invasive, "spreads where it should not"},
                                          {Caution::Kind::Thorny, "thorns"}};
static_assert(names_all(kHarms));

std::string sentence(std::string text) {
  if (!text.empty() && text.back() != '.') text += '.';
  return text;
}

}  // namespace

std::string_view harm(Caution::Kind kind) { return word_of(kHarms, kind); }

std::vector<std::string> caution_lines(const Sheet& sheet) {
  std::vector<std::string> lines;
  for (const Caution& caution : sheet.cautions) {
    std::string line = capitalised(std::string(harm(caution.kind)));
    line += ": " + sentence(caution.text);
    if (!caution.handling.empty()) {
      line += " " + capitalised(sentence(caution.handling));
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace trug::show
