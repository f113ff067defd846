// SPDX-License-Identifier: MIT
#include "growth/forecaster.h"

#include <algorithm>
#include <cmath>

#include "climate/heat.h"

namespace trug::growth {
namespace {

using climate::Horizon;

double share(double sum, double need) { return need <= 0 ? 1 : std::min(1.0, sum / need); }

}  // namespace

Forecaster::Forecaster(const climate::Climate& climate, const Growth& growth, DateRange span,
                       Rules rules)
    : growth_(growth), span_(span), rules_(rules) {
  heat_heated_ = climate::capped_excess(climate.heated_c(), growth.base_c, growth.top_c, 0);
  days_.reserve(static_cast<std::size_t>(days_between(span.from, span.until)));
  for (Date day = span.from; day < span.until; day += Days{1}) {
    const double mean = climate.mean_c(day);
    const double spread = climate.spread_c(day);
    const double frame = mean + rules.frame_gain_c;
    const double light = climate::light_factor(climate.day_hours(day, Horizon::SunriseToSunset));
    const auto heat = [&](double at) {
      return static_cast<float>(light *
                                climate::capped_excess(at, growth.base_c, growth.top_c, spread));
    };
    const Horizon horizon =
        growth.day_length.sunrise_to_sunset ? Horizon::SunriseToSunset : Horizon::CivilTwilight;
    days_.push_back({heat(mean), heat(frame), static_cast<float>(climate::vernalisation(mean)),
                     static_cast<float>(climate::vernalisation(frame)),
                     static_cast<float>(climate::day_length_pace(
                         growth.day_length, climate.day_hours(day, horizon)))});
  }
}

struct Forecaster::Progress {
  double respond = 0, chill = 0, flower = 0;
  double respond_need = 0, chill_need = 0, flower_need = 0;
  std::optional<Date> respond_end, chill_start, chill_end, flower_start, flower_end;
};

// One day of the plant's life. A stage ends on the first day its sum reaches the need; the next
// begins the day after.
void Forecaster::step(const Raising& raising, Date day, Progress& p) const {
  const Daily& daily = days_[static_cast<std::size_t>(days_between(span_.from, day))];
  const bool waiting = day < raising.in_ground;
  const bool cooled = raising.cool_from && day >= *raising.cool_from;
  const bool heated = waiting && raising.raised == Raised::Heated && !cooled;
  const bool frame =
      waiting && (raising.raised == Raised::Frame || (raising.raised == Raised::Heated && cooled));
  const bool in_pot = heated || frame;
  const bool checked = !waiting && raising.in_ground > raising.start &&
                       days_between(raising.in_ground, day) < rules_.check_days;
  const double heat = checked  ? 0
                      : heated ? heat_heated_
                      : frame  ? static_cast<double>(daily.heat_frame)
                               : static_cast<double>(daily.heat_open);
  const double chill = heated  ? 0
                       : frame ? static_cast<double>(daily.chill_frame)
                               : static_cast<double>(daily.chill_open);

  const bool responds = p.respond_end && *p.respond_end < day;
  const bool chilled = !growth_.vernal_days || (p.chill_end && *p.chill_end < day);
  if (responds && chilled) {
    if (!p.flower_start) p.flower_start = day;
    const bool too_old = in_pot && static_cast<double>(days_between(raising.start, day)) >
                                       raising.oldest_pot_weeks * 7;
    const double pace = static_cast<double>(daily.pace) * (!in_pot   ? 1
                                                           : too_old ? 0
                                                                     : rules_.pot_pace);
    p.flower += heat * pace;
    if (p.flower >= p.flower_need) p.flower_end = day;
  }
  if (growth_.vernal_days && !p.chill_end &&
      p.respond >= p.respond_need * rules_.chill_from_share) {
    if (!p.chill_start) p.chill_start = day;
    p.chill += chill;
    if (p.chill >= p.chill_need) p.chill_end = day;
  }
  if (!p.respond_end) {
    p.respond += heat;
    if (p.respond >= p.respond_need) p.respond_end = day;
  }
}

Forecast Forecaster::forecast(const Raising& raising) const {
  Progress p;
  p.respond_need = growth_.heat_to_respond_kd;
  p.chill_need = growth_.vernal_days.value_or(0);
  p.flower_need = growth_.heat_to_first_flower_kd;
  if (raising.grown_on || p.respond_need <= 0) {
    p.respond = p.respond_need;
    p.respond_end = raising.start - Days{1};
  }
  Forecast result;
  for (Date day = std::max(raising.start, span_.from); day < span_.until && !p.flower_end;
       day += Days{1}) {
    step(raising, day, p);
    if (raising.look_on && day <= *raising.look_on) {
      result.respond_share = share(p.respond, p.respond_need);
      result.flower_share = share(p.flower, p.flower_need);
    }
  }
  result.stages.push_back(
      {StageName::Respond, raising.start, p.respond_end, p.respond_need, p.respond});
  if (growth_.vernal_days) {
    result.stages.push_back({StageName::Chill, p.chill_start.value_or(raising.start), p.chill_end,
                             p.chill_need, p.chill});
  }
  result.stages.push_back({StageName::Flower, p.flower_start.value_or(raising.in_ground),
                           p.flower_end, p.flower_need, p.flower});
  if (p.flower_end) {
    result.first_flower = *p.flower_end + Days{static_cast<int>(std::lround(raising.pinch_days))};
  }
  return result;
}

}  // namespace trug::growth
