// SPDX-License-Identifier: MIT
#include "growth/window_flower.h"

#include <algorithm>
#include <cmath>

namespace trug::growth {
namespace {

constexpr int kLongWindow = 31;             // longer windows are cut to their first third
constexpr double kBulbDaysPerDegree = 4.5;  // memory
constexpr double kBulbSpringMean = 6.9;     // of the place the windows describe, February to April

// The mean of the three months in which bulbs come up, February to April (south: August to
// October).
double bulb_spring_mean(const climate::Season& season) {
  const Date from = season.range().from + Days{31};
  double sum = 0;
  constexpr int kDays = 89;
  for (int day = 0; day < kDays; ++day) sum += season.climate().mean_c(from + Days{day});
  return sum / kDays;
}

}  // namespace

std::optional<Date> window_flower(const climate::Season& season, const CropSpec& crop,
                                  const Way& way, Date in_ground) {
  const Sheet& sheet = crop.sheet();
  const std::optional<FrostWindow>& trade = crop.first_flower(way);
  if (!trade) return std::nullopt;
  DateRange flower = season.window_days(*trade, FlowersIn::SameYear);
  if (days_between(flower.from, flower.until) > kLongWindow) {
    flower.until = flower.from + Days{days_between(flower.from, flower.until) / 3};
  }
  const double length = days_between(flower.from, flower.until) - 1;
  const bool autumn_bulb = is_planted(sheet.life_cycle) && way.flowers != FlowersIn::SameYear;
  double days = length / 2;
  if (autumn_bulb && season.climate().has_temperatures()) {
    days += kBulbDaysPerDegree * (kBulbSpringMean - bulb_spring_mean(season));
  } else if (!autumn_bulb && sheet.life_cycle != LifeCycle::Biennial &&
             !stays_in_ground(sheet.life_cycle) && way.window) {
    const DateRange own = season.window_days(*way.window, way.flowers);
    const double own_length = std::max(1, days_between(own.from, own.until) - 1);
    const double place = days_between(own.from, in_ground) / own_length;
    days = place <= 1 ? place * length : length + (place - 1) * own_length;
  }
  return flower.from + Days{static_cast<int>(std::lround(days))};
}

}  // namespace trug::growth
