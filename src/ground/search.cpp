// SPDX-License-Identifier: MIT
#include "ground/search.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <set>
#include <utility>

namespace trug::ground {
namespace {

using Stretches = std::vector<std::size_t>;

// A choice for the whole plan, and when each of its weeks last changed.
struct State {
  std::vector<Picks> picks;
  PlanWeeks weeks;
  std::vector<int> changed;  // by week
  std::vector<int> chosen;   // by stretch: the change up to which it was chosen
  int changes = 0;
};

// One stretch at a time: empties it, chooses it again, and counts how often.
class Chooser {
 public:
  explicit Chooser(const PlanProblem& problem)
      : problem_(problem), limit_(most_calls(problem.stretches.size())) {
    for (const StretchGround& stretch : problem.stretches) {
      reach_.push_back(reach(stretch));
      weeks_ = std::max(weeks_, static_cast<std::size_t>(reach_.back().last + 1));
    }
  }

  State begin(std::vector<Picks> picks) const {
    State state{.picks = std::move(picks), .weeks = PlanWeeks(problem_)};
    state.changed.assign(weeks_, 0);
    state.chosen.assign(problem_.stretches.size(), 0);
    for (std::size_t i = 0; i < problem_.stretches.size(); ++i) {
      state.picks[i].resize(problem_.stretches[i].crops.size());
      state.weeks.add(i, state.picks[i]);
    }
    return state;
  }

  int calls() const { return calls_; }
  bool has_calls(std::size_t calls) const { return calls_ + static_cast<int>(calls) <= limit_; }

  PlanScore score(const State& state) const { return score_of(problem_, state.picks, state.weeks); }

  void put(State& state, std::size_t stretch, Picks picks) const {
    state.weeks.remove(stretch, state.picks[stretch]);
    replace(state, stretch, std::move(picks));
    state.weeks.add(stretch, state.picks[stretch]);
  }
  void clear(State& state, std::size_t stretch) const {
    put(state, stretch, Picks(problem_.stretches[stretch].crops.size()));
  }

  // True where it changed.
  bool choose_again(State& state, std::size_t stretch, double least_gain = kLeastGain) {
    const StretchGround& ground = problem_.stretches[stretch];
    const Picks& picks = state.picks[stretch];
    state.weeks.remove(stretch, picks);
    const std::vector<WeekWorths> worths = state.weeks.worths(stretch);
    Picks again = best_choice(ground, worths).picks;
    ++calls_;
    const bool better = again != picks && is_better(score_of(ground, again, worths),
                                                    score_of(ground, picks, worths), least_gain);
    if (better) replace(state, stretch, std::move(again));
    state.weeks.add(stretch, picks);
    state.chosen[stretch] = state.changes;
    return better;
  }

  // Whether another stretch changed in a week that this one can reach.
  bool is_due(const State& state, std::size_t stretch) const {
    for (int week = reach_[stretch].first; week <= reach_[stretch].last; ++week) {
      const auto index = static_cast<std::size_t>(week);
      if (state.changed[index] > state.chosen[stretch] && state.weeks.is_wished(index)) return true;
    }
    return false;
  }

 private:
  void replace(State& state, std::size_t stretch, Picks picks) const {
    ++state.changes;
    stamp(state, stretch, state.picks[stretch]);
    stamp(state, stretch, picks);
    state.picks[stretch] = std::move(picks);
  }

  void stamp(State& state, std::size_t stretch, const Picks& picks) const {
    const StretchGround& ground = problem_.stretches[stretch];
    for (std::size_t i = 0; i < picks.size(); ++i) {
      if (!picks[i]) continue;
      const int first = ground.crops[i].options->list[picks[i]->option].first_cut;
      for (int week = first / 7; week <= picks[i]->lift / 7; ++week) {
        state.changed[static_cast<std::size_t>(week)] = state.changes;
      }
    }
  }

  const PlanProblem& problem_;
  const int limit_;
  std::vector<WeekRange> reach_;
  std::size_t weeks_ = 0;
  int calls_ = 0;
};

using Pair = std::pair<std::size_t, std::size_t>;

// Days between the earliest and the latest first cut, of all its crops.
int freedom(const StretchGround& stretch) {
  int days = 0;
  for (const StretchCrop& crop : stretch.crops) {
    const auto& list = crop.options->list;
    if (list.empty()) continue;
    const auto [first, last] = std::ranges::minmax_element(list, {}, &Option::first_cut);
    days += last->first_cut - first->first_cut;
  }
  return days;
}

// Stems in the same wished weeks.
double shared(const PlanWeeks& weeks, const std::vector<double>& one,
              const std::vector<double>& other) {
  double sum = 0;
  for (std::size_t week = 0; week < std::min(one.size(), other.size()); ++week) {
    if (weeks.is_wished(week)) sum += std::min(one[week], other[week]);
  }
  return sum;
}

// Each stretch with those it shares most stems with, the greatest share first.
std::vector<Pair> neighbours(const PlanProblem& problem, const State& state,
                             const Stretches& stretches) {
  std::vector<std::vector<double>> weekly;
  for (const std::size_t stretch : stretches) {
    weekly.push_back(weekly_stems(problem.stretches[stretch], state.picks[stretch]));
  }
  std::set<std::pair<double, Pair>> pairs;  // the share, negated
  for (std::size_t a = 0; a < stretches.size(); ++a) {
    std::vector<std::pair<double, Pair>> of_this;
    for (std::size_t b = 0; b < stretches.size(); ++b) {
      const double share = a == b ? 0 : shared(state.weeks, weekly[a], weekly[b]);
      if (share > 0) of_this.push_back({-share, std::minmax(stretches[a], stretches[b])});
    }
    std::ranges::sort(of_this);
    for (std::size_t i = 0; i < of_this.size() && i < kNeighbours; ++i) pairs.insert(of_this[i]);
  }
  std::vector<Pair> result;
  for (const auto& [share, pair] : pairs) result.push_back(pair);
  return result;
}

// Several beginnings for the stretches that are free; the best is kept.
class Search {
 public:
  Search(const PlanProblem& problem, Stretches free)
      : problem_(problem), chooser_(problem), free_(std::move(free)) {}

  Found run(std::vector<Picks> picks, const Stretches& held) {
    State state = chosen_apart(chooser_.begin(std::move(picks)));
    const bool alone = !problem_.wanted || problem_.stretches.size() <= 1;
    found_.is_best = alone && held.empty();
    if (!alone) improve(state);
    move_held(state, held);
    found_.score = chooser_.score(state);
    found_.calls = chooser_.calls();
    found_.picks = std::move(state.picks);
    return found_;
  }

 private:
  // Each as if no other were free.
  State chosen_apart(State state) {
    for (const std::size_t stretch : free_) chooser_.clear(state, stretch);
    std::vector<Picks> apart = state.picks;
    for (const std::size_t stretch : free_) {
      chooser_.choose_again(state, stretch);
      apart[stretch] = state.picks[stretch];
      chooser_.clear(state, stretch);
    }
    for (const std::size_t stretch : free_) {
      chooser_.put(state, stretch, std::move(apart[stretch]));
    }
    std::ranges::fill(state.chosen, 0);
    return state;
  }

  void improve(State& best) {
    go_round(best);
    if (free_.size() <= kMostForPairs) {
      keep_better(best, least_freedom_first(best));
      try_pairs(best);
    }
    if (free_.size() <= kMostForKicks) try_kicks(best);
    go_round(best);
  }

  // What stands moves only for a gain that is worth it.
  void move_held(State& state, const Stretches& held) {
    bool moved = false;
    for (const std::size_t stretch : held) {
      if (!chooser_.has_calls(1)) break;
      const double least_gain = kGainToMove * std::abs(chooser_.score(state).value);
      moved |= chooser_.choose_again(state, stretch, least_gain);
    }
    if (moved) go_round(state);
  }

  void go_round(State& state) {
    for (int round = 0; round < kMostRounds; ++round) {
      ++found_.rounds;
      bool changed = false;
      for (const std::size_t stretch : free_) {
        if (!chooser_.is_due(state, stretch)) continue;
        if (!chooser_.has_calls(1)) {
          found_.settled = false;
          return;
        }
        changed |= chooser_.choose_again(state, stretch);
      }
      if (!changed) return;
    }
    found_.settled = false;
  }

  void keep_better(State& best, State&& other) const {
    if (is_better(chooser_.score(other), chooser_.score(best))) best = std::move(other);
  }

  // From nothing, each for those chosen before it.
  State least_freedom_first(State state) {
    std::vector<Pair> order;
    for (const std::size_t stretch : free_) {
      order.emplace_back(freedom(problem_.stretches[stretch]), stretch);
      chooser_.clear(state, stretch);
    }
    std::ranges::sort(order);
    for (const auto& [days, stretch] : order) {
      if (chooser_.has_calls(1)) chooser_.choose_again(state, stretch);
    }
    go_round(state);
    return state;
  }

  State chosen_anew(State state, const Stretches& order) {
    for (const std::size_t stretch : order) chooser_.clear(state, stretch);
    for (const std::size_t stretch : order) chooser_.choose_again(state, stretch);
    return state;
  }

  void try_pairs(State& best) {
    for (const auto& [a, b] : neighbours(problem_, best, free_)) {
      if (!chooser_.has_calls(6)) return;
      State one = chosen_anew(best, {a, b, a});
      State other = chosen_anew(best, {b, a, b});
      keep_better(best, std::move(one));
      keep_better(best, std::move(other));
    }
  }

  void try_kicks(State& best) {
    std::mt19937 drawn(7);  // always the same numbers
    for (int kick = 0; kick < kKicks && free_.size() > 1; ++kick) {
      const std::size_t count = std::min<std::size_t>(free_.size(), 2 + drawn() % 2);
      Stretches order;
      while (order.size() < count) {
        const std::size_t stretch = free_[drawn() % free_.size()];
        if (std::ranges::find(order, stretch) == order.end()) order.push_back(stretch);
      }
      for (std::size_t i = 0; i < count; ++i) order.push_back(order[i]);
      if (!chooser_.has_calls(order.size())) return;
      keep_better(best, chosen_anew(best, order));
    }
  }

  const PlanProblem& problem_;
  Chooser chooser_;
  const Stretches free_;
  Found found_;
};

}  // namespace

int most_calls(std::size_t stretches) {
  const int count = static_cast<int>(stretches);
  return std::max(count <= kSmallPlan ? kMostCallsSmall : kMostCalls, kCallsAStretch * count);
}

Found search(const PlanProblem& problem, const std::optional<Remembered>& remembered) {
  Stretches free, held;
  for (std::size_t i = 0; i < problem.stretches.size(); ++i) {
    (!remembered || remembered->free[i] ? free : held).push_back(i);
  }
  std::vector<Picks> picks(problem.stretches.size());
  if (remembered) picks = remembered->picks;
  return Search(problem, free).run(std::move(picks), held);
}

}  // namespace trug::ground
