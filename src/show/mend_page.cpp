// SPDX-License-Identifier: MIT
#include "show/mend_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>
#include <utility>
#include <vector>

#include "base/text.h"
#include "show/caution_words.h"
#include "show/job_words.h"
#include "show/json_parts.h"
#include "show/pages.h"
#include "show/plan_json.h"
#include "show/remedy_words.h"
#include "show/week_words.h"

namespace trug::show {
namespace {

using ask::Addition;
using ask::WeekBound;
using harvest::WeekState;

std::string full_words(const std::vector<harvest::Week>& weeks) {
  return fmt::format("{} of {}", harvest::count(weeks, WeekState::Full), weeks.size());
}

// What is done, what it adds, and the lines that say so in the plan.
std::string addition_text(const Plan& plan, const Addition& one, int number, Style style) {
  std::string text =
      hanging(fmt::format("{}. {}{}: {} more in the vases{}", number,
                          capitalised(change_words(plan, one.change)),
                          one.sheet->cautions.empty() ? "" : " !",
                          counted(static_cast<int>(std::lround(one.stems)), "stem"),
                          one.mondays.empty() ? "." : ", " + weeks_of(one.mondays) + "."),
              0, 3, style);
  if (const auto toml = change_toml(plan, one.change)) {
    std::istringstream lines(*toml);
    for (std::string line; std::getline(lines, line);) text += "     " + line + "\n";
  }
  return text;
}

const harvest::Week* week_of(const std::vector<harvest::Week>& weeks, Date monday) {
  const auto found = std::ranges::find(weeks, monday, &harvest::Week::monday);
  return found == weeks.end() ? nullptr : &*found;
}

// Of the weeks still short: what is proved of them, and what might be had.
std::string short_text(const MendFacts& facts, Style style) {
  std::vector<Date> proved, open;
  for (const WeekBound& bound : facts.mended.bounds) {
    const harvest::Week* after = week_of(facts.mended.after.weeks, bound.monday);
    if (after == nullptr || after->vase.state() == WeekState::Full) continue;
    const bool cannot = bound.most < after->vase.wanted - 0.5;
    (cannot ? proved : open).push_back(bound.monday);
  }
  std::string text;
  if (!proved.empty()) {
    text += indented(fmt::format("Nothing that keeps the rules fills the {} on ground that lies "
                                 "free: all of it together would not give enough.",
                                 weeks_of(proved)),
                     0, style);
  }
  if (!open.empty()) {
    text += indented(fmt::format("Still short, though more might be had: {}.", weeks_of(open)), 0,
                     style);
  }
  return text;
}

double tenth(double value) { return std::round(value * 10) / 10; }

}  // namespace

std::string mend_page(const MendFacts& facts, Style style) {
  std::string text =
      headline(facts.plan.title,
               fmt::format(": {} weeks have their vases.", full_words(facts.weeks)), style);
  if (facts.mended.bounds.empty()) return text + "There is nothing to mend.\n";
  if (facts.mended.additions.empty()) {
    text += "Nothing was found that would fill more of them.\n";
  }
  Plan plan = facts.plan;
  CautionLines cautions;
  int number = 0;
  for (const Addition& one : facts.mended.additions) {
    text += "\n" + addition_text(plan, one, ++number, style);
    plan = ask::changed(plan, one.change).plan;
    cautions[one.sheet->name] = caution_lines(*one.sheet);
  }
  if (number > 0) {
    text += fmt::format("\nWith {} {} weeks have their vases.\n", number == 1 ? "it" : "them",
                        full_words(facts.mended.after.weeks));
  }
  return text + short_text(facts, style) + caution_footer(cautions, style);
}

std::string mend_json(const DocumentHead& head, const Reckoned& reckoned, const MendFacts& facts) {
  Json document = json_of(head, reckoned);
  document["weeks_full"] = harvest::count(facts.weeks, WeekState::Full);
  document["weeks_full_after"] = harvest::count(facts.mended.after.weeks, WeekState::Full);
  document["additions"] = Json::array();
  Plan plan = facts.plan;
  for (const Addition& one : facts.mended.additions) {
    Json row;
    row["crop"] = one.sheet->name;
    row["bed"] = one.on;
    row["toml"] = maybe(change_toml(plan, one.change));
    row["weeks"] = Json::array();
    for (const Date monday : one.mondays) row["weeks"].push_back(iso_week(monday));
    row["stems"] = tenth(one.stems);
    row["cautions"] = caution_lines(*one.sheet);
    document["additions"].push_back(std::move(row));
    plan = ask::changed(plan, one.change).plan;
  }
  document["bound"] = Json::array();
  for (const WeekBound& bound : facts.mended.bounds) {
    document["bound"].push_back(
        {{"week", iso_week(bound.monday)}, {"has", tenth(bound.has)}, {"most", tenth(bound.most)}});
  }
  return dump(document);
}

}  // namespace trug::show
