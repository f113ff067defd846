// SPDX-License-Identifier: MIT
#include "growth/day_sums.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cstddef>
#include <utility>

#include "climate/day_length.h"
#include "climate/heat.h"
#include "climate/soil.h"

namespace trug::growth {
namespace {

using climate::Horizon;

constexpr double kPotBase = 4;  // degC, of the age in a pot

// The same for the same day of every year; 29 February is the 28th, as in the curve.
int day_of_average(Date day) {
  const int of_year = day_of_year(day);
  const bool leap = of_year > 59 && std::chrono::year{year_of(day)}.is_leap();
  return of_year - (leap ? 1 : 0) - 1;
}

void add(Sums& sums, double worth) { sums.push_back(sums.back() + worth); }

// Adds up day by day.
class Adder {
 public:
  Adder(const climate::Climate& climate, const Model& model, DateRange span, const Rules& rules)
      : climate_(climate), model_(model), rules_(rules) {
    sums_.span = span;
    const double warm_c = climate.heated_c();
    sums_.warm_heat = climate::capped_excess(warm_c, growth().base_c, growth().top_c, 0);
    sums_.warm_age = climate::expected_excess(warm_c, kPotBase, 0);
    if (model.emergence) sums_.warm_soil = std::max(0.0, warm_c - model.emergence->base_c);
  }

  DaySums run() {
    reserve();
    // An average day is worth the same every year, but for its light.
    std::array<std::optional<DayHeats>, 366> averages;
    for (Date day = sums_.span.from; day < sums_.span.until; day += Days{1}) {
      auto& average = averages[static_cast<std::size_t>(day_of_average(day))];
      const bool measured = climate_.measured(day);
      if (!average && !measured) average = heats_of(day);
      add_day(day, measured ? heats_of(day) : *average);
    }
    return std::move(sums_);
  }

 private:
  // What the air of one day is worth in one place, before its light counts.
  struct AirDay {
    double heat = 0, last = 0, chill = 0;
  };
  // What follows from the temperature of one day alone.
  struct DayHeats {
    AirDay open, frame, under_cover;
    double age = 0, light = 0, covered_c = 0;
  };

  const Growth& growth() const { return model_.growth; }
  bool is_covered() const { return rules_.cover.of_sun > 0; }

  void reserve() {
    std::vector<Sums*> all = {&sums_.days, &sums_.pace, &sums_.pot_age, &sums_.soil, &sums_.light};
    for (AirSums* air : {&sums_.open, &sums_.frame, &sums_.under_cover}) {
      if (air == &sums_.under_cover && !is_covered()) continue;
      for (Sums* sums : {&air->heat, &air->last, &air->chill}) all.push_back(sums);
    }
    for (Sums* sums : all) {
      sums->reserve(static_cast<std::size_t>(days_between(sums_.span.from, sums_.span.until)) + 1);
      sums->push_back(0);
    }
  }

  DayHeats heats_of(Date day) const {
    const double mean = climate_.mean_c(day);
    const double spread = climate_.spread_c(day);
    const double sun = climate_.sun_mj(day);
    const double ground = growth().heat_to_respond_kd > 0 ? rules_.ground_of_sun * sun : 0;
    const auto heat = [&](double c) {
      return climate::capped_excess(c, growth().base_c, growth().top_c, spread);
    };
    const auto in_air = [&](double c, double ground_c) {
      const double last = heat(c);
      return AirDay{ground_c > 0 ? heat(c + ground_c) : last, last,
                    growth().vernal_days ? climate::vernalisation(c) : 0};
    };
    DayHeats heats{.open = in_air(mean, ground), .frame = in_air(mean + rules_.frame_gain_c, 0)};
    if (is_covered()) {
      heats.covered_c = warmer_c(rules_.cover, sun, mean);
      heats.under_cover = in_air(mean + heats.covered_c, ground);
    }
    if (model_.pot) {
      heats.age = climate::expected_excess(mean + rules_.frame_gain_c, kPotBase, spread);
    }
    if (growth().after_light) {
      heats.light = climate::effective_day(*growth().after_light, mean + heats.covered_c);
    }
    return heats;
  }

  double pace_of(Date day) const {
    const DayLengthResponse& response = growth().day_length;
    if (response.kind == DayLengthResponse::Kind::Neutral) return 1;
    const Horizon horizon =
        response.sunrise_to_sunset ? Horizon::SunriseToSunset : Horizon::CivilTwilight;
    return climate::day_length_pace(response, climate_.day_hours(day, horizon),
                                    climate::days_lengthen(day, climate_.southern()));
  }

  void add_day(Date day, const DayHeats& heats) {
    const double light =
        growth().slows_under_ten_hours
            ? climate::light_factor(climate_.day_hours(day, Horizon::SunriseToSunset))
            : 1;
    const double pace = pace_of(day);
    const auto add_air = [&](AirSums& air, const AirDay& worth) {
      add(air.heat, light * worth.heat);
      add(air.last, light * worth.last * pace);
      if (growth().vernal_days) add(air.chill, worth.chill);
    };
    add_air(sums_.open, heats.open);
    add_air(sums_.frame, heats.frame);
    if (is_covered()) add_air(sums_.under_cover, heats.under_cover);
    add(sums_.days, 1);
    add(sums_.pace, pace);
    if (model_.pot) add(sums_.pot_age, light * heats.age);
    if (growth().after_light) add(sums_.light, heats.light);
    if (const auto& shoots = model_.emergence) {
      const double soil_c = climate::soil_c(climate_, day) + heats.covered_c;
      add(sums_.soil, std::max(0.0, soil_c - shoots->base_c));
    }
  }

  const climate::Climate& climate_;
  const Model& model_;
  const Rules& rules_;
  DaySums sums_;
};

}  // namespace

DaySums add_up(const climate::Climate& climate, const Model& model, DateRange span,
               const Rules& rules) {
  return Adder(climate, model, span, rules).run();
}

double DaySums::sum(const Pieces& pieces, Date from, Date until) const {
  double total = 0;
  for (const Piece& piece : pieces) {
    const Date first = std::max(from, piece.days.from);
    const Date end = std::min(until, piece.days.until);
    if (first >= end) continue;
    const auto at = [&](Date day) {
      return (*piece.sums)[static_cast<std::size_t>(days_between(span.from, day))];
    };
    total += piece.factor * (at(end) - at(first));
  }
  return total;
}

std::optional<Date> DaySums::reach(const Pieces& pieces, Date from, double need) const {
  if (need <= 0) return from < span.until ? std::optional(from) : std::nullopt;
  for (const Piece& piece : pieces) {
    const Date first = std::max(from, piece.days.from);
    if (first >= piece.days.until || piece.factor <= 0) continue;
    const double here = sum({piece}, first, piece.days.until);
    if (here < need) {
      need -= here;
      continue;
    }
    const auto index = [&](Date day) { return days_between(span.from, day); };
    const auto begin = piece.sums->begin();
    const double before = begin[index(first)];
    const auto found =
        std::partition_point(begin + index(first) + 1, begin + index(piece.days.until),
                             [&](double sum) { return piece.factor * (sum - before) < need; });
    return span.from + Days{static_cast<int>(found - begin) - 1};
  }
  return std::nullopt;
}

}  // namespace trug::growth
