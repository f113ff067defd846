// SPDX-License-Identifier: MIT
#include "growth/forecaster.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

#include "climate/day_length.h"
#include "climate/heat.h"
#include "climate/soil.h"

namespace trug::growth {
namespace {

using climate::Horizon;

constexpr double kLongestDays = 3660;  // any span is shorter
constexpr double kPotBase = 4;         // degC, of the age in a pot

// The same for the same day of every year; 29 February is the 28th, as in the curve.
int day_of_average(Date day) {
  const std::chrono::year_month_day ymd{day};
  const bool leap = ymd.year().is_leap() && day_of_year(day) > 59;
  return day_of_year(day) - (leap ? 1 : 0) - 1;
}

std::optional<Date> after(const std::optional<Date>& day) {
  return day ? std::optional(*day + Days{1}) : std::nullopt;
}

void add(std::vector<double>& sums, double worth) { sums.push_back(sums.back() + worth); }

double share(double sum, double need) { return need <= 0 ? 1 : std::min(1.0, sum / need); }

}  // namespace

std::optional<Date> Forecast::end_of(StageName name) const {
  const auto found = std::ranges::find(stages, name, &Stage::name);
  return found == stages.end() ? std::nullopt : found->end;
}

Forecaster::Forecaster(const climate::Climate& climate, const Model& model, DateRange span,
                       Rules rules)
    : model_(model), span_(span), rules_(rules) {
  const Growth& growth = model.growth;
  heat_heated_ = climate::capped_excess(climate.heated_c(), growth.base_c, growth.top_c, 0);
  age_heated_ = climate::expected_excess(climate.heated_c(), kPotBase, 0);
  if (model.emergence) soil_heated_ = std::max(0.0, climate.heated_c() - model.emergence->base_c);
  frame_.gain_c = rules.frame_gain_c;
  bed_.gain_c = rules.cover.mean_c;
  reserve();
  // An average day is worth the same every year, but for its light.
  std::array<std::optional<DayHeats>, 366> averages;
  for (Date day = span.from; day < span.until; day += Days{1}) {
    auto& average = averages[static_cast<std::size_t>(day_of_average(day))];
    const bool measured = climate.measured(day);
    if (!average && !measured) average = heats_of(climate, day);
    add_day(climate, day, measured ? heats_of(climate, day) : *average);
  }
}

std::vector<Forecaster::Air*> Forecaster::airs() {
  if (rules_.cover.mean_c > 0) return {&open_, &frame_, &bed_};
  return {&open_, &frame_};
}

void Forecaster::reserve() {
  std::vector<Sums*> all = {&days_, &pace_, &age_frame_, &soil_, &light_};
  for (Air* air : airs()) {
    for (Sums* sums : {&air->heat, &air->last, &air->chill}) all.push_back(sums);
  }
  for (Sums* sums : all) {
    sums->reserve(static_cast<std::size_t>(days_between(span_.from, span_.until)) + 1);
    sums->push_back(0);
  }
}

Forecaster::DayHeats Forecaster::heats_of(const climate::Climate& climate, Date day) const {
  const Growth& growth = model_.growth;
  const double mean = climate.mean_c(day);
  const double spread = climate.spread_c(day);
  const auto heat = [&](const Air& air) {
    return climate::capped_excess(mean + air.gain_c, growth.base_c, growth.top_c, spread);
  };
  DayHeats heats{.open = heat(open_), .frame = heat(frame_)};
  if (bed_.gain_c > 0) heats.bed = heat(bed_);
  if (model_.pot) {
    heats.age = climate::expected_excess(mean + frame_.gain_c, kPotBase, spread);
  }
  return heats;
}

void Forecaster::add_day(const climate::Climate& climate, Date day, const DayHeats& heats) {
  const Growth& growth = model_.growth;
  const Horizon horizon =
      growth.day_length.sunrise_to_sunset ? Horizon::SunriseToSunset : Horizon::CivilTwilight;
  const double hours = climate.day_hours(day, Horizon::SunriseToSunset);
  const double light = growth.slows_under_ten_hours ? climate::light_factor(hours) : 1;
  const double pace = climate::day_length_pace(growth.day_length, climate.day_hours(day, horizon),
                                               climate::days_lengthen(day, climate.southern()));
  const double mean_c = climate.mean_c(day);
  const auto add_air = [&](Air& air, double heat) {
    add(air.heat, light * heat);
    add(air.last, light * heat * pace);
    if (growth.vernal_days) add(air.chill, climate::vernalisation(mean_c + air.gain_c));
  };
  add_air(open_, heats.open);
  add_air(frame_, heats.frame);
  if (bed_.gain_c > 0) add_air(bed_, heats.bed);
  add(days_, 1);
  add(pace_, pace);
  if (model_.pot) add(age_frame_, light * heats.age);
  if (growth.after_light) {
    add(light_, climate::effective_day(*growth.after_light, mean_c + bed_.gain_c));
  }
  if (const auto& shoots = model_.emergence) {
    add(soil_, std::max(0.0, climate::soil_c(climate, day) + bed_.gain_c - shoots->base_c));
  }
}

// What its places are worth to each stage, from its start to the span's end.
struct Forecaster::Life {
  Pieces emerge, respond, chill, flower, pot;
};

Forecaster::Life Forecaster::life(const Raising& raising) const {
  const Date from = std::max(raising.start, span_.from);
  const Date out = std::clamp(raising.in_ground, from, span_.until);
  const bool heated = raising.raised == Raised::Heated;
  const bool in_pot = heated || raising.raised == Raised::Frame;
  // Until it is planted out it stands in warmth, then in a frame; or in the open all the time.
  const Date cooled = heated ? std::clamp(raising.cool_from.value_or(out), from, out) : from;
  const DateRange warm{from, cooled};
  const DateRange frame{cooled, in_pot ? out : cooled};
  const DateRange nursery{frame.until, out};
  // Planted out, it stands still for some days, but for its chilling.
  const bool moved = raising.in_ground > raising.start;
  const Date goes_on =
      std::clamp(moved ? raising.in_ground + Days{rules_.check_days} : out, out, span_.until);
  const DateRange open{goes_on, span_.until};
  Life life;
  const Air& bed = bed_.gain_c > 0 ? bed_ : open_;
  life.respond = {{warm, &days_, heat_heated_},
                  {frame, &frame_.heat, 1},
                  {nursery, &open_.heat, 1},
                  {open, &bed.heat, 1}};
  if (model_.growth.vernal_days) {
    life.chill = {
        {frame, &frame_.chill, 1}, {nursery, &open_.chill, 1}, {{out, span_.until}, &bed.chill, 1}};
  }
  if (model_.emergence) {
    life.emerge = {{warm, &days_, soil_heated_}, {{cooled, span_.until}, &soil_, 1}};
  }
  life.pot = {{warm, &days_, age_heated_}, {frame, &age_frame_, 1}};
  // In a pot at the pots' pace, up to the oldest useful age.
  const Date too_old = pot_is_too_old(raising, life);
  const auto young = [&](DateRange days) {
    return DateRange{days.from, std::min(days.until, too_old)};
  };
  life.flower = {{young(warm), &pace_, heat_heated_ * rules_.pot_pace},
                 {young(frame), &frame_.last, rules_.pot_pace},
                 {nursery, &open_.last, 1},
                 {open, &bed.last, 1}};
  return life;
}

// The first day in its pot on which the last stage stands still.
Date Forecaster::pot_is_too_old(const Raising& raising, const Life& life) const {
  const double oldest_days = std::min(raising.oldest_pot_weeks * 7, kLongestDays);
  const Date too_old = raising.start + Days{static_cast<int>(std::floor(oldest_days)) + 1};
  if (!model_.pot) return too_old;
  return after(reach(life.pot, raising.start, model_.pot->pot_kd)).value_or(too_old);
}

double Forecaster::sum(const Pieces& pieces, Date from, Date until) const {
  double total = 0;
  for (const Piece& piece : pieces) {
    const Date first = std::max(from, piece.days.from);
    const Date end = std::min(until, piece.days.until);
    if (first >= end) continue;
    const auto at = [&](Date day) {
      return (*piece.sums)[static_cast<std::size_t>(days_between(span_.from, day))];
    };
    total += piece.factor * (at(end) - at(first));
  }
  return total;
}

std::optional<Date> Forecaster::reach(const Pieces& pieces, Date from, double need) const {
  if (need <= 0) return from < span_.until ? std::optional(from) : std::nullopt;
  for (const Piece& piece : pieces) {
    const Date first = std::max(from, piece.days.from);
    if (first >= piece.days.until || piece.factor <= 0) continue;
    const double here = sum({piece}, first, piece.days.until);
    if (here < need) {
      need -= here;
      continue;
    }
    const auto index = [&](Date day) { return days_between(span_.from, day); };
    const auto begin = piece.sums->begin();
    const double before = begin[index(first)];
    const auto found =
        std::partition_point(begin + index(first) + 1, begin + index(piece.days.until),
                             [&](double sum) { return piece.factor * (sum - before) < need; });
    return span_.from + Days{static_cast<int>(found - begin) - 1};
  }
  return std::nullopt;
}

// A stage ends on the first day its sum reaches the need.
Stage Forecaster::stage(StageName name, const Pieces& pieces, std::optional<Date> start,
                        double need) const {
  Stage result{name, start.value_or(span_.until), std::nullopt, need, 0};
  if (result.start >= span_.until) return result;
  result.end = reach(pieces, result.start, need);
  result.reached = sum(pieces, result.start, result.end ? *result.end + Days{1} : span_.until);
  return result;
}

// The chilling of a plant that is able to respond, or far enough on the way to it.
Stage Forecaster::chilling(const Raising& raising, const Life& life, bool responds_at_once) const {
  const Date from = std::max(raising.start, span_.from);
  const double share = model_.growth.heat_to_respond_kd * rules_.chill_from_share;
  const auto begins = responds_at_once || share <= 0 ? std::optional(from)
                                                     : after(reach(life.respond, from, share));
  Stage result = stage(StageName::Chill, life.chill, begins, model_.growth.vernal_days.value_or(0));
  if (!begins) result.start = raising.start;
  return result;
}

// A crop ruled by light counts its days once it has taken root.
Stage Forecaster::light(const Raising& raising) const {
  const DateRange days = raising.light.value_or(DateRange{span_.until, span_.until});
  const Date from = std::max(days.from, raising.in_ground + Days{rules_.check_days});
  const Pieces pieces = {{{from, std::min(days.until, span_.until)}, &light_, 1}};
  return stage(StageName::Light, pieces, from, model_.growth.after_light->days);
}

// Each stage begins the day after the one before it.
void Forecaster::by_heat(const Raising& raising, const Life& life, Forecast& result) const {
  const Growth& growth = model_.growth;
  const Date from = std::max(raising.start, span_.from);
  const bool responds_at_once = raising.grown_on || growth.heat_to_respond_kd <= 0;
  Stage respond = stage(StageName::Respond, life.respond, from, growth.heat_to_respond_kd);
  respond.start = raising.start;
  if (responds_at_once) {
    respond.end = raising.start - Days{1};
    respond.reached = growth.heat_to_respond_kd;
  }
  std::optional<Date> ready = after(respond.end);
  result.stages.push_back(respond);
  if (growth.vernal_days) {
    result.stages.push_back(chilling(raising, life, responds_at_once));
    const auto chilled = after(result.stages.back().end);
    ready = ready && chilled ? std::optional(std::max(*ready, *chilled)) : std::nullopt;
  }
  if (ready) ready = std::max(*ready, from);
  // Bulbs from cold storage wait for no light.
  const bool pre_chilled = raising.pre_chilled && growth.pre_chilled_kd;
  const double need =
      (pre_chilled ? *growth.pre_chilled_kd : growth.heat_to_first_flower_kd) + raising.pinch_kd;
  const Pieces& pieces = pre_chilled ? life.respond : life.flower;
  Stage flower = stage(StageName::Flower, pieces, ready, need);
  if (!ready) flower.start = raising.in_ground;
  if (raising.look_on && *raising.look_on >= from) {
    const Date until = std::min(*raising.look_on + Days{1}, span_.until);
    result.respond_share =
        responds_at_once ? 1 : share(sum(life.respond, from, until), growth.heat_to_respond_kd);
    if (ready) result.flower_share = share(sum(pieces, *ready, until), flower.need);
  }
  result.stages.push_back(flower);
}

// The days told beside the stages. What has shoots to pinch is counted from when they show; a
// bought plant is as old as one that is able to respond.
void Forecaster::tell_days(const Raising& raising, const Life& life, Forecast& result) const {
  const Date from = std::max(raising.start, span_.from);
  if (model_.pinch_at_kd) {
    const auto begins = model_.emergence ? result.end_of(StageName::Emerge) : std::optional(from);
    const double had = raising.grown_on ? model_.growth.heat_to_respond_kd : 0;
    if (begins) result.pinched = reach(life.respond, *begins, *model_.pinch_at_kd - had);
  }
  if (model_.pot) {
    result.outgrows_module = reach(life.pot, from, model_.pot->module_kd);
    result.outgrows_pot = reach(life.pot, from, model_.pot->pot_kd);
  }
}

Forecast Forecaster::forecast(const Raising& raising) const {
  const Life life = this->life(raising);
  Forecast result;
  if (model_.emergence) {
    result.stages.push_back(
        stage(StageName::Emerge, life.emerge, raising.start, model_.emergence->heat_kd));
  }
  if (model_.growth.after_light) {
    result.stages.push_back(light(raising));
  } else {
    by_heat(raising, life, result);
  }
  if (const auto& end = result.stages.back().end) {
    result.first_flower = *end + Days{static_cast<int>(std::lround(raising.pinch_days))};
  }
  tell_days(raising, life, result);
  return result;
}

}  // namespace trug::growth
