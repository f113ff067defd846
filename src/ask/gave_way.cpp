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

constexpr Days kSoonAfter{14};      // the gardener's days and a little more (memory)
constexpr double kNearlyAll = 0.9;  // of what free ground gives
constexpr Days kLeastCutting{6};    // after the first day of it

// The nearest plantings on the same ground that are grown.
struct Neighbours {
  std::optional<std::size_t> before, after;
};

Neighbours neighbours(const Plan& plan, const Schedule& schedule, std::size_t planting) {
  const auto all = chains(plan);
  const auto chain = std::ranges::find_if(all, [&](const std::vector<std::size_t>& one) {
    return std::ranges::find(one, planting) != one.end();
  });
  Neighbours result;
  if (chain == all.end()) return result;
  for (const std::size_t other : *chain) {
    if (schedule.of(other).empty()) continue;
    if (other < planting) result.before = other;
    if (other > planting && !result.after) result.after = other;
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

  // Of a crop that is grown.
  std::optional<GaveWay> without_the_wait() const {
    const auto waits = waiting(garden_.plan, now_.schedule, planting_);
    if (!waits) return std::nullopt;
    const auto lift = earlier_lift(garden_.plan, now_.schedule, *waits);
    const auto earlier = lift ? with(waits->before, lift) : std::nullopt;
    if (earlier && earlier->in_ground < waits->in_ground) return earlier;
    return with(waits->before, {});
  }

  // Of a crop that is left out: the one without which the plan gives more.
  std::optional<GaveWay> without_a_neighbour() const {
    const Neighbours around = neighbours(garden_.plan, now_.schedule, planting_);
    std::optional<GaveWay> best;
    for (const auto& neighbour : {around.before, around.after}) {
      const auto found = neighbour ? with(*neighbour, {}) : std::nullopt;
      if (found && (!best || found->plan_stems > best->plan_stems)) best = found;
    }
    return best;
  }

 private:
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
  const Date free = lift + Days{plan.work.days_between_crops};
  // What goes in long after its ground is free waits for its own time.
  if (chosen.in_ground > free + kSoonAfter) return std::nullopt;
  Waiting result{
      .before = *before, .lift = lift, .in_ground = chosen.in_ground, .stems = stems(chosen)};
  const auto& list = schedule.weighed[planting].candidates->list;
  const auto is_earlier = [&](const Candidate& c) {
    return c.days_late() == 0 && c.in_ground < free;
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
  const Asker asker(garden, now, planting);
  if (!now.schedule.of(planting).empty()) return asker.without_the_wait();
  if (now.schedule.weighed[planting].candidates->list.empty()) return std::nullopt;
  return asker.without_a_neighbour();
}

}  // namespace trug::ask
