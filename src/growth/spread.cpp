// SPDX-License-Identifier: MIT
#include "growth/spread.h"

#include <chrono>
#include <cmath>

#include "climate/frost.h"
#include "climate/heat.h"

namespace trug::growth {
namespace {

constexpr double kSummerWeather = 7;

// 80 in 100 lie within so many standard deviations.
double deviation(double spread_days) {
  static const double kDeviations = climate::normal_quantile(0.9);
  return spread_days / kDeviations;
}

}  // namespace

double weather_spread(Date flower, bool southern) {
  const std::chrono::year_month_day ymd{flower};
  const unsigned month = (static_cast<unsigned>(ymd.month()) + (southern ? 5 : 11)) % 12 + 1;
  if (month < 4) return 14;
  return month < 6 ? 10 : kSummerWeather;
}

double spread_at(double summer_days, Date flower, bool southern) {
  const double weather = weather_spread(flower, southern);
  return std::sqrt(summer_days * summer_days - kSummerWeather * kSummerWeather + weather * weather);
}

double chance_by(Date likely, double spread_days, Date day) {
  return climate::normal_cdf((days_between(likely, day) + 0.5) / deviation(spread_days));
}

double expected_days(Date likely, double spread_days, Date last, double most) {
  return climate::capped_excess(days_between(likely, last) + 1, 0, most, deviation(spread_days));
}

}  // namespace trug::growth
