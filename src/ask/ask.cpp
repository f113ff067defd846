// SPDX-License-Identifier: MIT
#include "ask/ask.h"

#include <algorithm>
#include <map>
#include <optional>
#include <tuple>
#include <utility>
#include <variant>

namespace trug::ask {
namespace {

using Place = std::optional<std::size_t>;  // of a planting in a plan's list

// Whether one finding of the plan before stands in the plan after.
bool same(const Finding& before, const Finding& after, const std::vector<Place>& place) {
  if (before.code() != after.code() || before.sowing != after.sowing) return false;
  if (!before.planting || !after.planting) return !before.planting && !after.planting;
  return place[*before.planting] == *after.planting;
}

void compare_findings(const Outcome& before, Difference& result) {
  for (const Finding& old : before.findings) {
    const auto stands = [&](const Finding& now) { return same(old, now, result.plan.place); };
    if (std::ranges::none_of(result.after.findings, stands)) result.cleared.push_back(old);
  }
  for (const Finding& now : result.after.findings) {
    const auto stood = [&](const Finding& old) { return same(old, now, result.plan.place); };
    if (std::ranges::none_of(before.findings, stood)) result.fresh.push_back(now);
  }
}

auto identity(const work::JobKey& key) {
  return std::tie(key.flowering_year, key.bed, key.crop, key.planting, key.kind, key.succession,
                  key.repeat);
}

int jobs_moved(const std::vector<work::Job>& before, const std::vector<work::Job>& after) {
  std::map<decltype(identity(before.front().key)), Date> days;
  for (const work::Job& job : before) days.emplace(identity(job.key), job.day);
  return static_cast<int>(std::ranges::count_if(after, [&](const work::Job& job) {
    const auto old = days.find(identity(job.key));
    return old != days.end() && old->second != job.day;
  }));
}

int weeks_filled(const Outcome& outcome) {
  return harvest::count(outcome.weeks, harvest::WeekState::Full);
}

// To the choice of dates.
double worth(const Outcome& outcome) {
  double sum = 0;
  for (const harvest::Week& week : outcome.weeks) sum += week.vase.value;
  return sum;
}

}  // namespace

Difference ask(const Garden& garden, const Outcome& before, const Change& change) {
  Difference result;
  result.plan = changed(garden.plan, change);
  result.after = reckon(with_plan(garden, result.plan.plan));
  result.stems = stems(result.after.schedule.sowings) - stems(before.schedule.sowings);
  result.weeks = weeks_filled(result.after) - weeks_filled(before);
  result.worth = worth(result.after) - worth(before);
  result.jobs_moved = jobs_moved(before.jobs, result.after.jobs);
  compare_findings(before, result);
  return result;
}

bool has(const std::vector<Finding>& list, const Finding& finding) {
  return std::ranges::any_of(list, [&](const Finding& one) {
    return one.code() == finding.code() && one.sowing == finding.sowing &&
           one.planting == finding.planting;
  });
}

Garden with_plan(const Garden& garden, Plan plan) {
  auto climate = climate::Climate::from(plan.place, garden.climate.spread_c());
  return {std::move(plan), garden.sheets, std::move(climate), garden.today, garden.weather};
}

Garden with_only(const Garden& garden, const std::vector<std::size_t>& kept) {
  ChangedPlan result{with_only(garden.plan, kept), {}, {}};
  result.place.resize(garden.plan.plantings.size());
  for (std::size_t i = 0; i < kept.size(); ++i) result.place[kept[i]] = i;
  choose_anew_what_differs(garden.plan, result);
  return with_plan(garden, std::move(result.plan));
}

bool breaks_rule(const Difference& found) {
  return std::ranges::any_of(found.fresh, [](const Finding& finding) {
    return std::holds_alternative<AgainstRule>(finding.found);
  });
}

}  // namespace trug::ask
