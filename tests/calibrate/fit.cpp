// SPDX-License-Identifier: MIT
#include "calibrate/fit.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "growth/crop_clock.h"

namespace trug::calibrate {
namespace {

constexpr double kNever = 90;        // days off, for the fit, where the model sees no flower
constexpr double kSharpestFact = 7;  // no fact is taken to be nearer the truth than a week
constexpr double kRespondShare =
    0.38;                             // of all heat, until able to respond, and how far a crop may
constexpr double kShareSpread = 0.1;  // be from that where its facts do not tell (memory)
constexpr double kUsualTop = 27;      // where more warmth stops helping, and how far a crop may be
constexpr double kTopSpread = 12;     // from that where its facts do not tell (memory)
constexpr double kWarmMonthC = 22;    // a place is warm whose warmest month reaches this

const Way& way_of(const Sheet& sheet, const Fact& fact) {
  for (const Way& way : sheet.ways) {
    if (way.name == fact.way) return way;
  }
  throw BadTable(sheet.name + " has no way " + fact.way);
}

growth::CropClock clock_of(const Sheet& sheet, const Fact& fact, const World& world) {
  const climate::Climate& climate = world.climate_of(fact);
  const int year = year_of(fact.latest);
  const bool is_next = fact.latest >= climate.season_start(year + 1);
  return {climate, sheet, nullptr, is_next ? year + 1 : year, world.rules};
}

double misfit(const Sheet& sheet, const Growth& growth, const std::vector<Fact>& facts,
              const World& world) {
  double sum = 0;
  for (const Fact& fact : facts) {
    if (!fact.fitted) continue;
    const double off = error_days(sheet, growth, fact, world).value_or(kNever);
    sum += std::pow(off / std::max(kSharpestFact, fact.half_width()), 2);
  }
  const Freedom free = freedom_of(sheet, facts, world);
  if (free.top) sum += std::pow((growth.top_c - kUsualTop) / kTopSpread, 2);
  if (free.respond) {
    const double share =
        growth.heat_to_respond_kd / (growth.heat_to_respond_kd + growth.heat_to_first_flower_kd);
    sum += std::pow((share - kRespondShare) / kShareSpread, 2);
  }
  return sum;
}

Sheet with_growth(Sheet sheet, const Growth& growth) {
  sheet.growth = growth;
  return sheet;
}

}  // namespace

const climate::Climate& World::climate_of(const Fact& fact) const {
  const auto found = climates.find(fact.place);
  if (found == climates.end()) throw BadTable("no place " + fact.place);
  return found->second;
}

std::optional<double> error_days(const Sheet& sheet, const Growth& growth, const Fact& fact,
                                 const World& world) {
  const Sheet tried = with_growth(sheet, growth);
  const auto forecast =
      clock_of(tried, fact, world).forecast_of(way_of(tried, fact), fact.start, fact.in_ground);
  if (!forecast || !forecast->first_flower) return std::nullopt;
  return -fact.middle_after(*forecast->first_flower);
}

std::optional<double> told_spread(const Sheet& sheet, const Growth& growth, const Fact& fact,
                                  const World& world) {
  const Sheet tried = with_growth(sheet, growth);
  const auto timeline =
      clock_of(tried, fact, world).timeline(way_of(tried, fact), fact.start, fact.in_ground);
  return timeline ? std::optional(timeline->spread_days) : std::nullopt;
}

Freedom freedom_of(const Sheet& sheet, const std::vector<Fact>& facts, const World& world) {
  Freedom freedom;
  freedom.respond = !stays_in_ground(sheet.life_cycle) && sheet.life_cycle != LifeCycle::Biennial;
  freedom.top = std::ranges::any_of(facts, [&](const Fact& fact) {
    return fact.fitted &&
           world.climate_of(fact).mean_c(make_date(year_of(fact.latest), 7, 20)) >= kWarmMonthC;
  });
  return freedom;
}

bool is_fitted(const Sheet& sheet, const std::vector<Fact>& facts) {
  return sheet.growth->counts_from == CountsFrom::Sowing && !sheet.growth->after_light &&
         std::ranges::any_of(facts, &Fact::fitted);
}

Growth fit(const Sheet& sheet, const std::vector<Fact>& facts, const World& world) {
  const Freedom free = freedom_of(sheet, facts, world);
  Growth best = *sheet.growth;
  double least = HUGE_VAL;
  // A net over everything that is thinkable, then ever finer about the best of it.
  const auto look = [&](double top, double respond, double flower) {
    Growth tried = *sheet.growth;
    if (free.top) tried.top_c = top;
    if (free.respond) tried.heat_to_respond_kd = respond;
    tried.heat_to_first_flower_kd = flower;
    const double found = misfit(sheet, tried, facts, world);
    if (found < least) {
      least = found;
      best = tried;
    }
  };
  for (double top = free.top ? 30 : 0; top >= (free.top ? 16 : 0); top -= 2) {
    for (double respond = free.respond ? 80 : 0; respond <= (free.respond ? 800 : 0);
         respond += 60) {
      for (double flower = 100; flower <= 1600; flower += 60) look(top, respond, flower);
    }
  }
  for (const double step : {30.0, 15.0, 5.0}) {
    for (int round = 0; round < 6; ++round) {
      const Growth at = best;
      for (double top = free.top ? 1 : 0; top >= (free.top ? -1 : 0); --top) {
        for (int i = -1; i <= 1; ++i) {
          for (int k = -1; k <= 1; ++k) {
            look(at.top_c + top, std::max(50.0, at.heat_to_respond_kd + i * step),
                 std::max(50.0, at.heat_to_first_flower_kd + k * step));
          }
        }
      }
      if (best.heat_to_respond_kd == at.heat_to_respond_kd &&
          best.heat_to_first_flower_kd == at.heat_to_first_flower_kd && best.top_c == at.top_c) {
        break;
      }
    }
  }
  return best;
}

std::vector<double> left_out_errors(const Sheet& sheet, const std::vector<Fact>& facts,
                                    const World& world) {
  std::vector<double> errors;
  if (std::ranges::count_if(facts, &Fact::fitted) < 2) return errors;
  for (const Fact& fact : facts) {
    if (!fact.fitted) continue;
    std::vector<Fact> others;
    std::ranges::copy_if(facts, std::back_inserter(others),
                         [&](const Fact& other) { return &other != &fact; });
    const auto error = error_days(sheet, fit(sheet, others, world), fact, world);
    errors.push_back(error.value_or(kNever));
  }
  return errors;
}

}  // namespace trug::calibrate
