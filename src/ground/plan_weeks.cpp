// SPDX-License-Identifier: MIT
#include "ground/plan_weeks.h"

#include <algorithm>

namespace trug::ground {
namespace {

constexpr int kDaysPerWeek = 7;
constexpr double kNoLess = 1e-9;  // sums of the same stems in another order

const Option& option_of(const StretchCrop& crop, const Pick& pick) {
  return crop.options->list[pick.option];
}

// Calls `give(week, stems)` for each day of a pick's stems.
template <class Give>
void each_day(const StretchCrop& crop, const Pick& pick, const Give& give) {
  const Option& option = option_of(crop, pick);
  const std::vector<double>& curve = crop.options->curves[option.curve];
  const double stems = crop.plants * option.stems_per_plant * option.weight;
  const int end = std::min(pick.lift + 1, option.first_cut + static_cast<int>(curve.size()));
  for (int day = option.first_cut; day < end; ++day) {
    give(static_cast<std::size_t>(day / kDaysPerWeek),
         stems * curve[static_cast<std::size_t>(day - option.first_cut)]);
  }
}

// Who is left out, the taste and, as a loss, the bare ground.
PlanScore ground_score(const StretchGround& stretch, const Picks& picks) {
  PlanScore score;
  int free = stretch.free_on;
  for (std::size_t i = 0; i < picks.size(); ++i) {
    if (!picks[i]) {
      score.left_out += stretch.crops[i].missed;
      continue;
    }
    const Option& option = option_of(stretch.crops[i], *picks[i]);
    score.taste = score.taste + taste(option, picks[i]->lift);
    score.value -= bare_before(stretch, free, option);
    free = picks[i]->lift + stretch.gap;
  }
  score.value -= bare_after(stretch, free);
  return score;
}

}  // namespace

bool is_better(const PlanScore& one, const PlanScore& other, double least_gain) {
  if (one.left_out != other.left_out) return one.left_out < other.left_out;
  if (one.value >= other.value + least_gain) return true;
  return least_gain <= kLeastGain && one.value >= other.value - kNoLess && one.taste > other.taste;
}

WeekRange reach(const StretchGround& stretch) {
  WeekRange range{stretch.horizon / kDaysPerWeek, -1};
  for (const StretchCrop& crop : stretch.crops) {
    for (const Option& option : crop.options->list) {
      range.first = std::min(range.first, option.first_cut / kDaysPerWeek);
      range.last = std::max(range.last, option.lift_to / kDaysPerWeek);
    }
  }
  return range;
}

PlanWeeks::PlanWeeks(const PlanProblem& problem) : problem_(&problem) {
  int last = 0;
  for (const StretchGround& stretch : problem.stretches) {
    last = std::max(last, std::max(stretch.horizon / kDaysPerWeek, reach(stretch).last));
  }
  weeks_ = static_cast<std::size_t>(last) + 1;
  if (problem.wanted) weeks_ = std::max(weeks_, problem.wanted->size());
  for (const auto& weekly : problem.elsewhere) weeks_ = std::max(weeks_, weekly.size());
  stems_ = problem.elsewhere;
  stems_.resize(problem.kinds.size());
  for (auto& weekly : stems_) weekly.resize(weeks_);
}

void PlanWeeks::change(std::size_t stretch, const Picks& picks, double sign) {
  const StretchGround& ground = problem_->stretches[stretch];
  for (std::size_t i = 0; i < picks.size(); ++i) {
    if (!picks[i]) continue;
    std::vector<double>& weekly = stems_[ground.crops[i].kind];
    each_day(ground.crops[i], *picks[i],
             [&](std::size_t week, double stems) { weekly[week] += sign * stems; });
  }
}

harvest::Wanted PlanWeeks::wanted(std::size_t week) const {
  if (!problem_->wanted || week >= problem_->wanted->size()) return {};
  return (*problem_->wanted)[week];
}

double PlanWeeks::fit(std::size_t week, std::size_t kind) const {
  return std::min(stems_[kind][week], wanted(week).most_of_a_kind());
}

// What the week's other kinds give, each kind's own part taken out of the sum of all.
harvest::Beside PlanWeeks::beside(std::size_t week, std::size_t kind, PartSums all) const {
  const harvest::Wanted wish = wanted(week);
  const harvest::Part part = wish.counts_as(problem_->kinds[kind]);
  all.of(part) -= fit(week, kind);
  return {wish, part, stems_[kind][week], all.main, all.filler};
}

PlanWeeks::PartSums PlanWeeks::sums(std::size_t week) const {
  PartSums all;
  for (std::size_t kind = 0; kind < stems_.size(); ++kind) {
    all.of(wanted(week).counts_as(problem_->kinds[kind])) += fit(week, kind);
  }
  return all;
}

std::vector<WeekWorths> PlanWeeks::worths(std::size_t stretch) const {
  const StretchGround& ground = problem_->stretches[stretch];
  const auto outside = problem_->wanted ? harvest::Beside() : harvest::Beside::flat(1);
  std::vector<WeekWorths> result(ground.crops.size(), WeekWorths(weeks_, outside));
  const WeekRange range = reach(ground);
  for (int week = std::max(0, range.first); week <= range.last; ++week) {
    const auto index = static_cast<std::size_t>(week);
    if (!is_wished(index)) continue;
    const PartSums all = sums(index);
    for (std::size_t i = 0; i < ground.crops.size(); ++i) {
      result[i][index] = beside(index, ground.crops[i].kind, all);
    }
  }
  return result;
}

std::vector<double> PlanWeeks::next_stem(std::size_t kind) const {
  constexpr double kLittle = 0.01;
  std::vector<double> result(weeks_);
  for (std::size_t week = 0; week < weeks_; ++week) {
    if (!is_wished(week)) continue;
    result[week] = beside(week, kind, sums(week)).gain(kLittle) / kLittle - harvest::kStemWorth;
  }
  return result;
}

double PlanWeeks::value() const {
  double sum = 0;
  std::vector<harvest::Kind> kinds(stems_.size());
  for (std::size_t week = 0; week < weeks_; ++week) {
    double all = 0;
    for (std::size_t kind = 0; kind < stems_.size(); ++kind) {
      kinds[kind] = {problem_->kinds[kind], stems_[kind][week]};
      all += stems_[kind][week];
    }
    sum += problem_->wanted ? harvest::vase(wanted(week), kinds).value : all;
  }
  return sum;
}

PlanScore score_of(const StretchGround& stretch, const Picks& picks,
                   const std::vector<WeekWorths>& worths) {
  PlanScore score = ground_score(stretch, picks);
  for (std::size_t i = 0; i < picks.size(); ++i) {
    if (!picks[i]) continue;
    const StretchCrop& crop = stretch.crops[i];
    score.value += Counter(crop, option_of(crop, *picks[i]), worths[i]).up_to(picks[i]->lift);
  }
  return score;
}

PlanScore score_of(const PlanProblem& problem, const std::vector<Picks>& picks,
                   const PlanWeeks& weeks) {
  PlanScore score{.value = weeks.value()};
  for (std::size_t i = 0; i < picks.size(); ++i) {
    const PlanScore of_ground = ground_score(problem.stretches[i], picks[i]);
    score.left_out += of_ground.left_out;
    score.value += of_ground.value;
    score.taste = score.taste + of_ground.taste;
  }
  return score;
}

std::vector<double> weekly_stems(const StretchGround& stretch, const Picks& picks) {
  std::vector<double> result;
  for (std::size_t i = 0; i < picks.size(); ++i) {
    if (!picks[i]) continue;
    each_day(stretch.crops[i], *picks[i], [&](std::size_t week, double stems) {
      if (week >= result.size()) result.resize(week + 1);
      result[week] += stems;
    });
  }
  return result;
}

}  // namespace trug::ground
