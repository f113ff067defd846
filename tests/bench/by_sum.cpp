// SPDX-License-Identifier: MIT
#include "by_sum.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

namespace trug::by_sum {
namespace {

constexpr int kDaysPerWeek = 7;

// Adds up an option's stems day by day; `value` is what they are worth so far.
class Counter {
 public:
  Counter(const Option& option, const Problem& problem)
      : option_(option), problem_(problem), day_(option.first_cut) {}

  // Counts on up to and including `lift`.
  std::int64_t up_to(int lift) {
    const int last = option_.first_cut + static_cast<int>(option_.shares->size()) - 1;
    for (; day_ <= std::min(lift, last); ++day_) {
      const int week = day_ / kDaysPerWeek;
      if (week != week_) {
        closed_ += worth(week_stems_);
        week_ = week;
        week_stems_ = 0;
      }
      week_stems_ += option_.plants * option_.weight *
                     (*option_.shares)[static_cast<std::size_t>(day_ - option_.first_cut)];
    }
    return std::llround(100 * (closed_ + worth(week_stems_)));
  }

 private:
  double worth(double stems) const {
    if (!problem_.wanted) return stems;
    const auto& wanted = *problem_.wanted;
    const bool inside = week_ >= 0 && week_ < static_cast<int>(wanted.size());
    const double full = std::min(stems, inside ? wanted[static_cast<std::size_t>(week_)] : 0.0);
    return full + kSurplusWorth * (stems - full);
  }

  const Option& option_;
  const Problem& problem_;
  int day_;
  int week_ = -1;
  double week_stems_ = 0;
  double closed_ = 0;
};

// The best of crops 1..i with the ground free again by a day, and how it was reached.
struct State {
  Score score;
  std::optional<Pick> pick;  // of crop i
  int before = 0;            // day of the state of crop i-1 it builds on
};
using Row = std::vector<State>;

Row left_out(const Row& before) {
  Row row(before.size());
  for (std::size_t day = 0; day < row.size(); ++day) {
    row[day].score = before[day].score + Score{.left_out = 1};
    row[day].before = static_cast<int>(day);
  }
  return row;
}

void try_option(const Problem& problem, const Option& option, std::size_t index, const Row& before,
                Row& row) {
  if (option.in_ground < 0 || option.in_ground > problem.horizon) return;
  const State& base = before[static_cast<std::size_t>(option.in_ground)];
  Counter counter(option, problem);
  for (int lift = option.lift_from; lift <= option.lift_to; ++lift) {
    const Score gain{0,   counter.up_to(lift), option.off_middle, option.way_rank, option.start,
                     lift};
    const auto free = static_cast<std::size_t>(std::min(lift + problem.gap, problem.horizon + 1));
    const Score score = base.score + gain;
    if (score > row[free].score) {
      row[free] = {score, Pick{index, lift}, option.in_ground};
    }
  }
}

}  // namespace

std::strong_ordering Score::operator<=>(const Score& other) const {
  // Greater is better: what should be small is compared the other way round.
  return std::tie(other.left_out, value, other.off_middle, other.way_rank, other.start, lift) <=>
         std::tie(left_out, other.value, off_middle, way_rank, start, other.lift);
}

Score Score::operator+(const Score& other) const {
  return {left_out + other.left_out, value + other.value, off_middle + other.off_middle,
          way_rank + other.way_rank, start + other.start, lift + other.lift};
}

std::int64_t value_of(const Option& option, int lift, const Problem& problem) {
  return Counter(option, problem).up_to(lift);
}

Solution choose(const Problem& problem) {
  // The last state is any day beyond the horizon, on which nothing more is put in.
  const auto days = static_cast<std::size_t>(problem.horizon) + 2;
  std::vector<Row> rows{Row(days)};
  for (const std::vector<Option>& options : problem.crops) {
    Row row = left_out(rows.back());
    for (std::size_t i = 0; i < options.size(); ++i) {
      try_option(problem, options[i], i, rows.back(), row);
    }
    // What is free earlier is free later too.
    for (std::size_t day = 1; day < days; ++day) {
      if (row[day - 1].score >= row[day].score) row[day] = row[day - 1];
    }
    rows.push_back(std::move(row));
  }
  Solution solution;
  solution.picks.resize(problem.crops.size());
  solution.score = rows.back().back().score;
  auto day = days - 1;
  for (std::size_t crop = problem.crops.size(); crop > 0; --crop) {
    const State& state = rows[crop][day];
    solution.picks[crop - 1] = state.pick;
    day = static_cast<std::size_t>(state.before);
  }
  return solution;
}

}  // namespace trug::by_sum
