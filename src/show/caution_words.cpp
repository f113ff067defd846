// SPDX-License-Identifier: MIT
#include "show/caution_words.h"

#include <fmt/format.h>

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

std::string line_of(const Caution& caution) {
  const std::string line =
      capitalised(std::string(harm(caution.kind))) + ": " + sentence(caution.text);
  return caution.handling.empty() ? line : line + " " + capitalised(sentence(caution.handling));
}

}  // namespace

std::string_view harm(Caution::Kind kind) { return word_of(kHarms, kind); }

std::vector<std::string> caution_lines(const Sheet& sheet) {
  std::vector<std::string> lines;
  for (const Caution& caution : sheet.cautions) lines.push_back(line_of(caution));
  return lines;
}

std::vector<std::string> buyers_caution_lines(const Sheet& sheet) {
  std::vector<std::string> lines, others;
  for (const Caution& caution : sheet.cautions) {
    if (caution.kind == Caution::Kind::Invasive) {
      lines.push_back(line_of(caution));
    } else {
      others.emplace_back(harm(caution.kind));
    }
  }
  if (!others.empty()) lines.insert(lines.begin(), capitalised(listed(others)) + ".");
  return lines;
}

std::string short_caution(const Sheet& sheet, std::string_view title_of_first_job) {
  std::vector<std::string> harms;
  for (const Caution& caution : sheet.cautions) harms.emplace_back(harm(caution.kind));
  return fmt::format("{}: what to do stands at \"{}\".", capitalised(listed(harms)),
                     title_of_first_job);
}

}  // namespace trug::show
