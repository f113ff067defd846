// SPDX-License-Identifier: MIT
// One place's year: day lengths, average temperatures and frost dates, all from the plan's place.
#pragma once

#include <array>
#include <map>
#include <memory>
#include <optional>

#include "base/date.h"
#include "climate/day_length.h"
#include "climate/frost.h"
#include "climate/year_curve.h"
#include "garden/plan.h"
#include "garden/weather.h"

namespace trug::climate {

// Standard deviation of a day's mean temperature about the average curve, degrees Celsius, March to
// October, where no record tells: daily records gave 2.0 (Vancouver), 2.4 (central England), 3.2
// (Netherlands), 3.3 (Rhineland), 4.3 (Chicago).
inline constexpr double kDefaultSpreadC = 3.0;

// Remembers day lengths as they are asked for, so one Climate belongs to one thread.
class Climate {
 public:
  // `spread_c`: of a day's mean about the average, from the place's own record where there is one.
  static Climate from(const Place& place, double spread_c = kDefaultSpreadC);
  // The same place in weather that was measured: where the record has both a minimum and a maximum
  // of a day, their mean is the day's, without spread; elsewhere the average stays. A day is looked
  // up `years_later` years later: the weather of other years, laid over these.
  Climate with_record(std::shared_ptr<const DailyRecord> record, int years_later = 0) const;

  double latitude() const { return place_.latitude; }
  bool southern() const { return is_southern(place_); }
  double heated_c() const { return place_.heated_c; }
  // By how much flowers come later here than reckoned, by the plan's word.
  int days_late() const { return place_.days_late; }

  bool has_temperatures() const { return mean_.has_value(); }
  // What was measured, else the average of that day of the year; only where has_temperatures().
  double mean_c(Date day) const;
  // The average of that day of the year, whatever was measured.
  double average_c(Date day) const;
  // The sun above the air on that day of the year, megajoules a square metre; only where
  // has_temperatures().
  double sun_mj(Date day) const { return sun_->on(day); }
  bool has_record() const { return record_ != nullptr; }
  bool measured(Date day) const { return measured_c(day).has_value(); }
  // The average daily maximum; nullopt where the plan does not give monthly maxima. Never the
  // measured one: what stops in the heat stops in hot weeks, not on a hot day.
  std::optional<double> max_c(Date day) const;
  // Whether the plan gives maxima. Where it does not they are guessed: the average and 5.5 degrees
  // more, 4 where the year's months lie less than 12 degrees apart (memory).
  bool knows_maxima() const { return max_.has_value(); }
  double likely_max_c(Date day) const;
  // The mean of the coldest month on average; nullopt without temperatures.
  std::optional<double> coldest_month_c() const;
  // Whether snow lies over beds in the cold of winter: by the plan's word, else where the coldest
  // month averages -3 degC or less (memory).
  bool snow_lies() const;
  // The likely mean daily maximum of the hottest month; nullopt without temperatures.
  std::optional<double> hottest_month_max_c() const;
  // Standard deviation of a day's mean about the average, and about mean_c of a day.
  double spread_c() const { return spread_c_; }
  double spread_c(Date day) const { return measured(day) ? 0 : spread_c_; }

  // Average garden frosts before and after the growth of that season.
  SeasonFrosts frosts(int flowering_year) const { return season_frosts(place_, flowering_year); }
  // 1 January of the flowering year; south 1 July of the year before.
  Date season_start(int flowering_year) const;
  double day_hours(Date day, Horizon horizon) const;
  // The days under ten hours in the winter before that season's growth.
  std::optional<DateRange> short_days_before(int flowering_year) const;

 private:
  using HoursOfYear = std::array<double, 366>;
  using AllHours = std::map<int, std::array<HoursOfYear, 2>>;

  Climate(const Place& place, double spread_c) : place_(place), spread_c_(spread_c) {}
  std::optional<double> measured_c(Date day) const;
  void take_curves(const YearCurve& mean);

  Place place_;
  double spread_c_;
  std::shared_ptr<const DailyRecord> record_;
  int years_later_ = 0;
  std::optional<YearCurve> mean_;
  std::optional<YearCurve> max_;
  std::optional<YearCurve> sun_;
  std::array<double, 12> months_c_{};  // the mean curve's
  double guessed_over_mean_c_ = 0;     // of maxima
  // By year, then horizon: of the latitude, so that copies with other records share it.
  std::shared_ptr<AllHours> hours_ = std::make_shared<AllHours>();
};

}  // namespace trug::climate
