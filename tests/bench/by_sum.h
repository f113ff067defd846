// SPDX-License-Identifier: MIT
// The choice by sums of stems that the program began with, kept to set beside the one by vases: the
// exact choice for one stretch: which option of each crop, in order, and when each is lifted.
//
// A small problem written as data, a solution that carries its score: nothing here knows gardens.
// Days are whole numbers on one common count; weeks are seven of them from day 0, a Monday.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <vector>

namespace trug::by_sum {

// One way and date to grow a crop. The ground is taken from `in_ground`.
struct Option {
  int start = 0;
  int in_ground = 0;
  int first_cut = 0;
  int lift_from = 0;   // the lift may fall on any day from here ...
  int lift_to = 0;     // ... to here
  int off_middle = 0;  // days of in_ground from the middle of its window
  int way_rank = 0;    // place of the way in the sheet
  double weight = 1;   // 0.8 outside its window, 0.95 outside the window's middle half
  double plants = 1;   // stems of a day = plants x shares
  const std::vector<double>* shares = nullptr;  // by day from first_cut
};

struct Problem {
  std::vector<std::vector<Option>> crops;  // in order: the next follows the last
  int gap = 7;                             // days between a lift and the next crop
  int horizon = 0;                         // days counted
  // Stems the wish still wants in each week; a week outside the wish wants none. Without a wish
  // every stem counts in full.
  std::optional<std::vector<double>> wanted;
};

// Compared in this order: fewest left out, most value, then nearest to the trade's middle, the
// sheet's first ways, earlier starts, later lifts.
struct Score {
  int left_out = 0;
  std::int64_t value = 0;  // hundredths of stems
  int off_middle = 0;
  int way_rank = 0;
  std::int64_t start = 0;
  std::int64_t lift = 0;
  std::strong_ordering operator<=>(const Score& other) const;
  bool operator==(const Score& other) const = default;
  Score operator+(const Score& other) const;
};

struct Pick {
  std::size_t option = 0;
  int lift = 0;
  bool operator==(const Pick&) const = default;
};

struct Solution {
  std::vector<std::optional<Pick>> picks;  // one a crop; empty: left out
  Score score;
};

// Stems beyond the wish, or outside it, count a twentieth.
inline constexpr double kSurplusWorth = 0.05;

// The value of one option lifted on `lift`, in hundredths of stems.
std::int64_t value_of(const Option& option, int lift, const Problem& problem);

// The best solution there is. Exact: the order is fixed, the state is the day the ground falls
// free, scores add, and two crops of a chain never share a week. Of equal scores the first option
// in the list wins.
Solution choose(const Problem& problem);

}  // namespace trug::by_sum
