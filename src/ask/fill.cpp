// SPDX-License-Identifier: MIT
#include "ask/fill.h"

#include <algorithm>
#include <functional>
#include <utility>

#include "ask/ask.h"
#include "ask/ideas.h"
#include "ask/plots.h"
#include "harvest/weeks.h"

namespace trug::ask {
namespace {

constexpr double kPriceOfAKind = 2;  // stems
constexpr double kWorthNaming = 3;   // stems, as they are weighed
constexpr int kMostAsked = 6;        // crops for one ground, each a reckoning of the whole plan

std::vector<Date> mondays_of(const std::vector<harvest::Week>& weeks) {
  std::vector<Date> mondays;
  for (const harvest::Week& week : weeks) mondays.push_back(week.monday);
  return mondays;
}

// The plantings of a stretch, in order.
std::vector<std::size_t> chain_on(const Plan& plan, std::size_t bed, std::size_t stretch) {
  std::vector<std::size_t> chain;
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    const auto& patch = plan.plantings[i].patch;
    const bool here = patch && patch->bed == bed && patch->stretch == static_cast<int>(stretch) + 1;
    if (here) chain.push_back(i);
  }
  return chain;
}

}  // namespace

Ground ground_of(const Plan& plan, const ground::Schedule& schedule, std::size_t planting) {
  const Patch& patch = *plan.plantings[planting].patch;
  auto before = plan.plantings[planting].follows;
  while (before && schedule.of(*before).empty()) before = plan.plantings[*before].follows;
  return {patch.bed, static_cast<std::size_t>(patch.stretch) - 1, before, planting};
}

Filling::Filling(const Garden& garden, const Outcome& now) : garden_(garden), now_(now) {
  const auto mondays = mondays_of(now.weeks);
  const auto add = [&](const Sheet& sheet) {
    for (Growing& one : growings(garden, sheet, mondays)) growings_.push_back(std::move(one));
  };
  if (garden.plan.wish) {
    for (const Sheet* sheet : wished_sheets(garden)) add(*sheet);
  } else {
    for (const auto& [name, sheet] : garden.sheets) add(*sheet);
  }
}

bool Filling::is_had(const Change& change, std::size_t bed, std::size_t stretch) const {
  const auto chain = chain_on(garden_.plan, bed, stretch);
  const ChangedPlan tried = changed(garden_.plan, change);
  const Garden alone =
      with_only(with_plan(garden_, tried.plan), chain_on(tried.plan, bed, stretch));
  const ground::Schedule schedule = choose(alone);
  int grown = 0, late = 0;
  for (std::size_t i = 0; i < alone.plan.plantings.size(); ++i) {
    const auto sowings = schedule.of(i);
    grown += !sowings.empty();
    late += std::ranges::any_of(sowings, [](const ground::Sowing& s) { return s.days_late() > 0; });
  }
  const auto before = [&](const auto& of) {
    return static_cast<int>(std::ranges::count_if(chain, [&](std::size_t planting) {
      return std::ranges::any_of(now_.schedule.of(planting), of);
    }));
  };
  return grown > before([](const ground::Sowing&) { return true; }) &&
         late <= before([](const ground::Sowing& s) { return s.days_late() > 0; });
}

// What comes of it in the whole plan; nullopt: no week is the better for it, or something breaks.
std::optional<Filler> Filling::asked_for(const Change& change, const Sheet& sheet) const {
  const Difference found = ask(garden_, now_, change);
  const auto sowings = found.after.schedule.of(*found.plan.added);
  const bool helps = garden_.plan.wish ? found.weeks >= 0 && found.worth > 0 : found.stems > 0;
  const bool breaks = std::ranges::any_of(
      found.fresh, [](const Finding& finding) { return finding.rank() == Rank::Broken; });
  if (sowings.empty() || !helps || breaks || breaks_rule(found)) return std::nullopt;
  return Filler{.change = change,
                .crop = sheet.name,
                .in_ground = sowings.front().in_ground,
                .weeks = found.weeks,
                .stems = stems(sowings),
                .cautions = sheet.cautions};
}

std::vector<Filler> Filling::fill(const Ground& ground) const {
  std::vector<Plot> free = plots(garden_, now_.schedule, false);
  std::erase_if(free, [&](const Plot& plot) {
    return plot.bed != ground.bed || plot.stretch != ground.stretch || plot.after != ground.after;
  });
  for (Plot& plot : free) {
    if (ground.instead_of) plot.instead_of = ground.instead_of;
  }
  IdeaRules rules{{}, kPriceOfAKind, kWorthNaming};
  rules.weighing.usable_worth = harvest::kUsableWorth;
  rules.weighing.stem_worth = harvest::kStemWorth;
  if (garden_.plan.wish) rules.weighing.wanted = harvest::wanted(*garden_.plan.wish);
  std::vector<Filler> fillers;
  int asked = 0;
  for (const Idea& idea : ideas(garden_, now_, free, growings_, rules)) {
    if (fillers.size() == kFillers || asked == kMostAsked) break;
    const Change change = change_of(garden_, *idea.plot, *idea.growing->sheet);
    if (!is_had(change, ground.bed, ground.stretch)) continue;
    ++asked;
    if (auto filler = asked_for(change, *idea.growing->sheet)) {
      fillers.push_back(std::move(*filler));
    }
  }
  // What gives most weeks their vases first.
  std::ranges::stable_sort(fillers, std::greater{}, &Filler::weeks);
  return fillers;
}

}  // namespace trug::ask
