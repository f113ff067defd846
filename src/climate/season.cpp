// SPDX-License-Identifier: MIT
#include "climate/season.h"

#include <algorithm>
#include <cmath>

#include "climate/day_length.h"

namespace trug::climate {
namespace {

constexpr int kHalfHardyAfterFrost = 17;
constexpr int kHardyAfterFrost = 31;
constexpr double kLeastForBuds = 4;  // degC
constexpr Days kAroundColdest{42};
constexpr Days kUsualSeason{160};  // between the frosts
constexpr Days kFrostAfterMidsummer{116};
constexpr Days kHalfYear{182};
constexpr double kMildWinterC = 8;
constexpr double kRootsAllWinterC = 6, kRootsC = 10;  // coldest month, and day, on average

Date offset_day(const FrostOffset& offset, const SeasonFrosts& frosts) {
  const Date from = offset.from == Frost::Last ? frosts.last : frosts.first;
  return from + Days{static_cast<int>(std::lround(offset.weeks * 7))};
}

// Where plants go on rooting through the winter, until the average falls under 10 degC.
Date last_planting(const Climate& climate, Date usual, Date new_year) {
  if (climate.coldest_month_c().value_or(0) < kRootsAllWinterC) return usual;
  Date day = usual;
  while (day < new_year && climate.average_c(day) >= kRootsC) day += Days{1};
  return day;
}

SeasonFrosts off_by(SeasonFrosts frosts, int days) {
  frosts.last -= Days{days};
  frosts.first += Days{days};
  return frosts;
}

}  // namespace

Season::Season(const Climate& climate, int flowering_year, int frosts_off)
    : climate_(&climate),
      flowering_year_(flowering_year),
      range_{climate.season_start(flowering_year), climate.season_start(flowering_year + 1)},
      lives_{climate.season_start(flowering_year - 2), range_.until},
      frosts_{off_by(climate.frosts(flowering_year), frosts_off),
              off_by(climate.frosts(flowering_year - 1), frosts_off),
              off_by(climate.frosts(flowering_year - 2), frosts_off)},
      winter_(climate.short_days_before(flowering_year)),
      next_winter_(climate.short_days_before(flowering_year + 1)) {}

const SeasonFrosts& Season::frosts(FlowersIn flowers) const {
  switch (flowers) {
    case FlowersIn::SameYear:
      return frosts_[0];
    case FlowersIn::NextYear:
      return frosts_[1];
    case FlowersIn::ThirdYear:
      return frosts_[2];
  }
  return frosts_[0];
}

DateRange Season::window_days(const FrostWindow& window, FlowersIn flowers) const {
  const SeasonFrosts& from = frosts(flowers);
  return {offset_day(window.earliest, from), offset_day(window.latest, from) + Days{1}};
}

Days Season::longer_than_usual() const {
  return std::max(Days{0}, frosts().first - frosts().last - kUsualSeason);
}

std::optional<Date> Season::judging_day() const {
  return winter_ ? std::optional(winter_->from) : std::nullopt;
}

DateRange Season::cold_months() const {
  const int year = flowering_year_ - 1;
  return climate_->southern() ? DateRange{make_date(year, 4, 1), make_date(year, 10, 16)}
                              : DateRange{make_date(year, 10, 1), make_date(year + 1, 4, 16)};
}

Date Season::coldest_day() const {
  const DateRange months = cold_months();
  Date coldest = months.from;
  for (Date day = months.from; day < months.until; day += Days{1}) {
    if (climate_->average_c(day) < climate_->average_c(coldest)) coldest = day;
  }
  return coldest;
}

Days Season::later_than_usual(FlowersIn flowers) const {
  if (climate_->coldest_month_c().value_or(0) < kMildWinterC) return Days{0};
  const Date frost = frosts(flowers).first;
  const Date midsummer = longest_day(year_of(frost - kHalfYear), climate_->southern());
  return std::max(Days{0}, frost - midsummer - kFrostAfterMidsummer);
}

std::optional<DateRange> Season::usual_days(const Way& way, const Sheet& sheet) const {
  if (way.window) {
    DateRange days = window_days(*way.window, way.flowers);
    const bool after_frost =
        way.flowers == FlowersIn::SameYear && way.window->latest.from == Frost::Last;
    if (after_frost && frost_class(sheet) == FrostClass::Tender) days.until += longer_than_usual();
    const bool before_frost =
        way.flowers != FlowersIn::SameYear && way.window->earliest.from == Frost::First;
    const bool in_cool_soil = way.method == Method::Seed || sheet.life_cycle == LifeCycle::Corm;
    if (before_frost && in_cool_soil) days.from -= later_than_usual(way.flowers);
    const bool as_plants = way.weeks_under_cover || way.method == Method::BoughtPlants;
    if (before_frost && as_plants && way.flowers == FlowersIn::NextYear) {
      days.until = last_planting(*climate_, days.until, range_.from);
    }
    return days;
  }
  if (!way.pre_chilled || !climate_->has_temperatures()) return std::nullopt;
  const Date coldest = coldest_day();
  return DateRange{coldest - kAroundColdest, coldest + kAroundColdest + Days{1}};
}

Date Season::mild_from(double mean_c) const {
  Date day = coldest_day();
  while (day < range_.until && climate_->average_c(day) < mean_c) day += Days{1};
  return day;
}

DateRange Season::light_days(double below_h) const {
  Date from = longest_day(year_of(range_.from), climate_->southern());
  while (day_hours(from, Horizon::SunriseToSunset) > below_h) from += Days{1};
  Date until = from;
  while (until < range_.until && climate_->average_c(until) >= kLeastForBuds) until += Days{1};
  return {from, until};
}

Date Season::end(FrostClass frost_class) const {
  const Date frost = frosts().first;
  if (frost_class == FrostClass::Tender) return frost;
  if (frost_class == FrostClass::HalfHardy) return frost + Days{kHalfHardyAfterFrost};
  return frost + Days{kHardyAfterFrost};
}

}  // namespace trug::climate
