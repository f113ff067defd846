// SPDX-License-Identifier: MIT
#include "climate/frost.h"

#include <chrono>
#include <cmath>
#include <numbers>

namespace trug::climate {
namespace {

constexpr double kSafeLevel = 0.9;  // FrostMeaning::Safe: nine years in ten

// Days to add to the plan's last frost (and its first) to get the average garden frost.
struct Shift {
  int last = 0;
  int first = 0;
};

Shift shift_to_garden(FrostMeaning meaning) {
  const double z = normal_quantile(kSafeLevel);
  switch (meaning) {
    case FrostMeaning::Garden:
      return {};
    case FrostMeaning::Air:
      return {kGardenFrostLaterDays, -kGardenFrostEarlierDays};
    case FrostMeaning::Safe:
      return {-static_cast<int>(std::lround(z * kSpringSpreadDays)),
              static_cast<int>(std::lround(z * kAutumnSpreadDays))};
  }
  return {};
}

}  // namespace

MonthDay frost_winter_start(bool southern) {
  using namespace std::chrono;
  return southern ? January / 24 : July / 24;
}

SeasonFrosts season_frosts(const Place& place, int flowering_year) {
  const MonthDay split = frost_winter_start(is_southern(place));
  // The plan's own dates are put on their side of the season before they are moved, so that moving
  // them never throws them into another year.
  const auto year_for = [&](MonthDay day, int before_split) {
    return day < split ? before_split : before_split - 1;
  };
  const Shift shift = shift_to_garden(place.frost_meaning);
  return {
      on(place.last_frost, year_for(place.last_frost, flowering_year)) + Days{shift.last},
      on(place.first_frost, year_for(place.first_frost, flowering_year + 1)) + Days{shift.first}};
}

std::optional<Date> frost_safe_day(Date mean_last, double spread_days, double risk,
                                   double frost_share) {
  if (risk >= frost_share) return std::nullopt;
  const double offset = spread_days * normal_quantile(1 - risk / frost_share);
  return mean_last + Days{static_cast<int>(std::ceil(offset))};
}

std::optional<Date> cover_by_day(Date mean_first, double spread_days, double risk,
                                 double frost_share) {
  if (risk >= frost_share) return std::nullopt;
  const double offset = spread_days * normal_quantile(risk / frost_share);
  return mean_first + Days{static_cast<int>(std::floor(offset))};
}

double normal_cdf(double z) { return std::erfc(-z / std::numbers::sqrt2) / 2; }

double normal_quantile(double probability) {
  if (probability == 0.5) return 0;
  if (probability > 0.5) return -normal_quantile(1 - probability);
  // The lower half only, where the tail keeps its digits; halving is slow but cannot go astray.
  double low = -39;
  double high = 0;
  for (int step = 0; step < 60; ++step) {
    const double middle = (low + high) / 2;
    (normal_cdf(middle) < probability ? low : high) = middle;
  }
  return (low + high) / 2;
}

}  // namespace trug::climate
