// SPDX-License-Identifier: MIT
#include "ask/gave_way.h"

#include <algorithm>
#include <vector>

#include "ask/ask.h"
#include "ask/change.h"

namespace trug::ask {
namespace {

using ground::Candidate;
using ground::Schedule;
using ground::Sowing;

constexpr double kNearlyAll = 0.9;  // of what free ground gives
constexpr Days kLeastCutting{6};    // after the first day of it

// The nearest plantings on the same ground that are grown.
struct Neighbours {
  std::optional<std::size_t> before, after;
};

Neighbours neighbours(const Plan& plan, const Schedule& schedule, std::size_t planting) {
  Neighbours result;
  for (const auto& chain : chains(plan)) {
    if (std::ranges::find(chain, planting) == chain.end()) continue;
    for (const std::size_t other : chain) {
      if (schedule.of(other).empty() || other == planting) continue;
      if (other < planting) result.before = other;
      if (other > planting && !result.after) result.after = other;
    }
  }
  return result;
}

// Of a start that has its ground to its last cut.
double whole_stems(const Sowing& chosen, const Candidate& c) {
  Sowing one = chosen;
  static_cast<Candidate&>(one) = c;
  one.lift = std::max(c.lift_to, c.timeline.last_cut());
  return stems(one);
}

class Asker {
 public:
  Asker(const Garden& garden, const Outcome& now, std::size_t planting)
      : garden_(garden), now_(now), planting_(planting) {}

  // nullopt: the crop is not grown by it either.
  std::optional<GaveWay> with(std::size_t to, std::optional<Date> lift) const {
    const Change change = lift ? Change(LiftOn{to, *lift}) : Change(LeaveOut{to});
    const Difference found = ask(garden_, now_, change);
    const auto sowings = found.after.schedule.of(*found.plan.place[planting_]);
    if (sowings.empty()) return std::nullopt;
    GaveWay result{.to = to, .lift = lift, .in_ground = sowings.front().in_ground};
    result.stems = stems(now_.schedule.of(planting_));
    result.other_stems = stems(sowings);
    result.plan_stems = found.stems;
    result.plan_weeks = found.weeks;
    return result;
  }

 private:
  const Garden& garden_;
  const Outcome& now_;
  const std::size_t planting_;
};

}  // namespace

std::optional<Waiting> waiting(const Plan& plan, const Schedule& schedule, std::size_t planting) {
  const auto sowings = schedule.of(planting);
  const auto before = neighbours(plan, schedule, planting).before;
  if (!before || sowings.size() != 1) return std::nullopt;
  const Sowing& chosen = sowings.front();
  const Date lift = schedule.of(*before).back().lift;
  Waiting result{
      .before = *before, .lift = lift, .in_ground = chosen.in_ground, .stems = stems(chosen)};
  const auto& list = schedule.weighed[planting].candidates->list;
  const auto is_earlier = [&](const Candidate& c) {
    return c.days_late() == 0 && c.in_ground < lift + Days{plan.work.days_between_crops};
  };
  for (const Candidate& c : list) {
    if (is_earlier(c)) result.free_stems = std::max(result.free_stems, whole_stems(chosen, c));
  }
  if (result.free_stems <= result.stems) return std::nullopt;
  for (const Candidate& c : list) {
    if (!is_earlier(c) || whole_stems(chosen, c) < kNearlyAll * result.free_stems) continue;
    result.wanted_by = std::max(result.wanted_by, c.in_ground);
  }
  return result;
}

std::optional<Date> earlier_lift(const Plan& plan, const Schedule& schedule,
                                 const Waiting& waiting) {
  const Sowing& before = schedule.of(waiting.before).back();
  const Date lift = waiting.wanted_by - Days{plan.work.days_between_crops};
  if (stays_in_ground(before.sheet->life_cycle)) return std::nullopt;
  if (lift < before.timeline.first_cut.likely + kLeastCutting) return std::nullopt;
  return lift;
}

std::optional<GaveWay> gave_way(const Garden& garden, const Outcome& now, std::size_t planting) {
  const Plan& plan = garden.plan;
  const Schedule& schedule = now.schedule;
  const Asker asker(garden, now, planting);
  if (!schedule.of(planting).empty()) {
    const auto waits = waiting(plan, schedule, planting);
    if (!waits) return std::nullopt;
    const auto lift = earlier_lift(plan, schedule, *waits);
    const auto earlier = lift ? asker.with(waits->before, lift) : std::nullopt;
    if (earlier && earlier->in_ground < waits->in_ground) return earlier;
    return asker.with(waits->before, {});
  }
  if (schedule.weighed[planting].candidates->list.empty()) return std::nullopt;
  std::optional<GaveWay> best;
  const Neighbours around = neighbours(plan, schedule, planting);
  for (const auto& neighbour : {around.before, around.after}) {
    const auto found = neighbour ? asker.with(*neighbour, {}) : std::nullopt;
    if (found && (!best || found->plan_stems > best->plan_stems)) best = found;
  }
  return best;
}

}  // namespace trug::ask
