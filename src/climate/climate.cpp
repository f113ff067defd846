// SPDX-License-Identifier: MIT
#include "climate/climate.h"

#include <algorithm>
#include <cassert>
#include <chrono>
#include <utility>
#include <variant>

namespace trug::climate {
namespace {

constexpr double kMaximaOverMean = 5.5;
constexpr double kMaximaOverMeanNearTheSea = 4;
constexpr double kNearTheSeaRange = 12;

std::array<double, 12> months_of(const YearCurve& curve) {
  constexpr int kAnyYear = 2001;
  std::array<double, 12> months{};
  std::array<int, 12> days{};
  const Date end = make_date(kAnyYear + 1, 1, 1);
  for (Date day = make_date(kAnyYear, 1, 1); day < end; day += Days{1}) {
    const auto month = static_cast<unsigned>(std::chrono::year_month_day{day}.month()) - 1;
    months[month] += curve.on(day);
    ++days[month];
  }
  for (std::size_t i = 0; i < months.size(); ++i) months[i] /= days[i];
  return months;
}

}  // namespace

Climate Climate::from(const Place& place, double spread_c) {
  Climate climate(place, spread_c);
  if (const auto* two = std::get_if<TwoMeans>(&place.temperatures)) {
    climate.take_curves(
        YearCurve::from_two(two->year_mean_c, two->warmest_month_c, is_southern(place)));
  } else if (const auto* months = std::get_if<MonthlyMeans>(&place.temperatures)) {
    climate.take_curves(YearCurve::from_months(months->mean_c));
    if (months->max_c) climate.max_ = YearCurve::from_months(*months->max_c);
  }
  return climate;
}

void Climate::take_curves(const YearCurve& mean) {
  mean_ = mean;
  sun_ = YearCurve::of_sun(latitude());
  months_c_ = months_of(mean);
  const auto [coldest, warmest] = std::ranges::minmax(months_c_);
  guessed_over_mean_c_ =
      warmest - coldest < kNearTheSeaRange ? kMaximaOverMeanNearTheSea : kMaximaOverMean;
}

Climate Climate::with_record(std::shared_ptr<const DailyRecord> record, int years_later) const {
  Climate climate = *this;
  climate.record_ = std::move(record);
  climate.years_later_ = years_later;
  return climate;
}

double Climate::mean_c(Date day) const {
  assert(mean_);
  const auto measured = measured_c(day);
  return measured ? *measured : mean_->on(day);
}

double Climate::average_c(Date day) const {
  assert(mean_);
  return mean_->on(day);
}

std::optional<double> Climate::measured_c(Date day) const {
  if (!record_) return std::nullopt;
  if (years_later_ != 0) {
    const std::chrono::year_month_day ymd{day};
    day = on(ymd.month() / ymd.day(), year_of(day) + years_later_);
  }
  if (day < record_->first || day >= record_->until()) return std::nullopt;
  const DailyWeather& weather =
      record_->days[static_cast<std::size_t>(days_between(record_->first, day))];
  if (!weather.min_c || !weather.max_c) return std::nullopt;
  return (*weather.min_c + *weather.max_c) / 2;
}

std::optional<double> Climate::max_c(Date day) const {
  return max_ ? std::optional(max_->on(day)) : std::nullopt;
}

double Climate::likely_max_c(Date day) const {
  assert(mean_);
  return max_ ? max_->on(day) : mean_->on(day) + guessed_over_mean_c_;
}

std::optional<double> Climate::coldest_month_c() const {
  return mean_ ? std::optional(std::ranges::min(months_c_)) : std::nullopt;
}

bool Climate::snow_lies() const {
  constexpr double kSnowyMonth = -3;
  const auto coldest = coldest_month_c();
  return place_.snow.value_or(coldest && *coldest <= kSnowyMonth);
}

std::optional<double> Climate::hottest_month_max_c() const {
  if (!mean_) return std::nullopt;
  return max_ ? std::ranges::max(months_of(*max_))
              : std::ranges::max(months_c_) + guessed_over_mean_c_;
}

Date Climate::season_start(int flowering_year) const {
  return southern() ? make_date(flowering_year - 1, 7, 1) : make_date(flowering_year, 1, 1);
}

double Climate::day_hours(Date day, Horizon horizon) const {
  const int year = year_of(day);
  auto found = hours_->find(year);
  if (found == hours_->end()) {
    found = hours_->emplace(year, std::array<HoursOfYear, 2>{}).first;
    Date date = make_date(year, 1, 1);
    for (std::size_t i = 0; i < 366; ++i, date += Days{1}) {
      for (const Horizon each : {Horizon::SunriseToSunset, Horizon::CivilTwilight}) {
        found->second[static_cast<std::size_t>(each)][i] = day_length_hours(latitude(), date, each);
      }
    }
  }
  const auto of_year = static_cast<std::size_t>(days_between(make_date(year, 1, 1), day));
  return found->second[static_cast<std::size_t>(horizon)][of_year];
}

std::optional<DateRange> Climate::short_days_before(int flowering_year) const {
  return under_ten_hours(latitude(), flowering_year - 1);
}

}  // namespace trug::climate
