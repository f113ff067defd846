// SPDX-License-Identifier: MIT
// Which starts a grower would stand by: when the ground may have fallen free before them, what
// their stems count, and the price of bare ground. Days are whole numbers on one common count. The
// figures are memory, tried on drawn plans.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace trug::ground {

// Where a start lies.
struct Start {
  int in_ground = 0;
  int window_first = 0;  // the way's window for it, both ends inside
  int window_last = 0;
  int first_allowed = 0;  // the first day of its run that keeps every rule, see first_of_run
  bool flowers_next_year = false;
  bool pinned = false;
};

// When the ground may have fallen free before a start.
enum class Free {
  Never,  // the start is not to be had
  Any,    // whenever
  Soon,   // so that no more than six weeks of summer ground lie bare by choice
  Near    // at most a fortnight before: the start is late only because the ground was not free
};

inline constexpr int kFortnight = 14;             // of grace once the ground or a rule allows it
inline constexpr int kMostLateDays = 70;          // after the window
inline constexpr int kMostLateDaysNextYear = 21;  // for what flowers next year
inline constexpr int kMostBareDays = 42;          // of summer ground, by choice
// Late because frost, soil or the plan's first day forbade the whole window, or because the ground
// was taken. A pin is always right.
Free free_before(const Start& start);

inline constexpr double kOtherWay = 0.97;      // a stem of a way that is not the sheet's first
inline constexpr double kBoughtPlants = 0.85;  // of plants bought where the trade raises them
// What a stem counts for the choice by its way, given by its place in the sheet.
double way_weight(std::size_t way, bool bought_plants);
inline constexpr double kLastQuarter = 0.97;  // of the window
inline constexpr double kLastQuarterNextYear = 0.9;
inline constexpr double kJustOutside = 0.9;      // a day after the window ...
inline constexpr double kOutsidePerDay = 0.005;  // ... and less with each day ...
inline constexpr double kLeastOutside = 0.3;     // ... down to this; so before it, where a pin asks
// What a stem counts for the choice by where its start lies.
double place_weight(const Start& start);

inline constexpr int kLongestPause = 7;
// For each allowed day, in rising order, the first of its run: a pause of more than a week begins
// another, so that autumn does not count as waiting from spring.
std::vector<int> first_of_run(const std::vector<int>& allowed);

// A start that is late because its ground was taken gives so much of what the crop's best start
// gives in the weeks of the wish, or the ground is better left to the crop before.
inline constexpr double kLeastUseful = 0.1;

inline constexpr double kBareStems = 1;  // price of a bare square metre for a week of summer

// The days on which bare ground counts, the last inside: from a month before last to a month before
// first frost.
struct Summer {
  int from = 0;
  int until = 0;
  int days_before(int day) const { return std::clamp(day, from, until) - from; }
  double weeks_before(int day) const { return days_before(day) / 7.0; }
};

}  // namespace trug::ground
