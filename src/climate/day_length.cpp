// SPDX-License-Identifier: MIT
#include "climate/day_length.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace trug::climate {
namespace {

constexpr double kDegree = std::numbers::pi / 180;
constexpr double kShortDayHours = 10;

double sin_deg(double degrees) { return std::sin(degrees * kDegree); }
double cos_deg(double degrees) { return std::cos(degrees * kDegree); }

// The first day of which it is true, where it is true of all after it too; the end: of none.
template <class True>
Date first_day(DateRange days, const True& is_true) {
  while (days.from < days.until) {
    const Date middle = days.from + Days{days_between(days.from, days.until) / 2};
    if (is_true(middle)) {
      days.until = middle;
    } else {
      days.from = middle + Days{1};
    }
  }
  return days.from;
}

double depression(Horizon horizon) { return horizon == Horizon::SunriseToSunset ? 0.8333 : 6; }

}  // namespace

double sun_declination(Date day) {
  // 1 January 2000, 12:00 UT, is Julian day 2451545.
  const double t = days_between(make_date(2000, 1, 1), day) / 36525.0;
  const double mean_longitude = 280.46646 + t * (36000.76983 + t * 0.0003032);
  const double anomaly = 357.52911 + t * (35999.05029 - t * 0.0001537);
  const double centre = (1.914602 - t * (0.004817 + t * 0.000014)) * sin_deg(anomaly) +
                        (0.019993 - t * 0.000101) * sin_deg(2 * anomaly) +
                        0.000289 * sin_deg(3 * anomaly);
  const double node = 125.04 - 1934.136 * t;
  const double longitude = mean_longitude + centre - 0.00569 - 0.00478 * sin_deg(node);
  const double arc_seconds = 21.448 - t * (46.8150 + t * (0.00059 - t * 0.001813));
  const double obliquity = 23 + (26 + arc_seconds / 60) / 60 + 0.00256 * cos_deg(node);
  return std::asin(sin_deg(obliquity) * sin_deg(longitude)) / kDegree;
}

double sun_mj(double latitude, Date day) {
  constexpr double kSolarConstant = 0.0820;  // megajoules a square metre and minute
  const double place = std::clamp(latitude, -89.9, 89.9);
  const double declination = sun_declination(day);
  const double half_day = std::acos(
      std::clamp(-std::tan(place * kDegree) * std::tan(declination * kDegree), -1.0, 1.0));
  return 24 * 60 / std::numbers::pi * kSolarConstant *
         (half_day * sin_deg(place) * sin_deg(declination) +
          cos_deg(place) * cos_deg(declination) * std::sin(half_day));
}

double day_length_hours(double latitude, Date day, Horizon horizon) {
  const double place = std::clamp(latitude, -89.9, 89.9);
  const double declination = sun_declination(day);
  const double cos_half_day =
      (-sin_deg(depression(horizon)) - sin_deg(place) * sin_deg(declination)) /
      (cos_deg(place) * cos_deg(declination));
  return 24 / std::numbers::pi * std::acos(std::clamp(cos_half_day, -1.0, 1.0));
}

Date longest_day(int year, bool southern) { return make_date(year, southern ? 12 : 6, 21); }

bool days_lengthen(Date day, bool southern) {
  const int year = year_of(day);
  const bool first_half = day >= make_date(year, 6, 21) && day < make_date(year, 12, 21);
  return first_half == southern;
}

std::optional<DateRange> under_ten_hours(double latitude, int winter_year) {
  const auto hours = [&](Date day) {
    return day_length_hours(latitude, day, Horizon::SunriseToSunset);
  };
  // The solstice falls on the 20th to the 23rd. Days grow shorter up to the shortest, from the
  // summer before, and longer after it, up to the next.
  const bool southern = latitude < 0;
  Date shortest = make_date(winter_year, southern ? 6 : 12, 19);
  while (hours(shortest + Days{1}) < hours(shortest)) shortest += Days{1};
  if (hours(shortest) >= kShortDayHours) return std::nullopt;
  const unsigned summer = southern ? 1 : 7;
  const Date first = first_day({make_date(winter_year, summer, 1), shortest},
                               [&](Date day) { return hours(day) < kShortDayHours; });
  const Date after = first_day({shortest, make_date(winter_year + 1, summer, 1)},
                               [&](Date day) { return hours(day) >= kShortDayHours; });
  return DateRange{first, after};
}

}  // namespace trug::climate
