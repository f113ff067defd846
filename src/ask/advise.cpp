// SPDX-License-Identifier: MIT
#include "ask/advise.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "ask/ask.h"

namespace trug::ask {
namespace {

using ground::Candidate;
using ground::Schedule;

constexpr double kDearShare = 0.2;                        // of the stretch's stems
constexpr int kMostDaysTried = 20, kFewestDaysTried = 7;  // of cutting, before an earlier lift

// All that grows on the ground of a planting.
std::vector<std::size_t> chain_of(const Plan& plan, std::size_t planting) {
  for (auto& chain : chains(plan)) {
    if (std::ranges::find(chain, planting) != chain.end()) return std::move(chain);
  }
  return {};
}

// The one `before` it on the ground gives way after as many days of cutting as still do, a week at
// least; nullopt where none of them helps.
std::optional<Remedy> lift_earlier(const Garden& garden, std::size_t planting, std::size_t before) {
  const std::string& crop = garden.plan.plantings[before].asked.crop;
  if (stays_in_ground(garden.sheets.at(crop)->life_cycle)) return std::nullopt;
  const auto chain = chain_of(garden.plan, planting);
  const auto place = [&](std::size_t of) {
    return static_cast<std::size_t>(std::ranges::find(chain, of) - chain.begin());
  };
  const Garden stretch = with_only(garden, chain);
  const Outcome now = reckon(stretch);
  const auto grown = now.schedule.of(place(before));
  if (grown.empty()) return std::nullopt;
  for (int days = kMostDaysTried; days >= kFewestDaysTried; --days) {
    // The earliest that keeps this many days of cutting on any date the crop before could have.
    Date lift = Date::max();
    for (const Candidate& c : now.schedule.weighed[place(before)].candidates->list) {
      lift = std::min(lift, c.timeline.first_cut.likely + Days{days});
    }
    const Schedule tried = ask(stretch, now, LiftOn{place(before), lift}).after.schedule;
    const auto lifted = tried.of(place(before));
    if (tried.of(place(planting)).empty() || lifted.empty() || lifted.back().lift != lift) continue;
    return Remedy{LiftOn{before, lift}, stems(grown) - stems(lifted)};
  }
  return std::nullopt;
}

// What makes a finding go, by its kind; nullopt where nothing is known to.
struct Advice {
  const Garden& garden;
  const Schedule& chosen;
  std::size_t planting = 0;
  std::size_t sowing = 0;  // as Finding's

  // A crop that does not fit between its neighbours.
  std::optional<Remedy> operator()(const GroundTaken& found) const {
    if (found.before) {
      auto earlier = lift_earlier(garden, planting, found.before->planting);
      if (earlier) return earlier;
    }
    return Remedy{LeaveOut{planting}};
  }
  // A crop that has no date this year.
  std::optional<Remedy> operator()(const CannotGrow&) const { return next_year(); }
  std::optional<Remedy> operator()(const TooLate&) const { return next_year(); }
  std::optional<Remedy> operator()(const FewerSowings& found) const {
    return Remedy{Sowings{planting, found.useful}};
  }
  std::optional<Remedy> operator()(const TooManyPlants& found) const {
    return Remedy{Plants{planting, found.room}};
  }
  // The first day on which it is not too early any more.
  std::optional<Remedy> operator()(const TooEarly&) const {
    const Candidate& taken = chosen.of(planting)[sowing > 0 ? sowing - 1 : 0];
    std::optional<Date> first;
    for (const Candidate& c : chosen.weighed[planting].candidates->list) {
      if (c.way != taken.way || c.too_early || c.start <= taken.start) continue;
      if (!first || c.start < *first) first = c.start;
    }
    if (!first) return std::nullopt;
    return Remedy{StartAfter{planting, *first}};
  }
  std::optional<Remedy> operator()(const CostsStems&) const { return Remedy{LeaveOut{planting}}; }
  template <class Other>
  std::optional<Remedy> operator()(const Other&) const {
    return std::nullopt;
  }

  Remedy next_year() const {
    const Garden alone = with_only(garden, {planting});
    const Year next{garden.plan.flowering_year + 1};
    const bool grows = !ask(alone, reckon(alone), next).after.schedule.sowings.empty();
    return grows ? Remedy{next} : Remedy{};
  }
};

// What each crop costs its stretch: what that gives without it, the others chosen anew, against
// what it gives with all; alone both times, since other beds' stems move what it is best for.
void dear_crops(const Garden& garden, std::vector<Finding>& findings) {
  for (const auto& chain : chains(garden.plan)) {
    if (chain.size() < 2) continue;
    const Garden stretch = with_only(garden, chain);
    const Outcome now = reckon(stretch);
    const double stems_now = stems(now.schedule.sowings);
    for (std::size_t i = 0; i < chain.size(); ++i) {
      if (now.schedule.of(i).empty()) continue;
      const double more = ask(stretch, now, LeaveOut{i}).stems;
      if (more <= kDearShare * stems_now) continue;
      findings.push_back(about_planting(garden.plan, chain[i], CostsStems{more, stems_now}));
    }
  }
}

}  // namespace

std::vector<Finding> advised(const Garden& garden, const Reckoned& reckoned) {
  std::vector<Finding> findings = reckoned.findings;
  dear_crops(garden, findings);
  sort_by_rank(findings);
  for (Finding& finding : findings) {
    if (!finding.planting) continue;
    const auto sowing = static_cast<std::size_t>(finding.sowing);
    finding.remedy =
        std::visit(Advice{garden, reckoned.chosen, *finding.planting, sowing}, finding.found);
  }
  return findings;
}

}  // namespace trug::ask
