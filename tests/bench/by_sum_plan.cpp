// SPDX-License-Identifier: MIT
#include "by_sum_plan.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "by_sum.h"
#include "ground/options.h"

namespace trug::by_sum {
namespace {

using ground::Candidate;
using ground::DayCount;
using ground::Sowing;
using ground::Weighed;

constexpr int kMostRounds = 20;

// Outside its window, outside the window's middle half, inside it.
double weight(const Candidate& c) {
  if (!c.window.contains(c.in_ground)) return 0.8;
  const int length = days_between(c.window.from, c.window.until) - 1;
  const int off = std::abs(days_between(c.window_middle(), c.in_ground));
  return 4 * off <= length && !c.cold_soil ? 1 : 0.95;
}

std::vector<Option> options_of(const Weighed& weighed, const DayCount& count) {
  std::vector<Option> options;
  for (const Candidate& c : weighed.candidates->list) {
    options.push_back({.start = count.number(c.start),
                       .in_ground = count.number(c.in_ground),
                       .first_cut = count.number(c.timeline.first_cut.likely),
                       .lift_from = count.number(c.lift_from),
                       .lift_to = count.number(c.lift_to),
                       .off_middle = std::abs(days_between(c.window_middle(), c.in_ground)),
                       .way_rank = static_cast<int>(c.way),
                       .weight = weight(c),
                       .plants = c.stems_of(weighed.layout.plants),
                       .shares = &c.timeline.shares});
  }
  return options;
}

struct Stretch {
  std::vector<std::size_t> chain;  // its plantings
  Problem problem;
  Solution solution;
  std::vector<double> weekly;  // weighted stems
};

std::vector<double> weekly_stems(const Stretch& stretch, std::size_t weeks) {
  std::vector<double> result(weeks);
  for (std::size_t i = 0; i < stretch.chain.size(); ++i) {
    const auto& pick = stretch.solution.picks[i];
    if (!pick) continue;
    const Option& option = stretch.problem.crops[i][pick->option];
    for (std::size_t day = 0; day < option.shares->size(); ++day) {
      const int number = option.first_cut + static_cast<int>(day);
      if (number > pick->lift) break;
      result[static_cast<std::size_t>(number / 7)] +=
          option.plants * option.weight * (*option.shares)[day];
    }
  }
  return result;
}

// The same picks judged by the stretch's present problem.
Score judged(const Stretch& stretch) {
  Score score;
  for (std::size_t i = 0; i < stretch.chain.size(); ++i) {
    const auto& pick = stretch.solution.picks[i];
    if (!pick) {
      score = score + Score{.left_out = 1};
      continue;
    }
    const Option& option = stretch.problem.crops[i][pick->option];
    score = score + Score{0,
                          value_of(option, pick->lift, stretch.problem),
                          option.off_middle,
                          option.way_rank,
                          option.start,
                          pick->lift};
  }
  return score;
}

std::vector<double> wanted_weeks(const Plan& plan, const climate::Climate& climate,
                                 const DayCount& count) {
  std::vector<double> wanted(count.weeks());
  const auto wish = harvest::wish_days(plan, climate);
  if (!wish) return wanted;
  const int last = count.number(wish->until - Days{1}) / 7;
  for (int week = count.number(wish->from) / 7; week <= last; ++week) {
    wanted[static_cast<std::size_t>(week)] = harvest::wanted(*plan.wish).stems;
  }
  return wanted;
}

std::vector<double> left_by_others(const std::vector<Stretch>& all, const Stretch& one,
                                   std::vector<double> wanted) {
  for (const Stretch& other : all) {
    if (&other == &one || other.weekly.empty()) continue;
    for (std::size_t week = 0; week < wanted.size(); ++week) {
      wanted[week] = std::max(0.0, wanted[week] - other.weekly[week]);
    }
  }
  return wanted;
}

void go_round(std::vector<Stretch>& all, const std::vector<double>& wanted) {
  for (Stretch& stretch : all) {
    stretch.problem.wanted = wanted;
    stretch.solution = choose(stretch.problem);
    stretch.weekly = weekly_stems(stretch, wanted.size());
  }
  bool changed = true;
  for (int round = 0; changed && round < kMostRounds; ++round) {
    changed = false;
    for (Stretch& stretch : all) {
      stretch.problem.wanted = left_by_others(all, stretch, wanted);
      Solution better = choose(stretch.problem);
      if (better.score <= judged(stretch)) continue;
      stretch.solution = std::move(better);
      stretch.weekly = weekly_stems(stretch, wanted.size());
      changed = true;
    }
  }
}

Sowing sowing(const Plan& plan, std::size_t planting, const Weighed& weighed, const Pick& pick) {
  Sowing result{weighed.candidates->list[pick.option]};
  result.planting = planting;
  if (const auto& patch = plan.plantings[planting].patch) {
    result.offset = patch->offset;
    result.length = patch->length;
  }
  result.plants = weighed.layout.plants;
  result.sheet = weighed.sheet;
  return result;
}

}  // namespace

ground::Schedule choose_plan(const Plan& plan, const climate::Climate& climate,
                             const std::vector<Weighed>& weighed) {
  const DayCount count(climate, plan.flowering_year);
  std::vector<Stretch> all;
  for (auto& chain : chains(plan)) {
    Stretch stretch;
    stretch.problem.gap = plan.work.days_between_crops;
    stretch.problem.horizon = count.horizon();
    for (const std::size_t i : chain) {
      stretch.problem.crops.push_back(options_of(weighed[i], count));
    }
    stretch.chain = std::move(chain);
    all.push_back(std::move(stretch));
  }
  go_round(all, wanted_weeks(plan, climate, count));

  ground::Schedule schedule;
  schedule.weighed = weighed;
  for (const Stretch& stretch : all) {
    std::optional<Date> next;
    for (std::size_t i = stretch.chain.size(); i-- > 0;) {
      const auto& pick = stretch.solution.picks[i];
      if (!pick) continue;
      const std::size_t planting = stretch.chain[i];
      Sowing one = sowing(plan, planting, weighed[planting], *pick);
      one.lift = count.date(pick->lift);
      one.next_in_ground = next;
      next = one.in_ground;
      schedule.sowings.push_back(std::move(one));
    }
  }
  std::ranges::stable_sort(schedule.sowings, {}, &Sowing::planting);
  return schedule;
}

}  // namespace trug::by_sum
