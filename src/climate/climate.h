// SPDX-License-Identifier: MIT
// One place's year: day lengths, average temperatures and frost dates, all from the plan's place.
#pragma once

#include <array>
#include <map>
#include <optional>

#include "base/date.h"
#include "climate/day_length.h"
#include "climate/frost.h"
#include "climate/year_curve.h"
#include "garden/plan.h"

namespace trug::climate {

// Standard deviation of a day's mean temperature about the average curve, degrees Celsius, March to
// October, where no record tells: daily records gave 2.0 (Vancouver), 2.4 (central England), 3.2
// (Netherlands), 3.3 (Rhineland), 4.3 (Chicago).
inline constexpr double kDefaultSpreadC = 3.0;

// Remembers day lengths as they are asked for, so one Climate belongs to one thread.
class Climate {
 public:
  static Climate from(const Place& place);

  double latitude() const { return place_.latitude; }
  bool southern() const { return is_southern(place_); }
  double heated_c() const { return place_.heated_c; }

  bool has_temperatures() const { return mean_.has_value(); }
  // The average of that day of the year; only where has_temperatures().
  double mean_c(Date day) const;
  // The average daily maximum; nullopt where the plan does not give monthly maxima.
  std::optional<double> max_c(Date day) const;
  // Standard deviation of a day's mean about mean_c.
  double spread_c() const { return kDefaultSpreadC; }

  // Average garden frosts before and after the growth of that season.
  SeasonFrosts frosts(int flowering_year) const { return season_frosts(place_, flowering_year); }
  // 1 January of the flowering year; south 1 July of the year before.
  Date season_start(int flowering_year) const;
  double day_hours(Date day, Horizon horizon) const;
  // The days under ten hours in the winter before that season's growth.
  std::optional<DateRange> short_days_before(int flowering_year) const;

 private:
  using HoursOfYear = std::array<double, 366>;

  explicit Climate(const Place& place) : place_(place) {}

  Place place_;
  std::optional<YearCurve> mean_;
  std::optional<YearCurve> max_;
  mutable std::map<int, std::array<HoursOfYear, 2>> hours_;  // by year, then horizon
};

}  // namespace trug::climate
