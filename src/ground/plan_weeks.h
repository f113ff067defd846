// SPDX-License-Identifier: MIT
// A plan's stretches as one problem, and what all of them together give in each week.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "ground/programme.h"
#include "harvest/vase.h"

namespace trug::ground {

struct PlanProblem {
  std::vector<StretchGround> stretches;
  std::vector<harvest::Part> kinds;                    // the part that each kind of crop plays
  std::optional<std::vector<harvest::Wanted>> wanted;  // by week; absent: a plan without a wish
  std::vector<std::vector<double>> elsewhere;  // stems by kind and week that take no stretch
};

using Picks = std::vector<std::optional<Pick>>;  // of a stretch, one a crop; empty: left out

// Of a stretch beside others, or of a plan. Weighted stems, as the choice counts them.
struct PlanScore {
  int left_out = 0;
  double value = 0;  // stems, less the price of bare ground
  Taste taste;
};
// Whether `one` is to be had rather than `other`: fewer left out, or worth more by `least_gain`, or
// worth no less and more to the trade's taste.
inline constexpr double kLeastGain = 0.005;
bool is_better(const PlanScore& one, const PlanScore& other, double least_gain = kLeastGain);

struct WeekRange {
  int first = 0;
  int last = -1;  // inside
};
// The weeks in which a stretch can have stems at all.
WeekRange reach(const StretchGround& stretch);

// The stems of every kind in every week.
class PlanWeeks {
 public:
  // Nothing but what grows elsewhere.
  explicit PlanWeeks(const PlanProblem& problem);

  void add(std::size_t stretch, const Picks& picks) { change(stretch, picks, 1); }
  void remove(std::size_t stretch, const Picks& picks) { change(stretch, picks, -1); }

  // What further stems of each of the stretch's crops are worth beside all there are.
  std::vector<WeekWorths> worths(std::size_t stretch) const;
  // What the very next stem of a kind would be worth in each week, in a vase alone.
  std::vector<double> next_stem(std::size_t kind) const;
  // Of all weeks together.
  double value() const;
  bool is_wished(std::size_t week) const { return wanted(week).stems > 0; }

 private:
  // The parts of all kinds together, none above its most.
  struct PartSums {
    double main = 0, filler = 0;
    double& of(harvest::Part part) { return part == harvest::Part::Main ? main : filler; }
  };

  void change(std::size_t stretch, const Picks& picks, double sign);
  harvest::Wanted wanted(std::size_t week) const;
  double fit(std::size_t week, std::size_t kind) const;
  PartSums sums(std::size_t week) const;
  harvest::Beside beside(std::size_t week, std::size_t kind, PartSums all) const;

  const PlanProblem* problem_;
  std::size_t weeks_ = 0;
  std::vector<std::vector<double>> stems_;  // by kind and week
};

// A stretch's picks: what they add to the weeks' worths, less its bare ground.
PlanScore score_of(const StretchGround& stretch, const Picks& picks,
                   const std::vector<WeekWorths>& worths);
// Of all stretches together.
PlanScore score_of(const PlanProblem& problem, const std::vector<Picks>& picks,
                   const PlanWeeks& weeks);

// Stems by week from week 0 that the picks give, weighted.
std::vector<double> weekly_stems(const StretchGround& stretch, const Picks& picks);

}  // namespace trug::ground
