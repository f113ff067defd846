// SPDX-License-Identifier: MIT
#include "growth/crop_clock.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "climate/soil.h"
#include "growth/cutting.h"
#include "growth/harvest_curve.h"
#include "growth/spread.h"
#include "growth/window_flower.h"

namespace trug::growth {
namespace {

constexpr double kMildEnoughC = 6;       // on average, for annuals and biennials to open (memory)
constexpr int kFirstCutAfterFlower = 7;  // a useful handful (memory)
constexpr int kWindowSpread = 21;        // without temperatures or constants (growth models, 3)
constexpr int kHeatLoverSpread = 35;
constexpr double kHeatLoverBase = 6;
constexpr int kLatestPinch = 9;  // days after the longest day, for crops ruled by light (memory)

// The last measured day from a start to its flower.
std::optional<Date> measured_until(const climate::Climate& climate, const Forecast& forecast) {
  if (!climate.has_record() || !forecast.stages.back().end) return std::nullopt;
  const Date from = forecast.stages.front().start;
  for (Date day = *forecast.stages.back().end; day >= from; day -= Days{1}) {
    if (climate.measured(day)) return day;
  }
  return std::nullopt;
}

DateSpread spread_around(Date likely, double spread_days) {
  const Days days{std::lround(spread_days)};
  return {likely - days, likely, likely + days};
}

// Before it nothing opens that was begun before it, whatever heat the winter gave.
std::optional<Date> spring_of(const climate::Season& season, LifeCycle life_cycle) {
  if (life_cycle != LifeCycle::HardyAnnual && life_cycle != LifeCycle::Biennial) {
    return std::nullopt;
  }
  return season.mild_from(kMildEnoughC);
}

double usual_spread(const Growth& growth, const climate::Climate& climate) {
  const bool is_cold = climate.coldest_month_c().value_or(0) < 0;
  return is_cold ? growth.spread_in_cold_winters_days.value_or(growth.spread_days)
                 : growth.spread_days;
}

// A week after pricking out at the soonest, and not while days are under ten hours. Crops ruled by
// light are not pinched once they set buds.
std::optional<Date> pinch_day(const climate::Season& season, const std::optional<DateRange>& light,
                              const Way& way, Date start, Date far_enough) {
  Date day = far_enough;
  if (way.prick_out_weeks) day = std::max(day, start + Days{7 * *way.prick_out_weeks + 7});
  for (const auto& dark : {season.winter(), season.next_winter()}) {
    if (dark && dark->contains(day)) day = dark->until;
  }
  if (light && day > light->from + Days{kLatestPinch}) return std::nullopt;
  return day;
}

}  // namespace

CropClock::CropClock(const climate::Season& season, const CropSpec& crop, Rules rules)
    : season_(&season),
      crop_(crop),
      rules_(rules),
      winter_cold_(growth::winter_cold(season, crop)),
      curve_(harvest_curve(crop.sheet().habit, crop.cutting_weeks(), crop.sheet().second_flush)) {
  const std::optional<Growth>& growth = crop.growth();
  if (!growth || !climate().has_temperatures()) return;
  const Model model{.growth = *growth,
                    .emergence = sheet().emergence,
                    .pot = sheet().pot,
                    .pinch_at_kd = crop.pinched() ? sheet().pinch.at_kd : std::nullopt};
  forecaster_.emplace(climate(), model, season.lives(), rules);
  spring_ = spring_of(season, sheet().life_cycle);
  if (growth->after_light) light_days_ = season.light_days(growth->after_light->below_h);
}

CropClock::CropClock(const climate::Climate& climate, const Sheet& sheet, const Group* group,
                     int flowering_year, Rules rules, std::optional<bool> pinch)
    : CropClock(
          std::make_shared<const climate::Season>(climate, flowering_year, sheltered(rules.cover)),
          CropSpec(sheet, group, pinch), rules) {}

CropClock::CropClock(std::shared_ptr<const climate::Season> season, const CropSpec& crop,
                     Rules rules)
    : CropClock(*season, crop, rules) {
  own_season_ = std::move(season);
}

std::optional<Cold> CropClock::winter_cold(Date planted) const {
  return winter_cold_ ? std::optional(winter_cold_->since(planted)) : std::nullopt;
}

std::optional<WarmSoil> CropClock::warm_soil() const {
  if (!climate().has_temperatures()) return std::nullopt;
  const double needed = climate::sowing_soil_c(crop_.frost_class());
  return WarmSoil{needed, climate::soil_warm_from(climate(), needed, season())};
}

std::optional<Forecast> CropClock::forecast_of(const Way& way, Date start, Date in_ground,
                                               std::optional<Date> pinched) const {
  // What grows under cover where the heats were found in the open keeps the trade's windows.
  if (!forecaster_ || way.needs == Needs::Tunnel) return std::nullopt;
  const Growth& growth = *crop_.growth();
  Raising raising{.raised = way.raised, .start = start, .in_ground = in_ground};
  raising.grown_on = way.method == Method::BoughtPlants;
  raising.pre_chilled = way.pre_chilled;
  if (way.raised == Raised::Heated) raising.cool_from = grown_cool_from(sheet(), start);
  if (growth.counts_from == CountsFrom::Season && !way.pre_chilled) {
    // It begins anew with its season, whenever it was planted.
    if (start < season().from) raising.raised = Raised::InPlace;
    raising.start = std::max(start, season().from);
    raising.in_ground = std::max(in_ground, season().from);
  }
  if (sheet().oldest_pot_weeks) raising.oldest_pot_weeks = *sheet().oldest_pot_weeks;
  if (crop_.pinched()) {
    raising.pinch_days = sheet().pinch.costs_days.middle();
    raising.pinch_kd = sheet().pinch.cost_kd;
  }
  raising.light = light_days_;
  raising.look_on = season_->judging_day();
  Forecast forecast = forecaster_->forecast(raising);
  if (auto& day = forecast.pinched) day = pinch_day(*season_, light_days_, way, start, *day);
  if (pinched && forecast.pinched) {
    raising.pinch_due = forecast.pinched;
    raising.pinched_on = pinched;
    forecast = forecaster_->forecast(raising);
    forecast.pinched = pinched;
  }
  return forecast;
}

Date CropClock::season_end() const { return cutting_end(*season_, crop_); }

void CropClock::set_spread(Timeline& timeline, Date flower) const {
  const bool southern = climate().southern();
  if (timeline.basis == Basis::Recorded) {
    timeline.spread_days = 0;
  } else if (timeline.basis != Basis::Window) {
    timeline.spread_days = spread_at(usual_spread(*crop_.growth(), climate()), flower, southern);
  } else {
    const bool heat_lover = crop_.growth() && crop_.growth()->base_c >= kHeatLoverBase;
    timeline.spread_days =
        heat_lover && !climate().has_temperatures() ? kHeatLoverSpread : kWindowSpread;
  }
  timeline.weather_days = weather_spread(flower, southern);
  timeline.first_flower = spread_around(flower, timeline.spread_days);
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

// By heat or light where they decide, else by the trade's windows; sets what tells so.
std::optional<Date> CropClock::forecast_flower(const Way& way, Date start, Date in_ground,
                                               const Seen& seen, Timeline& result) const {
  std::optional<Date> flower;
  if (auto forecast = forecast_of(way, start, in_ground, seen.pinched)) {
    result.measured_until = measured_until(climate(), *forecast);
    result.basis = result.measured_until ? Basis::Measured
                   : light_days_         ? Basis::Light
                                         : Basis::Heat;
    flower = forecast->first_flower;
    const bool in_winter = flower && spring_ && start < *spring_ && *flower >= season().from;
    if (in_winter) flower = std::max(*flower, *spring_);
    result.forecast = std::move(*forecast);
  } else {
    flower = window_flower(*season_, crop_, way, in_ground);
  }
  if (flower) *flower += Days{climate().days_late() + rules_.days_late};
  const bool from_seed_or_bulb = way.method == Method::Seed || way.method == Method::Bulb;
  if (flower && from_seed_or_bulb && sheet().fewest_days_from_sowing) {
    flower = std::max(*flower, start + Days{*sheet().fewest_days_from_sowing});
  }
  return flower;
}

std::optional<Timeline> CropClock::timeline(const Way& way, Date start, Date in_ground,
                                            const Seen& seen) const {
  Timeline result;
  std::optional<Date> flower = forecast_flower(way, start, in_ground, seen, result);
  const int until_cut = sheet().habit == Habit::Single ? 0 : kFirstCutAfterFlower;
  if (seen.first_cut) {
    result.basis = Basis::Recorded;
    flower = *seen.first_cut - Days{until_cut};
  }
  if (!flower || *flower >= season().until) return std::nullopt;
  set_spread(result, *flower);
  const Date handful = *flower + Days{until_cut};
  Cutting cutting = cut_through(*season_, crop_, curve_, seen.first_cut ? handful : *flower,
                                handful, season_end());
  result.first_cut = spread_around(cutting.from, result.spread_days);
  result.shares = std::move(cutting.shares);
  result.cut_short = cutting.cut_short;
  result.too_hot_from = cutting.too_hot_from;
  result.pause = cutting.pause;
  result.slow = cutting.slow;
  return result;
}

Worth CropClock::worth(const Timeline& timeline) const {
  Date last = season_end();
  if (timeline.too_hot_from) last = std::min(last, *timeline.too_hot_from - Days{1});
  const int whole = crop_.cutting_days();
  // What comes into flower in a pause is first cut after it: that costs no days.
  if (const auto& pause = timeline.pause; pause && pause->from > timeline.first_cut.likely) {
    last -= Days{days_between(pause->from, pause->until)};
  }
  return {chance_by(timeline.first_flower.likely, timeline.spread_days, season_end()),
          expected_days(timeline.first_cut.likely, timeline.spread_days, last, whole)};
}

}  // namespace trug::growth
