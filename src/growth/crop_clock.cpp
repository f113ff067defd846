// SPDX-License-Identifier: MIT
#include "growth/crop_clock.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "climate/soil.h"
#include "growth/harvest_curve.h"

namespace trug::growth {
namespace {

constexpr int kFirstCutAfterFlower = 7;  // a useful handful (memory)
constexpr int kWindowSpread = 21;        // without temperatures or constants (growth models, 3)
constexpr int kHeatLoverSpread = 35;
constexpr double kHeatLoverBase = 6;
constexpr int kLongWindow = 31;             // longer windows are cut to their first third
constexpr double kBulbDaysPerDegree = 4.5;  // memory
constexpr double kBulbSpringMean = 6.9;     // of the place the windows describe, February to April
constexpr double kAutumnPace = 0.4;         // from October on (common practice: a third to half)

// The mean of the three months in which bulbs come up, February to April (south: August to
// October).
double bulb_spring_mean(const climate::Climate& climate, DateRange season) {
  const Date from = season.from + Days{31};
  double sum = 0;
  constexpr int kDays = 89;
  for (int day = 0; day < kDays; ++day) sum += climate.mean_c(from + Days{day});
  return sum / kDays;
}

// The last measured day from a start to its flower.
std::optional<Date> measured_until(const climate::Climate& climate, const Forecast& forecast) {
  if (!climate.has_record() || !forecast.stages.back().end) return std::nullopt;
  const Date from = forecast.stages.front().start;
  for (Date day = *forecast.stages.back().end; day >= from; day -= Days{1}) {
    if (climate.measured(day)) return day;
  }
  return std::nullopt;
}

DateSpread spread_around(Date likely, int days) {
  return {likely - Days{days}, likely, likely + Days{days}};
}

}  // namespace

CropClock::CropClock(const climate::Season& season, const CropSpec& crop, Rules rules)
    : season_(&season),
      crop_(crop),
      curve_(harvest_curve(crop.sheet().habit, crop.cutting_weeks(), crop.sheet().second_flush)) {
  if (const auto& growth = crop.growth(); growth && climate().has_temperatures()) {
    forecaster_.emplace(climate(), *growth, season.lives(), rules);
    model_spread_ = static_cast<int>(std::lround(growth->spread_days));
  }
}

CropClock::CropClock(const climate::Climate& climate, const Sheet& sheet, const Group* group,
                     int flowering_year, Rules rules)
    : CropClock(std::make_shared<const climate::Season>(climate, flowering_year),
                CropSpec(sheet, group), rules) {}

CropClock::CropClock(std::shared_ptr<const climate::Season> season, const CropSpec& crop,
                     Rules rules)
    : CropClock(*season, crop, rules) {
  own_season_ = std::move(season);
}

std::optional<WarmSoil> CropClock::warm_soil() const {
  if (!climate().has_temperatures()) return std::nullopt;
  const double needed = climate::sowing_soil_c(crop_.frost_class());
  return WarmSoil{needed, climate::soil_warm_from(climate(), needed, season())};
}

std::optional<Forecast> CropClock::forecast_of(const Way& way, Date start, Date in_ground) const {
  if (!forecaster_) return std::nullopt;
  Raising raising{.raised = way.raised, .start = start, .in_ground = in_ground};
  raising.grown_on = way.method == Method::BoughtPlants;
  if (way.raised == Raised::Heated) raising.cool_from = grown_cool_from(sheet(), start);
  if (stays_in_ground(sheet().life_cycle)) {
    // Perennials and shrubs begin anew with their season, whenever they were planted.
    if (start < season().from) raising.raised = Raised::InPlace;
    raising.start = std::max(start, season().from);
    raising.in_ground = std::max(in_ground, season().from);
  }
  if (sheet().oldest_pot_weeks) raising.oldest_pot_weeks = *sheet().oldest_pot_weeks;
  if (sheet().pinch.advice == Pinch::Advice::Yes) {
    raising.pinch_days = sheet().pinch.costs_days.middle();
  }
  raising.look_on = season_->judging_day();
  return forecaster_->forecast(raising);
}

// The trade's first-flower window: cut to its first third when it is long; the start's place in its
// own window gives the place in this one (biennials, perennials and bulbs: the middle), and days
// too late for the one are days later in the other.
std::optional<Date> CropClock::window_flower(const Way& way, Date in_ground) const {
  const std::optional<FrostWindow>& trade = crop_.first_flower(way);
  if (!trade) return std::nullopt;
  DateRange flower = window_days(*trade, FlowersIn::SameYear);
  if (days_between(flower.from, flower.until) > kLongWindow) {
    flower.until = flower.from + Days{days_between(flower.from, flower.until) / 3};
  }
  const double length = days_between(flower.from, flower.until) - 1;
  const bool autumn_bulb = is_planted(sheet().life_cycle) && way.flowers != FlowersIn::SameYear;
  double days = length / 2;
  if (autumn_bulb && climate().has_temperatures()) {
    days += kBulbDaysPerDegree * (kBulbSpringMean - bulb_spring_mean(climate(), season()));
  } else if (!autumn_bulb && sheet().life_cycle != LifeCycle::Biennial &&
             !stays_in_ground(sheet().life_cycle) && way.window) {
    const DateRange own = window_days(*way.window, way.flowers);
    const double own_length = std::max(1, days_between(own.from, own.until) - 1);
    const double place = days_between(own.from, in_ground) / own_length;
    days = place <= 1 ? place * length : length + (place - 1) * own_length;
  }
  return flower.from + Days{static_cast<int>(std::lround(days))};
}

std::optional<Date> CropClock::heat_stop(Date from) const {
  if (!sheet().stop_above_max_c) return std::nullopt;
  for (Date day = from; day < season().until; day += Days{1}) {
    const auto maximum = climate().max_c(day);
    if (maximum && *maximum > *sheet().stop_above_max_c) return day;
  }
  return std::nullopt;
}

void CropClock::cut_to_season(Timeline& timeline) const {
  const Date first = timeline.first_cut.likely;
  Date end = std::min(season_end(), season().until - Days{1});
  const auto stop = heat_stop(first);
  const bool by_heat = stop && *stop <= end;
  if (by_heat) end = *stop - Days{1};
  const int days = std::max(0, days_between(first, end) + 1);
  if (days < static_cast<int>(timeline.shares.size())) {
    timeline.shares.resize(static_cast<std::size_t>(days));
    timeline.cut_short = true;
    if (by_heat) timeline.too_hot_from = stop;
  }
  const Date slower =
      make_date(year_of(season().until - Days{1}), climate().southern() ? 4 : 10, 1);
  for (std::size_t i = 0; i < timeline.shares.size(); ++i) {
    if (first + Days{static_cast<int>(i)} >= slower) timeline.shares[i] *= kAutumnPace;
  }
}

Timeline CropClock::without_flower(const Way& way, Date start, Date in_ground) const {
  Timeline result;
  if (auto forecast = forecast_of(way, start, in_ground)) {
    result.basis = Basis::Heat;
    result.forecast = std::move(*forecast);
  }
  result.first_flower = result.first_cut = spread_around(season().until - Days{1}, 0);
  result.shares = {0};
  return result;
}

std::optional<Timeline> CropClock::timeline(const Way& way, Date start, Date in_ground,
                                            std::optional<Date> first_cut) const {
  Timeline result;
  std::optional<Date> flower;
  if (auto forecast = forecast_of(way, start, in_ground)) {
    result.measured_until = measured_until(climate(), *forecast);
    result.basis = result.measured_until ? Basis::Measured : Basis::Heat;
    flower = forecast->first_flower;
    result.forecast = std::move(*forecast);
  } else {
    flower = window_flower(way, in_ground);
  }
  const bool from_seed_or_bulb = way.method == Method::Seed || way.method == Method::Bulb;
  if (flower && from_seed_or_bulb && sheet().fewest_days_from_sowing) {
    flower = std::max(*flower, start + Days{*sheet().fewest_days_from_sowing});
  }
  const int until_cut = sheet().habit == Habit::Single ? 0 : kFirstCutAfterFlower;
  if (first_cut) {
    result.basis = Basis::Recorded;
    flower = *first_cut - Days{until_cut};
  }
  if (!flower || *flower >= season().until) return std::nullopt;
  const bool heat_lover = crop_.growth() && crop_.growth()->base_c >= kHeatLoverBase;
  const int spread = first_cut                                     ? 0
                     : result.basis != Basis::Window               ? model_spread_
                     : heat_lover && !climate().has_temperatures() ? kHeatLoverSpread
                                                                   : kWindowSpread;
  result.first_flower = spread_around(*flower, spread);
  result.first_cut = spread_around(*flower + Days{until_cut}, spread);
  result.shares = curve_;
  cut_to_season(result);
  return result;
}

}  // namespace trug::growth
