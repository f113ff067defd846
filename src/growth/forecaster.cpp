// SPDX-License-Identifier: MIT
#include "growth/forecaster.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "climate/heat.h"

namespace trug::growth {
namespace {

using climate::Horizon;

constexpr double kLongestDays = 3660;  // any span is shorter

// The same for the same day of every year; 29 February is the 28th, as in the curve.
int day_of_average(Date day) {
  const std::chrono::year_month_day ymd{day};
  const bool leap = ymd.year().is_leap() && day_of_year(day) > 59;
  return day_of_year(day) - (leap ? 1 : 0) - 1;
}

std::optional<Date> after(const std::optional<Date>& day) {
  return day ? std::optional(*day + Days{1}) : std::nullopt;
}

double share(double sum, double need) { return need <= 0 ? 1 : std::min(1.0, sum / need); }

}  // namespace

Forecaster::Forecaster(const climate::Climate& climate, const Growth& growth, DateRange span,
                       Rules rules)
    : growth_(growth), span_(span), rules_(rules) {
  heat_heated_ = climate::capped_excess(climate.heated_c(), growth.base_c, growth.top_c, 0);
  for (Sums* sums : {&days_, &heat_open_, &heat_frame_, &chill_open_, &chill_frame_, &pace_,
                     &last_open_, &last_frame_}) {
    sums->reserve(static_cast<std::size_t>(days_between(span.from, span.until)) + 1);
    sums->push_back(0);
  }
  const Horizon horizon =
      growth.day_length.sunrise_to_sunset ? Horizon::SunriseToSunset : Horizon::CivilTwilight;
  // An average day is worth the same every year, but for its light.
  std::array<std::optional<std::pair<double, double>>, 366> averages;
  for (Date day = span.from; day < span.until; day += Days{1}) {
    const double mean = climate.mean_c(day);
    const double spread = climate.spread_c(day);
    const auto heat = [&](double at) {
      return climate::capped_excess(at, growth.base_c, growth.top_c, spread);
    };
    const auto heats = [&] { return std::pair(heat(mean), heat(mean + rules.frame_gain_c)); };
    auto& average = averages[static_cast<std::size_t>(day_of_average(day))];
    if (!average && !climate.measured(day)) average = heats();
    const auto [open, frame] = climate.measured(day) ? heats() : *average;
    const double light = climate::light_factor(climate.day_hours(day, Horizon::SunriseToSunset));
    add_day(light * open, light * frame, mean,
            climate::day_length_pace(growth.day_length, climate.day_hours(day, horizon)));
  }
}

void Forecaster::add_day(double heat_open, double heat_frame, double mean_c, double pace) {
  const auto add = [](Sums& sums, double worth) { sums.push_back(sums.back() + worth); };
  add(days_, 1);
  add(heat_open_, heat_open);
  add(heat_frame_, heat_frame);
  add(pace_, pace);
  add(last_open_, heat_open * pace);
  add(last_frame_, heat_frame * pace);
  if (!growth_.vernal_days) return;
  add(chill_open_, climate::vernalisation(mean_c));
  add(chill_frame_, climate::vernalisation(mean_c + rules_.frame_gain_c));
}

// What its places are worth to each stage, from its start to the span's end.
struct Forecaster::Life {
  Pieces respond, chill, flower;
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
  life.respond = {{warm, &days_, heat_heated_},
                  {frame, &heat_frame_, 1},
                  {nursery, &heat_open_, 1},
                  {open, &heat_open_, 1}};
  if (growth_.vernal_days) {
    life.chill = {{frame, &chill_frame_, 1}, {{frame.until, span_.until}, &chill_open_, 1}};
  }
  // In a pot at the pots' pace, up to the oldest useful age.
  const double oldest_days = std::min(raising.oldest_pot_weeks * 7, kLongestDays);
  const Date too_old = raising.start + Days{static_cast<int>(std::floor(oldest_days)) + 1};
  const auto young = [&](DateRange days) {
    return DateRange{days.from, std::min(days.until, too_old)};
  };
  life.flower = {{young(warm), &pace_, heat_heated_ * rules_.pot_pace},
                 {young(frame), &last_frame_, rules_.pot_pace},
                 {nursery, &last_open_, 1},
                 {open, &last_open_, 1}};
  return life;
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
  const double share = growth_.heat_to_respond_kd * rules_.chill_from_share;
  const auto begins = responds_at_once || share <= 0 ? std::optional(from)
                                                     : after(reach(life.respond, from, share));
  Stage result = stage(StageName::Chill, life.chill, begins, growth_.vernal_days.value_or(0));
  if (!begins) result.start = raising.start;
  return result;
}

// Each stage begins the day after the one before it.
Forecast Forecaster::forecast(const Raising& raising) const {
  const Date from = std::max(raising.start, span_.from);
  const Life life = this->life(raising);
  const double respond_need = growth_.heat_to_respond_kd;
  const bool responds_at_once = raising.grown_on || respond_need <= 0;
  Stage respond = stage(StageName::Respond, life.respond, from, respond_need);
  respond.start = raising.start;
  if (responds_at_once) {
    respond.end = raising.start - Days{1};
    respond.reached = respond_need;
  }
  std::optional<Date> ready = after(respond.end);
  Forecast result{.stages = {respond}};
  if (growth_.vernal_days) {
    result.stages.push_back(chilling(raising, life, responds_at_once));
    const auto chilled = after(result.stages.back().end);
    ready = ready && chilled ? std::optional(std::max(*ready, *chilled)) : std::nullopt;
  }
  if (ready) ready = std::max(*ready, from);
  Stage flower = stage(StageName::Flower, life.flower, ready, growth_.heat_to_first_flower_kd);
  if (!ready) flower.start = raising.in_ground;
  if (raising.look_on && *raising.look_on >= from) {
    const Date until = std::min(*raising.look_on + Days{1}, span_.until);
    result.respond_share =
        responds_at_once ? 1 : share(sum(life.respond, from, until), respond_need);
    if (ready) result.flower_share = share(sum(life.flower, *ready, until), flower.need);
  }
  if (flower.end) {
    result.first_flower = *flower.end + Days{static_cast<int>(std::lround(raising.pinch_days))};
  }
  result.stages.push_back(flower);
  return result;
}

}  // namespace trug::growth
