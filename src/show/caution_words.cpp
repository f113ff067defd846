// SPDX-License-Identifier: MIT
#include "show/caution_words.h"

#include <fmt/format.h>

#include <algorithm>

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

bool harms_skin(const Caution& caution) {
  return caution.kind == Caution::Kind::Irritant || caution.kind == Caution::Kind::Phototoxic;
}

bool is_poison(const Caution& caution) { return caution.kind == Caution::Kind::Poisonous; }

// ": wear gloves, and keep sap off skin in sunshine": the first thing to do, of a caution that is
// such if there is one.
std::string first_rule(const Sheet& sheet, bool (*is_such)(const Caution&)) {
  auto caution = std::ranges::find_if(sheet.cautions, is_such);
  if (caution == sheet.cautions.end()) caution = sheet.cautions.begin();
  const std::string rule = caution->handling.substr(0, caution->handling.find_first_of(";."));
  return rule.empty() ? "" : ": " + uncapitalised(rule);
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
  if (!others.empty()) {
    lines.insert(lines.begin(),
                 fmt::format("{}{}.", capitalised(listed(others)), first_rule(sheet, is_poison)));
  }
  return lines;
}

std::string short_caution(const Sheet& sheet, std::string_view title_of_first_job) {
  std::vector<std::string> harms;
  for (const Caution& caution : sheet.cautions) harms.emplace_back(harm(caution.kind));
  return fmt::format("{}{}. All of it stands at \"{}\".", capitalised(listed(harms)),
                     first_rule(sheet, harms_skin), title_of_first_job);
}

}  // namespace trug::show
