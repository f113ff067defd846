// SPDX-License-Identifier: MIT
#include "ask/fill.h"

#include <algorithm>
#include <functional>
#include <string>

#include "ask/ask.h"

namespace trug::ask {
namespace {

constexpr double kWorthNaming = 1;  // stems

// The plantings of a stretch, in order.
std::vector<std::size_t> chain_on(const Plan& plan, const Ground& ground) {
  std::vector<std::size_t> chain;
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    const auto& patch = plan.plantings[i].patch;
    const bool here =
        patch && patch->bed == ground.bed && patch->stretch == static_cast<int>(ground.stretch) + 1;
    if (here) chain.push_back(i);
  }
  return chain;
}

// The same ground where only its own stretch's plantings are left.
Ground among(const Ground& ground, const std::vector<std::size_t>& chain) {
  const auto place = [&](std::optional<std::size_t> of) -> std::optional<std::size_t> {
    if (!of) return of;
    return static_cast<std::size_t>(std::ranges::find(chain, *of) - chain.begin());
  };
  return {ground.bed, ground.stretch, place(ground.after), place(ground.instead_of)};
}

Change planted(const Garden& garden, const Ground& ground, const std::string& crop) {
  const CropEntry asked{.crop = crop, .pins = {.not_before = garden.adds_from()}};
  if (ground.instead_of) return Instead{*ground.instead_of, asked};
  return AddCrop{ground.bed, ground.stretch, ground.after, asked};
}

double stems_in(const ground::Schedule& schedule, const std::vector<Date>& mondays) {
  if (mondays.empty()) return stems(schedule.sowings);
  double sum = 0;
  for (const ground::Sowing& sowing : schedule.sowings) {
    const auto by_day = stems_by_day(sowing);
    for (std::size_t day = 0; day < by_day.size(); ++day) {
      const Date cut = sowing.timeline.first_cut.likely + Days{static_cast<int>(day)};
      if (std::ranges::binary_search(mondays, monday_of(cut))) sum += by_day[day];
    }
  }
  return sum;
}

// Whether all that was grown before still is.
bool holds(const ground::Schedule& before, const ChangedPlan& change,
           const ground::Schedule& after) {
  for (std::size_t i = 0; i < change.place.size(); ++i) {
    if (!before.of(i).empty() && change.place[i] && after.of(*change.place[i]).empty()) {
      return false;
    }
  }
  return true;
}

}  // namespace

Ground ground_of(const Plan& plan, std::size_t planting) {
  const Patch& patch = *plan.plantings[planting].patch;
  return {patch.bed, static_cast<std::size_t>(patch.stretch) - 1, {}, planting};
}

std::vector<Filler> fill(const Garden& garden, const Ground& ground,
                         const std::vector<Date>& mondays) {
  const auto chain = chain_on(garden.plan, ground);
  const Garden stretch = with_only(garden, chain);
  const Ground here = among(ground, chain);
  const ground::Schedule now = choose(stretch);
  const double stems_now = stems_in(now, mondays);
  std::vector<Filler> fillers;
  for (const auto& entry : garden.sheets) {
    const std::string& crop = entry.first;
    const auto grows_here = [&](const Planting& each) { return each.asked.crop == crop; };
    if (std::ranges::any_of(stretch.plan.plantings, grows_here)) continue;
    const ChangedPlan tried = changed(stretch.plan, planted(garden, here, crop));
    const std::size_t fresh = tried.added.value_or(here.instead_of.value_or(0));
    const ground::Schedule schedule = choose(with_plan(stretch, tried.plan));
    if (schedule.of(fresh).empty() || !holds(now, tried, schedule)) continue;
    const double more = stems_in(schedule, mondays) - stems_now;
    if (more < kWorthNaming) continue;
    fillers.push_back({planted(garden, ground, crop), crop, more, entry.second->cautions});
  }
  std::ranges::stable_sort(fillers, std::greater{}, &Filler::stems);
  if (fillers.size() > kFillers) fillers.resize(kFillers);
  return fillers;
}

}  // namespace trug::ask
