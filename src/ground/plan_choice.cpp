// SPDX-License-Identifier: MIT
#include "ground/plan_choice.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <utility>
#include <vector>

#include "ground/choose.h"

namespace trug::ground {
namespace {

using by_sum::Option;
using by_sum::Pick;
using by_sum::Problem;
using by_sum::Score;
using by_sum::Solution;

double weight(WindowPlace place) {
  switch (place) {
    case WindowPlace::Middle:
      return 1;
    case WindowPlace::Inside:
      return 0.95;
    case WindowPlace::Outside:
      return 0.8;
  }
  return 1;
}

// The common count of days: day 0 is a Monday two seasons before the flowering year.
class DayCount {
 public:
  DayCount(const climate::Climate& climate, int year)
      : zero_(monday_of(climate.season_start(year - 2))),
        horizon_(days_between(zero_, climate.season_start(year + 1)) + 120) {}
  int number(Date day) const { return days_between(zero_, day); }
  Date date(int number) const { return zero_ + Days{number}; }
  int horizon() const { return horizon_; }
  std::size_t weeks() const { return static_cast<std::size_t>(horizon_ / 7 + 1); }

 private:
  Date zero_;
  int horizon_;
};

Option option_of(const Candidate& first, const DayCount& count) {
  return {.start = count.number(first.start),
          .in_ground = count.number(first.in_ground),
          .first_cut = count.number(first.timeline.first_cut.likely),
          .lift_from = count.number(first.lift_from),
          .lift_to = count.number(first.lift_to),
          .off_middle = std::abs(days_between(first.window_middle(), first.in_ground)),
          .way_rank = static_cast<int>(first.way),
          .weight = weight(first.place),
          .shares = &first.timeline.shares};
}

// A stream takes the ground with its first sowing and leaves it with its last; the sowing farthest
// from its usual time weighs it.
Option option_of(const Stream& stream, const std::vector<Candidate>& list, const DayCount& count) {
  Option option = option_of(list[stream.sowings.front()], count);
  const Candidate& last = list[stream.sowings.back()];
  option.lift_from = count.number(last.lift_from);
  option.lift_to = count.number(last.lift_to);
  for (const std::size_t i : stream.sowings) {
    option.weight = std::min(option.weight, weight(list[i].place));
  }
  option.shares = &stream.shares;
  return option;
}

std::vector<Option> options_of(const Weighed& weighed, const DayCount& count) {
  const Candidates& all = *weighed.candidates;
  std::vector<Option> options;
  options.reserve(std::max(all.list.size(), all.streams.size()));
  const auto add = [&](Option option, const Candidate& first) {
    option.plants = first.stems_of(weighed.layout.plants);
    options.push_back(option);
  };
  if (all.wanted_sowings <= 1) {
    for (const Candidate& c : all.list) add(option_of(c, count), c);
  }
  for (const Stream& stream : all.streams) {
    add(option_of(stream, all.list, count), all.list[stream.sowings.front()]);
  }
  return options;
}

// One stretch's problem and the choice now held for it.
struct StretchState {
  std::vector<std::size_t> chain;  // its plantings
  Problem problem;
  Solution solution;
  std::vector<double> weekly;  // weighted stems, as the value counts them
};

std::vector<double> weekly_stems(const StretchState& state, std::size_t weeks) {
  std::vector<double> result(weeks, 0.0);
  for (std::size_t i = 0; i < state.solution.picks.size(); ++i) {
    const auto& pick = state.solution.picks[i];
    if (!pick) continue;
    const Option& option = state.problem.crops[i][pick->option];
    for (std::size_t day = 0; day < option.shares->size(); ++day) {
      const int number = option.first_cut + static_cast<int>(day);
      if (number > pick->lift) break;
      result[static_cast<std::size_t>(number / 7)] +=
          option.plants * option.weight * (*option.shares)[day];
    }
  }
  return result;
}

// The same picks judged by another problem's wish.
Score judged(const Solution& solution, const Problem& problem) {
  Score score;
  for (std::size_t i = 0; i < solution.picks.size(); ++i) {
    const auto& pick = solution.picks[i];
    if (!pick) {
      score = score + Score{.left_out = 1};
      continue;
    }
    const Option& option = problem.crops[i][pick->option];
    score = score + Score{0,
                          value_of(option, pick->lift, problem),
                          option.off_middle,
                          option.way_rank,
                          option.start,
                          pick->lift};
  }
  return score;
}

class Rounds {
 public:
  Rounds(std::vector<StretchState>& states, const std::optional<std::vector<double>>& wanted,
         std::size_t weeks)
      : states_(states), wanted_(wanted), weeks_(weeks) {}

  void apart() {
    for (StretchState& state : states_) {
      state.problem.wanted = wanted_;
      state.solution = choose(state.problem);
      state.weekly = weekly_stems(state, weeks_);
    }
  }

  // True where a stretch changed.
  bool go_round() {
    bool changed = false;
    for (StretchState& state : states_) {
      state.problem.wanted = left_by_others(state);
      Solution better = choose(state.problem);
      if (better.score > judged(state.solution, state.problem)) {
        state.solution = std::move(better);
        state.weekly = weekly_stems(state, weeks_);
        changed = true;
      }
    }
    return changed;
  }

 private:
  std::vector<double> left_by_others(const StretchState& state) const {
    std::vector<double> left = *wanted_;
    for (const StretchState& other : states_) {
      if (&other == &state) continue;
      for (std::size_t week = 0; week < weeks_; ++week) {
        left[week] = std::max(0.0, left[week] - other.weekly[week]);
      }
    }
    return left;
  }

  std::vector<StretchState>& states_;
  const std::optional<std::vector<double>>& wanted_;
  std::size_t weeks_;
};

// The entry without what no date depends on: plantings that agree in the rest share what was
// weighed.
CropEntry dating(CropEntry entry) {
  entry.variety.reset();
  entry.id.reset();
  entry.plants.reset();
  entry.spacing_cm.reset();
  entry.colours.clear();
  entry.person.reset();
  entry.at = {};
  return entry;
}

std::vector<Weighed> weigh(const Plan& plan, const Sheets& sheets, const Setting& setting) {
  std::vector<const Sheet*> of;
  for (const Planting& planting : plan.plantings) of.push_back(sheets.at(planting.asked.crop));
  const climate::Season season(setting.climate, plan.flowering_year);
  auto all = begun(plan, of, season);
  std::vector<Weighed> result;
  std::map<std::pair<CropEntry, std::vector<Begun>>, std::shared_ptr<const Candidates>> known;
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    const Planting& planting = plan.plantings[i];
    auto& shared = known[{dating(planting.asked), all[i]}];
    if (!shared) {
      shared = std::make_shared<Candidates>(candidates(setting, *of[i], planting.asked, all[i]));
    }
    result.push_back({of[i], layout(planting, *of[i]), shared, std::move(all[i])});
  }
  return result;
}

std::vector<StretchState> stretch_states(const Plan& plan, const std::vector<Weighed>& weighed,
                                         const DayCount& count) {
  std::vector<StretchState> states;
  for (auto& chain : chains(plan)) {
    StretchState state;
    state.problem.gap = plan.work.days_between_crops;
    state.problem.horizon = count.horizon();
    for (const std::size_t i : chain) state.problem.crops.push_back(options_of(weighed[i], count));
    state.chain = std::move(chain);
    states.push_back(std::move(state));
  }
  return states;
}

// The sowings of one planting as picked.
class Sower {
 public:
  Sower(const Plan& plan, const Schedule& schedule, std::size_t planting)
      : planting_(plan.plantings[planting]),
        weighed_(schedule.weighed[planting]),
        index_(planting) {}

  std::vector<Sowing> sow(const Pick& pick, Date lift, std::optional<Date> next) const {
    const Candidates& all = *weighed_.candidates;
    std::vector<Sowing> result;
    if (all.wanted_sowings <= 1) {
      result.push_back(sowing(all.list[pick.option], 0, 1));
    } else {
      const Stream& stream = all.streams[pick.option];
      for (std::size_t i = 0; i < stream.sowings.size(); ++i) {
        result.push_back(
            sowing(all.list[stream.sowings[i]], static_cast<int>(i), all.wanted_sowings));
      }
    }
    // The last goes when the planting does, the others when they are over.
    for (Sowing& one : result) one.lift = one.lift_to;
    result.back().lift = lift;
    for (Sowing& one : result) {
      one.next_in_ground = next;
      // Its neighbours' days may have asked for less.
      if (one.begun.lift) one.lift = *one.begun.lift;
    }
    return result;
  }

  // What became of the starts that failed, as far as it can be told how they were begun.
  std::vector<Sowing> failed(const Setting& setting) const {
    std::vector<Sowing> result;
    for (const Begun& begun : weighed_.begun) {
      if (!begun.failed) continue;
      CropEntry entry = planting_.asked;
      entry.successions = 1;
      Begun alone = begun;
      alone.number = 0;
      const Candidates all = candidates(setting, *weighed_.sheet, entry, {alone});
      const Candidate* likeliest = nullptr;
      for (const Candidate& c : all.list) {
        const auto off = [](const Candidate& one) {
          return std::pair(one.way, std::abs(days_between(one.window_middle(), one.in_ground)));
        };
        const bool before = c.start <= *begun.failed;
        if (before && (!likeliest || off(c) < off(*likeliest))) likeliest = &c;
      }
      if (!likeliest) continue;
      result.push_back(sowing(*likeliest, std::max(0, begun.number - 1),
                              std::max(1, planting_.asked.successions)));
      result.back().begun = begun;
      result.back().lift = *begun.failed;
    }
    return result;
  }

 private:
  // The i-th of so many; plants that do not divide go to the first ones.
  Sowing sowing(const Candidate& candidate, int i, int count) const {
    Sowing result{candidate};
    const Layout& layout = weighed_.layout;
    result.planting = index_;
    result.number = count > 1 ? i + 1 : 0;
    if (planting_.patch) {
      result.length = Millimetres{planting_.patch->length.value() / count};
      result.offset = planting_.patch->offset + result.length * i;
    }
    result.plants = layout.plants / count + (i < layout.plants % count ? 1 : 0);
    result.rows = layout.rows / count;
    result.spacing_cm = layout.spacing_cm;
    result.sheet = weighed_.sheet;
    return result;
  }

  const Planting& planting_;
  const Weighed& weighed_;
  std::size_t index_;
};

void take_over(const Plan& plan, const std::vector<StretchState>& states, const DayCount& count,
               Schedule& schedule) {
  std::vector<std::vector<Sowing>> sown(plan.plantings.size());
  for (const StretchState& state : states) {
    std::optional<Date> next;
    for (std::size_t i = state.chain.size(); i-- > 0;) {
      const auto& pick = state.solution.picks[i];
      if (!pick) continue;
      auto& sowings = sown[state.chain[i]];
      sowings = Sower(plan, schedule, state.chain[i]).sow(*pick, count.date(pick->lift), next);
      next = sowings.front().in_ground;
    }
  }
  for (auto& sowings : sown) {
    for (Sowing& sowing : sowings) schedule.sowings.push_back(std::move(sowing));
  }
}

void add_failed(const Plan& plan, const Setting& setting, Schedule& schedule) {
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    for (Sowing& sowing : Sower(plan, schedule, i).failed(setting)) {
      schedule.failed.push_back(std::move(sowing));
    }
  }
}

std::optional<std::vector<double>> wanted_weeks(const Plan& plan, const climate::Climate& climate,
                                                const DayCount& count) {
  const auto wish = harvest::wish_days(plan, climate);
  if (!wish) return std::nullopt;
  std::vector<double> wanted(count.weeks(), 0.0);
  const int first = count.number(wish->from) / 7;
  const int last = count.number(wish->until - Days{1}) / 7;
  for (int week = first; week <= last; ++week) {
    wanted[static_cast<std::size_t>(week)] = plan.wish->vases_per_week * plan.wish->stems_per_vase;
  }
  return wanted;
}

}  // namespace

Schedule choose_plan(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
                     ChoiceOptions options) {
  Setting setting{.climate = climate,
                  .place = plan.place,
                  .work = plan.work,
                  .shelter = plan.shelter,
                  .flowering_year = plan.flowering_year,
                  .first_day = options.first_day,
                  .today = options.today};
  if (const auto wish = harvest::wish_days(plan, climate)) {
    setting.wish_end = wish->until - Days{1};
  }
  Schedule result;
  result.weighed = weigh(plan, sheets, setting);
  const DayCount count(climate, plan.flowering_year);
  std::vector<StretchState> states = stretch_states(plan, result.weighed, count);
  const auto wanted = wanted_weeks(plan, climate, count);
  Rounds rounds(states, wanted, count.weeks());
  rounds.apart();
  result.exact = states.size() <= 1 || !plan.wish;
  if (options.rounds && !result.exact) {
    result.settled = false;
    while (!result.settled && result.rounds < kMostRounds) {
      result.settled = !rounds.go_round();
      ++result.rounds;
    }
  }
  take_over(plan, states, count, result);
  add_failed(plan, setting, result);
  return result;
}

}  // namespace trug::ground
