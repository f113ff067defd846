// SPDX-License-Identifier: MIT
#include "growth/cutting.h"

#include <algorithm>
#include <cmath>

#include "growth/summer.h"

namespace trug::growth {
namespace {

constexpr double kAutumnPace = 0.4;
constexpr double kPaceAfterHeat = 0.7;
constexpr double kHalvingDays = 28;
constexpr int kWalkDays = 84;  // three halvings on, an eighth of the stems is not worth the walk

// A curve and what follows it.
class Curve {
 public:
  Curve(const std::vector<double>& shares, bool goes_on) : shares_(shares), goes_on_(goes_on) {}
  bool ends_before(int day) const {
    return day >= static_cast<int>(shares_.size()) + (goes_on_ ? kWalkDays : 0);
  }
  double on(int day) const {
    const int beyond = day - static_cast<int>(shares_.size()) + 1;
    if (beyond <= 0) return shares_[static_cast<std::size_t>(day)];
    return shares_.back() * std::exp2(-beyond / kHalvingDays);
  }

 private:
  const std::vector<double>& shares_;
  bool goes_on_;
};

}  // namespace

Date cutting_end(const climate::Season& season, const CropSpec& crop, int later) {
  Date end = std::min(season.end(crop.frost_class()) + Days{later}, season.range().until - Days{1});
  if (crop.sheet().habit == Habit::CutAndComeAgain && season.next_winter()) {
    end = std::min(end, season.next_winter()->from);
  }
  return end;
}

Cutting cut_through(const climate::Season& season, const CropSpec& crop,
                    const std::vector<double>& curve, Date first, Date end) {
  const Sheet& sheet = crop.sheet();
  // Bulbs and corms die back after their weeks, whatever the season still holds.
  const bool dies_back = sheet.life_cycle == LifeCycle::Bulb || sheet.life_cycle == LifeCycle::Corm;
  const bool goes_on = sheet.habit == Habit::CutAndComeAgain && !sheet.second_flush && !dies_back;
  const Curve plant(curve, goes_on);
  Cutting cutting{.from = first};
  std::vector<DateRange> hot = too_hot(season, sheet, first);
  if (!hot.empty() && sheet.when_hot == WhenHot::Ends && hot.front().from <= end) {
    cutting.too_hot_from = hot.front().from;
    end = hot.front().from - Days{1};
    hot.clear();
  }
  const Date slower =
      make_date(year_of(season.range().until - Days{1}), season.climate().southern() ? 4 : 10, 1);
  double pace = 1;
  int day_of_plant = 0;
  for (Date day = first; day <= end && !plant.ends_before(day_of_plant); day += Days{1}) {
    const bool paused = !hot.empty() && hot.front().contains(day);
    if (paused) {
      pace = kPaceAfterHeat;
      if (!cutting.pause) cutting.pause = hot.front();
      cutting.shares.push_back(0);
      continue;
    }
    cutting.shares.push_back(plant.on(day_of_plant++) * pace * (day >= slower ? kAutumnPace : 1));
  }
  cutting.cut_short = !plant.ends_before(day_of_plant);
  // What comes into flower in the heat is first cut after it; a pause at the end is no cutting.
  std::size_t idle = 0;
  while (idle < cutting.shares.size() && cutting.shares[idle] == 0) ++idle;
  cutting.shares.erase(cutting.shares.begin(),
                       cutting.shares.begin() + static_cast<std::ptrdiff_t>(idle));
  cutting.from += Days{static_cast<int>(idle)};
  while (!cutting.shares.empty() && cutting.shares.back() == 0) cutting.shares.pop_back();
  return cutting;
}

}  // namespace trug::growth
