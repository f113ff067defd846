// SPDX-License-Identifier: MIT
// What a grower would ask of a choice: why ground is kept through the heat, and why one group
// alone.
#include <algorithm>
#include <cstdlib>
#include <optional>
#include <vector>

#include "ask/find.h"
#include "harvest/weeks.h"

namespace trug::ask {
namespace {

using ground::Candidate;
using ground::Sowing;

constexpr int kLongPauseDays = 21;  // less is waited for (memory)

DateRange cut_days(const Candidate& c, Date last) {
  return {c.timeline.first_cut.likely, std::min(last, c.timeline.last_cut()) + Days{1}};
}

bool is_cut_in(const DateRange& days, Date monday) {
  return days.from < monday + Days{7} && monday < days.until;
}

// The start of another group nearest to the middle of its window, in time.
const Candidate* usual_of(const View& view, std::size_t planting, const Group& group) {
  const Candidate* best = nullptr;
  const auto off = [](const Candidate& c) {
    return std::abs(days_between(c.window_middle(), c.in_ground));
  };
  for (const Candidate& c : view.weighed(planting).candidates->list) {
    if (c.group != &group || c.days_late() > 0 || c.without_flower) continue;
    if (best == nullptr || off(c) < off(*best)) best = &c;
  }
  return best;
}

}  // namespace

// What stays in the ground for years keeps it anyway.
std::optional<HeatPause> heat_pause(const Sowing& sowing) {
  const auto& pause = sowing.timeline.pause;
  if (!pause || sowing.lift < pause->until || stays_in_ground(sowing.sheet->life_cycle)) {
    return std::nullopt;
  }
  const Date first = sowing.timeline.first_cut.likely;
  HeatPause found{.days = {std::max(first, pause->from), pause->until}, .lift = sowing.lift};
  if (days_between(found.days.from, found.days.until) < kLongPauseDays) return std::nullopt;
  Date day = first;
  for (const double stems : ground::stems_by_day(sowing)) {
    found.stems += stems;
    if (day >= pause->until) found.stems_after += stems;
    day += Days{1};
  }
  return found;
}

namespace {

// The Mondays of the weeks that go short, of those in which one is cut and the other is not.
std::vector<Date> short_weeks_in(const View& view, DateRange days, DateRange other) {
  std::vector<Date> mondays;
  for (const harvest::Week& week : view.weeks) {
    const bool is_short = week.vase.state() != harvest::WeekState::Full;
    if (is_short && is_cut_in(days, week.monday) && !is_cut_in(other, week.monday)) {
      mondays.push_back(week.monday);
    }
  }
  return mondays;
}

}  // namespace

std::optional<OneGroup> one_group(const View& view, std::size_t planting) {
  const Sheet& sheet = view.sheet(planting);
  const auto& asked = view.plan().plantings[planting].asked;
  if (!view.plan().wish || asked.group || asked.since || sheet.groups.size() < 2) {
    return std::nullopt;
  }
  const Sowing& chosen = view.sowings(planting).front();
  if (chosen.group == nullptr || chosen.begun.way) return std::nullopt;
  OneGroup found{.group = chosen.group->name, .others = {}, .mondays = {}};
  const DateRange own = cut_days(chosen, chosen.lift);
  for (const Group& group : sheet.groups) {
    const bool has_its_time = &group != chosen.group && group.first_flower;
    const Candidate* other = has_its_time ? usual_of(view, planting, group) : nullptr;
    if (other == nullptr) continue;
    const auto more = short_weeks_in(view, cut_days(*other, Date::max()), own);
    if (!more.empty()) found.others.push_back(group.name);
    found.mondays.insert(found.mondays.end(), more.begin(), more.end());
  }
  if (found.others.empty()) return std::nullopt;
  std::ranges::sort(found.mondays);
  found.mondays.erase(std::unique(found.mondays.begin(), found.mondays.end()), found.mondays.end());
  return found;
}

}  // namespace trug::ask
