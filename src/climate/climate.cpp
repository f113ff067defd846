// SPDX-License-Identifier: MIT
#include "climate/climate.h"

#include <cassert>
#include <variant>

namespace trug::climate {

Climate Climate::from(const Place& place) {
  Climate climate(place);
  if (const auto* two = std::get_if<TwoMeans>(&place.temperatures)) {
    climate.mean_ = YearCurve::from_two(two->year_mean_c, two->warmest_month_c, is_southern(place));
  } else if (const auto* months = std::get_if<MonthlyMeans>(&place.temperatures)) {
    climate.mean_ = YearCurve::from_months(months->mean_c);
    if (months->max_c) climate.max_ = YearCurve::from_months(*months->max_c);
  }
  return climate;
}

double Climate::mean_c(Date day) const {
  assert(mean_);
  return mean_->on(day);
}

std::optional<double> Climate::max_c(Date day) const {
  return max_ ? std::optional(max_->on(day)) : std::nullopt;
}

Date Climate::season_start(int flowering_year) const {
  return southern() ? make_date(flowering_year - 1, 7, 1) : make_date(flowering_year, 1, 1);
}

double Climate::day_hours(Date day, Horizon horizon) const {
  const int year = year_of(day);
  auto found = hours_.find(year);
  if (found == hours_.end()) {
    found = hours_.emplace(year, std::array<HoursOfYear, 2>{}).first;
    Date date = make_date(year, 1, 1);
    for (std::size_t i = 0; i < 366; ++i, date += Days{1}) {
      for (const Horizon each : {Horizon::SunriseToSunset, Horizon::CivilTwilight}) {
        found->second[static_cast<std::size_t>(each)][i] = day_length_hours(latitude(), date, each);
      }
    }
  }
  return found
      ->second[static_cast<std::size_t>(horizon)][static_cast<std::size_t>(day_of_year(day) - 1)];
}

std::optional<DateRange> Climate::short_days_before(int flowering_year) const {
  return under_ten_hours(latitude(), flowering_year - 1);
}

}  // namespace trug::climate
