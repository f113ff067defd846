// SPDX-License-Identifier: MIT
#include "climate/season.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstddef>

#include "climate/day_length.h"
#include "climate/soil.h"

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
constexpr double kOpenGroundC = 3, kSnowGoneC = 5;
constexpr double kForTenderC = 13.5, kForHalfHardyC = 9, kForNearlyHardyC = 6, kForCormsC = 8;
constexpr double kNearlyHardyC = -5;  // what lives through it asks less
constexpr double kUnderWarmestC = 4;
constexpr Days kTubersSleep{21};   // in the soil before they show (memory)
constexpr double kBulbSoilC = 10;  // common practice
constexpr Days kLeastSpring{28}, kLeastAutumn{14};

Date offset_day(const FrostOffset& offset, const SeasonFrosts& frosts) {
  const Date from = offset.from == Frost::Last ? frosts.last : frosts.first;
  return from + Days{static_cast<int>(std::lround(offset.weeks * 7))};
}

// The day on or after (or before) which a place is so warm; within half a year.
template <class IsSo>
std::optional<Date> nearest_day(Date from, Days step, const IsSo& is_so) {
  for (Date day = from; std::chrono::abs(day - from) <= kHalfYear; day += step) {
    if (is_so(day)) return day;
  }
  return std::nullopt;
}

// What is planted as a plant where roots grow through the winter: until the average falls under 10
// degC.
Date last_planting(const Climate& climate, const Way& way, Date usual, Date new_year) {
  const bool as_plants = way.weeks_under_cover || way.method == Method::BoughtPlants;
  if (!as_plants || way.flowers != FlowersIn::NextYear) return usual;
  if (climate.coldest_month_c().value_or(0) < kRootsAllWinterC) return usual;
  const auto cool = [&](Date day) { return climate.average_c(day) < kRootsC; };
  const Date last = std::max(usual, new_year);
  return std::min(last, nearest_day(usual, Days{1}, cool).value_or(last));
}

Date coldest_of(const Climate& climate, DateRange days) {
  Date coldest = days.from;
  for (Date day = days.from; day < days.until; day += Days{1}) {
    if (climate.average_c(day) < climate.average_c(coldest)) coldest = day;
  }
  return coldest;
}

// To a week.
template <class Air>
double warmest_c(const Air& air_c, DateRange days) {
  double warmest = air_c(days.from);
  for (Date day = days.from; day < days.until; day += Days{7}) {
    warmest = std::max(warmest, air_c(day));
  }
  return warmest;
}

// Spring's days from `first` on.
DateRange not_before(Date first, DateRange days) {
  const Days length = std::min(days.until - days.from, kLeastSpring);
  const Date from = std::max(days.from, first);
  return {from, std::max(days.until, from + length)};
}

// Autumn's days to `last`, begun the sooner; what wants cool soil not before it is, but for the
// last fortnight.
DateRange until_cold(Date last, const std::optional<Date>& cool_from, DateRange days) {
  const Days early = std::max(Days{0}, days.until - (last + Days{1}));
  const DateRange sooner{days.from - early, days.until - early};
  if (!cool_from) return sooner;
  const Date cool = std::max(sooner.from, *cool_from);
  return {std::min({days.from, cool, sooner.until - kLeastAutumn}), sooner.until};
}

bool lies_in_soil(const Way& way) {
  return way.method == Method::Bulb && way.raised == Raised::InPlace;
}

// What it asks of the air before it goes out; nullopt: only open ground. Seed waits for its soil by
// another rule.
std::optional<double> asked_c(const Sheet& sheet, const Way& way) {
  const FrostClass frost = frost_class(sheet);
  if (is_sown_in_place(way) || frost == FrostClass::Hardy) return std::nullopt;
  if (frost == FrostClass::Tender) return kForTenderC;
  if (lies_in_soil(way)) return kForCormsC;
  return sheet.survives_c <= kNearlyHardyC ? kForNearlyHardyC : kForHalfHardyC;
}

SeasonFrosts off_by(SeasonFrosts frosts, int days) {
  frosts.last -= Days{days};
  frosts.first += Days{days};
  return frosts;
}

}  // namespace

Season::Season(const Climate& climate, int flowering_year, Sheltered under)
    : climate_(&climate),
      flowering_year_(flowering_year),
      under_(under),
      range_{climate.season_start(flowering_year), climate.season_start(flowering_year + 1)},
      lives_{climate.season_start(flowering_year - 2), range_.until},
      frosts_{off_by(climate.frosts(flowering_year), under.frost_days),
              off_by(climate.frosts(flowering_year - 1), under.frost_days),
              off_by(climate.frosts(flowering_year - 2), under.frost_days)},
      winter_(climate.short_days_before(flowering_year)),
      next_winter_(climate.short_days_before(flowering_year + 1)) {
  if (climate.has_temperatures()) find_cold();
}

double Season::air_c(Date day) const {
  return climate_->average_c(day) + under_.of_sun * climate_->sun_mj(day);
}

void Season::find_cold() {
  coldest_day_ = coldest_of(*climate_, cold_months());
  warmest_c_ = warmest_c([this](Date day) { return air_c(day); }, range_);
  const double open_c = climate_->snow_lies() ? kSnowGoneC : kOpenGroundC;
  open_from_ = warm_from(open_c);
  if (!open_from_) return;
  open_until_ =
      nearest_day(*coldest_day_, Days{-1}, [&](Date day) { return air_c(day) >= open_c; });
  cool_soil_from_ = nearest_day(*coldest_day_, Days{-1},
                                [&](Date day) { return soil_c(*climate_, day) >= kBulbSoilC; });
}

std::optional<Date> Season::warm_from(double asked_c) const {
  const double least_c = std::min(asked_c, warmest_c_ - kUnderWarmestC);
  const auto is_warm = [&](Date day) { return air_c(day) >= least_c; };
  if (!coldest_day_ || is_warm(*coldest_day_)) return std::nullopt;
  return nearest_day(*coldest_day_, Days{1}, is_warm);
}

const SeasonFrosts& Season::frosts(FlowersIn flowers) const {
  return frosts_.at(static_cast<std::size_t>(flowers));
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

Days Season::later_than_usual(FlowersIn flowers) const {
  if (climate_->coldest_month_c().value_or(0) < kMildWinterC) return Days{0};
  const Date frost = frosts(flowers).first;
  const Date midsummer = longest_day(year_of(frost - kHalfYear), climate_->southern());
  return std::max(Days{0}, frost - midsummer - kFrostAfterMidsummer);
}

DateRange Season::out_of_cold(DateRange days, const Way& way, const Sheet& sheet) const {
  if (way.window->earliest.from == Frost::Last) {
    const auto asks = asked_c(sheet, way);
    const auto open = asks ? warm_from(*asks) : open_from_;
    if (!open) return days;
    const Days asleep = asks == kForTenderC && lies_in_soil(way) ? kTubersSleep : Days{0};
    const Days sooner = frosts().last - frosts(way.flowers).last + asleep;
    return not_before(*open - sooner, days);
  }
  if (way.flowers == FlowersIn::SameYear || !open_until_) return days;
  const Days years = frosts(FlowersIn::NextYear).first - frosts(way.flowers).first;
  const bool in_cool_soil = sheet.life_cycle == LifeCycle::Bulb && cool_soil_from_;
  return until_cold(*open_until_ - years,
                    in_cool_soil ? std::optional(*cool_soil_from_ + Days{1} - years) : std::nullopt,
                    days);
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
    if (before_frost) days.until = last_planting(*climate_, way, days.until, range_.from);
    return out_of_cold(days, way, sheet);
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
