// SPDX-License-Identifier: MIT
#include "growth/forecaster.h"

#include <algorithm>
#include <cmath>

namespace trug::growth {
namespace {

constexpr double kLongestDays = 3660;  // any span is shorter

std::optional<Date> after(const std::optional<Date>& day) {
  return day ? std::optional(*day + Days{1}) : std::nullopt;
}

double share(double sum, double need) { return need <= 0 ? 1 : std::min(1.0, sum / need); }

// What grew between the day on which it was due and a later one is taken off with the tip; pinched
// before it was due, it loses as much less, but half of its cost at least (memory).
double pinch_kd(const Raising& raising, const DaySums& sums, const Pieces& pieces) {
  const auto& due = raising.pinch_due;
  const auto& on = raising.pinched_on;
  if (!due || !on) return raising.pinch_kd;
  const double between = sums.sum(pieces, std::min(*due, *on), std::max(*due, *on));
  return *on > *due ? raising.pinch_kd + between
                    : std::max(raising.pinch_kd / 2, raising.pinch_kd - between);
}

}  // namespace

std::optional<Date> Forecast::end_of(StageName name) const {
  const auto found = std::ranges::find(stages, name, &Stage::name);
  return found == stages.end() ? std::nullopt : found->end;
}

Forecaster::Forecaster(const climate::Climate& climate, const Model& model, DateRange span,
                       Rules rules)
    : model_(model), rules_(rules), sums_(add_up(climate, model_, span, rules)) {}

Date Forecaster::first_day(const Raising& raising) const {
  return std::clamp(raising.start, sums_.span.from, sums_.span.until);
}

bool Forecaster::responds_at_once(const Raising& raising) const {
  return raising.grown_on || model_.growth.heat_to_respond_kd <= 0;
}

Forecaster::Life Forecaster::life(const Raising& raising) const {
  const Date from = first_day(raising);
  const Date out = std::clamp(raising.in_ground, from, sums_.span.until);
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
      std::clamp(moved ? raising.in_ground + Days{rules_.check_days} : out, out, sums_.span.until);
  const DateRange open{goes_on, sums_.span.until};
  Life life;
  const AirSums& bed = sums_.bed();
  life.respond = {{warm, &sums_.days, sums_.warm_heat},
                  {frame, &sums_.frame.heat, 1},
                  {nursery, &sums_.open.heat, 1},
                  {open, &bed.heat, 1}};
  if (model_.growth.vernal_days) {
    life.chill = {{frame, &sums_.frame.chill, 1},
                  {nursery, &sums_.open.chill, 1},
                  {{out, sums_.span.until}, &bed.chill, 1}};
  }
  if (model_.emergence) {
    life.emerge = {{warm, &sums_.days, sums_.warm_soil},
                   {{cooled, sums_.span.until}, &sums_.soil, 1}};
  }
  life.pot = {{warm, &sums_.days, sums_.warm_age}, {frame, &sums_.pot_age, 1}};
  // In a pot at the pots' pace, up to the oldest useful age.
  const Date too_old = pot_is_too_old(raising, life);
  const auto young = [&](DateRange days) {
    return DateRange{days.from, std::min(days.until, too_old)};
  };
  life.flower = {{young(warm), &sums_.pace, sums_.warm_heat * rules_.pot_pace},
                 {young(frame), &sums_.frame.last, rules_.pot_pace},
                 {nursery, &sums_.open.last, 1},
                 {open, &bed.last, 1}};
  return life;
}

// The first day in its pot on which the last stage stands still.
Date Forecaster::pot_is_too_old(const Raising& raising, const Life& life) const {
  const double oldest_days = std::min(raising.oldest_pot_weeks * 7, kLongestDays);
  const Date too_old = raising.start + Days{static_cast<int>(std::floor(oldest_days)) + 1};
  if (!model_.pot) return too_old;
  return after(sums_.reach(life.pot, raising.start, model_.pot->pot_kd)).value_or(too_old);
}

// A stage ends on the first day its sum reaches the need.
Stage Forecaster::stage(StageName name, const Pieces& pieces, std::optional<Date> start,
                        double need) const {
  Stage result{name, start.value_or(sums_.span.until), std::nullopt, need, 0};
  if (result.start >= sums_.span.until) return result;
  result.end = sums_.reach(pieces, result.start, need);
  result.reached =
      sums_.sum(pieces, result.start, result.end ? *result.end + Days{1} : sums_.span.until);
  return result;
}

// What is able to respond when it comes, or as it is sown, has no such stage before it.
Stage Forecaster::responding(const Raising& raising, const Life& life) const {
  const double need = model_.growth.heat_to_respond_kd;
  Stage result = stage(StageName::Respond, life.respond, first_day(raising), need);
  result.start = raising.start;
  if (responds_at_once(raising)) {
    result.end = raising.start - Days{1};
    result.reached = need;
  }
  return result;
}

// The chilling of a plant that is able to respond, or far enough on the way to it.
Stage Forecaster::chilling(const Raising& raising, const Life& life) const {
  const Date from = first_day(raising);
  const double share = model_.growth.heat_to_respond_kd * rules_.chill_from_share;
  const auto begins = responds_at_once(raising) || share <= 0
                          ? std::optional(from)
                          : after(sums_.reach(life.respond, from, share));
  Stage result = stage(StageName::Chill, life.chill, begins, model_.growth.vernal_days.value_or(0));
  if (!begins) result.start = raising.start;
  return result;
}

// A crop ruled by light counts its days once it has taken root.
Stage Forecaster::light(const Raising& raising) const {
  const DateRange days = raising.light.value_or(DateRange{sums_.span.until, sums_.span.until});
  const Date from = std::max(days.from, raising.in_ground + Days{rules_.check_days});
  const Pieces pieces = {{{from, std::min(days.until, sums_.span.until)}, &sums_.light, 1}};
  return stage(StageName::Light, pieces, from, model_.growth.after_light->days);
}

bool Forecaster::is_pre_chilled(const Raising& raising) const {
  return raising.pre_chilled && model_.growth.pre_chilled_kd;
}

// Bulbs from cold storage wait for no light.
const Pieces& Forecaster::flower_pieces(const Raising& raising, const Life& life) const {
  return is_pre_chilled(raising) ? life.respond : life.flower;
}

Stage Forecaster::flowering(const Raising& raising, const Life& life,
                            std::optional<Date> ready) const {
  const Growth& growth = model_.growth;
  const double need =
      is_pre_chilled(raising) ? *growth.pre_chilled_kd : growth.heat_to_first_flower_kd;
  Stage result = stage(StageName::Flower, flower_pieces(raising, life), ready,
                       need + pinch_kd(raising, sums_, flower_pieces(raising, life)));
  if (!ready) result.start = raising.in_ground;
  return result;
}

// Each stage begins the day after the one before it.
void Forecaster::by_heat(const Raising& raising, const Life& life, Forecast& result) const {
  result.stages.push_back(responding(raising, life));
  std::optional<Date> ready = after(result.stages.back().end);
  if (model_.growth.vernal_days) {
    result.stages.push_back(chilling(raising, life));
    const auto chilled = after(result.stages.back().end);
    ready = ready && chilled ? std::optional(std::max(*ready, *chilled)) : std::nullopt;
  }
  if (ready) ready = std::max(*ready, first_day(raising));
  result.stages.push_back(flowering(raising, life, ready));
  if (raising.look_on && *raising.look_on >= first_day(raising)) {
    look(raising, life, ready, result);
  }
}

// How far it has come by the day asked for.
void Forecaster::look(const Raising& raising, const Life& life, std::optional<Date> ready,
                      Forecast& result) const {
  const Date until = std::min(*raising.look_on + Days{1}, sums_.span.until);
  if (!responds_at_once(raising)) {
    result.respond_share =
        share(sums_.sum(life.respond, first_day(raising), until), model_.growth.heat_to_respond_kd);
  }
  if (!ready) return;
  const double grown = sums_.sum(flower_pieces(raising, life), *ready, until);
  result.flower_share = share(grown, result.stages.back().need);
}

// The days told beside the stages. What has shoots to pinch is counted from when they show; a
// bought plant is as old as one that is able to respond.
void Forecaster::tell_days(const Raising& raising, const Life& life, Forecast& result) const {
  const Date from = first_day(raising);
  if (model_.pinch_at_kd) {
    const auto begins = model_.emergence ? result.end_of(StageName::Emerge) : std::optional(from);
    const double had = raising.grown_on ? model_.growth.heat_to_respond_kd : 0;
    if (begins) result.pinched = sums_.reach(life.respond, *begins, *model_.pinch_at_kd - had);
  }
  if (model_.pot) {
    result.outgrows_module = sums_.reach(life.pot, from, model_.pot->module_kd);
    result.outgrows_pot = sums_.reach(life.pot, from, model_.pot->pot_kd);
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
