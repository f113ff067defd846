// SPDX-License-Identifier: MIT
#include "growth/harvest_curve.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

namespace trug::growth {
namespace {

constexpr double kTurnDays = 21;  // cut-and-come-again: the rise and the fall
constexpr double kPeakDay = 10;   // limited: the middle of the second week

// The pace of cutting at `day` (in the middle of the day) of `days`, in any unit.
double pace(Habit habit, double day, double days) {
  switch (habit) {
    case Habit::Single:
      return day < days / 2 ? 0.6 : 0.4;
    case Habit::Limited: {
      const double peak = std::min(kPeakDay, days / 2);
      return day < peak ? 0.5 + 0.5 * day / peak : 1 - 0.8 * (day - peak) / (days - peak);
    }
    case Habit::CutAndComeAgain: {
      const double turn = std::min(kTurnDays, days / 3);
      return std::min({1.0, 0.3 + 0.7 * day / turn, 0.3 + 0.7 * (days - day) / turn});
    }
  }
  return 0;
}

std::vector<double> one_flush(Habit habit, int days) {
  std::vector<double> shares;
  for (int day = 0; day < days; ++day) shares.push_back(pace(habit, day + 0.5, days));
  const double total = std::accumulate(shares.begin(), shares.end(), 0.0);
  for (double& share : shares) share /= total;
  return shares;
}

}  // namespace

std::vector<double> harvest_curve(Habit habit, Range cutting_weeks,
                                  const std::optional<SecondFlush>& second_flush) {
  const int days = std::max(7, static_cast<int>(std::lround(cutting_weeks.middle() * 7)));
  std::vector<double> shares = one_flush(habit, days);
  if (!second_flush) return shares;
  for (double& share : shares) share *= 1 - second_flush->share;
  shares.resize(shares.size() +
                static_cast<std::size_t>(std::lround(second_flush->weeks_after * 7)));
  for (const double share : one_flush(habit, std::max(7, days / 2))) {
    shares.push_back(share * second_flush->share);
  }
  return shares;
}

int fewest_cutting_days(const Sheet& sheet, int whole_days) {
  const int usual = sheet.habit == Habit::CutAndComeAgain ? 21 : 14;
  return std::min(sheet.fewest_cutting_days.value_or(usual), whole_days);
}

}  // namespace trug::growth
