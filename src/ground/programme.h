// SPDX-License-Identifier: MIT
// The exact choice for one stretch: which option of each crop, in order, and when each is lifted.
//
// A small problem written as data, a solution that carries its score: nothing here knows gardens.
// Days are whole numbers on one common count; weeks are seven of them from day 0, a Monday.
#pragma once

#include <compare>
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "ground/starts.h"
#include "harvest/vase.h"

namespace trug::ground {

// One way and date to grow a crop. The ground is taken from `in_ground`.
struct Option {
  int start = 0;
  int in_ground = 0;
  int first_cut = 0;
  int lift_from = 0;   // the lift may fall on any day from here ...
  int lift_to = 0;     // ... to here
  int off_middle = 0;  // days of in_ground from the middle of its window
  int way_rank = 0;    // place of the way in the sheet
  Free free = Free::Any;
  double weight = 1;            // by way and place: lessens the stems before any limit
  double stems_per_plant = 1;   // over the whole curve
  double strips_wait_days = 0;  // of summer, on the mean of its sowings after the first
  std::size_t curve = 0;
};

// The options of a crop, shared by all stretches that grow it alike.
struct Options {
  std::vector<Option> list;
  std::vector<std::vector<double>> curves;  // shares of the stems by day from the first cut
};

struct StretchCrop {
  std::size_t kind = 0;  // what the vase takes for one crop
  double plants = 1;
  std::shared_ptr<const Options> options;
  int missed = 1;  // it counts as so many where it is left out
};

struct StretchGround {
  std::vector<StretchCrop> crops;  // in order: the next follows the last
  double area_m2 = 1;
  int gap = 7;      // days between a lift and the next crop
  int free_on = 0;  // bare from here where nothing stands
  int horizon = 0;  // the last day counted
  Summer summer;
};

// What a week's further stems are worth, by week, for each crop of the stretch. Weeks beyond the
// list lie outside the wish.
using WeekWorths = std::vector<harvest::Beside>;

// Compared after how many are left out and what it is worth: nearest to the trade's middle, the
// sheet's first ways, earlier starts, later lifts.
struct Taste {
  int off_middle = 0;
  int way_rank = 0;
  std::int64_t start = 0;
  std::int64_t lift = 0;
  std::strong_ordering operator<=>(const Taste& other) const;  // greater is better
  bool operator==(const Taste& other) const = default;
  Taste operator+(const Taste& other) const;
};

struct Score {
  int left_out = 0;
  std::int64_t value = 0;  // hundredths of stems, less the price of bare ground
  Taste taste;
  std::strong_ordering operator<=>(const Score& other) const;  // greater is better
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

Taste taste(const Option& option, int lift);

// Adds up what an option gives, day by day up to a rising lift.
class Counter {
 public:
  Counter(const StretchCrop& crop, const Option& option, const WeekWorths& worths);
  // In stems, up to and including `lift`.
  double up_to(int lift);

 private:
  void open_week();
  double gain() const {
    return worth_ != nullptr ? worth_->gain(in_week_) : harvest::kStemWorth * in_week_;
  }

  const std::vector<double>& curve_;
  const WeekWorths& worths_;
  double stems_;
  int first_cut_;
  int day_;
  int week_end_ = 0;
  const harvest::Beside* worth_ = nullptr;  // of the week; null: beyond those that are weighed
  double in_week_ = 0;
  double closed_ = 0;
};

// Bare summer ground from `free` to the option, in stems.
double bare_before(const StretchGround& ground, int free, const Option& option);
// From `free` to the end of the summer.
double bare_after(const StretchGround& ground, int free);

// The best solution there is. Exact: the order is fixed, the state is the very day on which the
// ground falls free, scores add, and two crops of a chain never share a week. Values are rounded
// once for each option and lift. Of equal scores the first option in the list wins.
Solution best_choice(const StretchGround& ground, const std::vector<WeekWorths>& worths);

}  // namespace trug::ground
