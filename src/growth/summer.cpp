// SPDX-License-Identifier: MIT
#include "growth/summer.h"

#include <algorithm>
#include <optional>

#include "climate/soil.h"

namespace trug::growth {
namespace {

constexpr int kGerminationDays = 10;
constexpr double kFrameGain = 2.5;
constexpr double kShadeC = 3;         // cooler in it (memory)
constexpr double kShadedAboveC = 15;  // trays stand in the shade then (common practice)
constexpr int kHeldDays = 7;
constexpr double kCooler = 3;  // memory

// What heat is compared with: the limit, and more where the maxima are a guess.
double believed(const climate::Climate& climate, double limit_c) {
  return limit_c + (climate.knows_maxima() ? 0 : kGuessedMaximaC);
}

// The first day of as many on which the maximum is above the limit. Among these there is one of
// every seventh day: only where such a one is hot are its neighbours looked at.
std::optional<Date> held_above(const climate::Climate& climate, double limit, DateRange days) {
  const auto is_hot = [&](Date day) { return climate.likely_max_c(day) > limit; };
  Date from = days.from;
  for (Date look = from + Days{kHeldDays - 1}; look < days.until; look += Days{kHeldDays}) {
    if (!is_hot(look)) continue;
    Date first = look;
    while (first > from && is_hot(first - Days{1})) first -= Days{1};
    Date after = look + Days{1};
    while (after < days.until && days_between(first, after) < kHeldDays && is_hot(after)) {
      after += Days{1};
    }
    if (days_between(first, after) >= kHeldDays) return first;
    from = look + Days{1};
  }
  return std::nullopt;
}

}  // namespace

double soil_after_sowing_c(const climate::Climate& climate, Raised raised, Date sown) {
  double sum = 0;
  for (int i = 1; i <= kGerminationDays; ++i) sum += climate::soil_c(climate, sown + Days{i});
  const double mean = sum / kGerminationDays;
  if (raised == Raised::InPlace) return mean;
  if (mean > kShadedAboveC) return std::max(kShadedAboveC, mean - kShadeC);
  return raised == Raised::Frame ? std::min(mean + kFrameGain, kShadedAboveC) : mean;
}

bool too_warm_to_sow(const climate::Climate& climate, const Sheet& sheet, const Way& way,
                     Date sown) {
  const bool begun = way.method == Method::Seed || way.method == Method::Bulb;
  if (!sheet.germination_max_soil_c || !climate.has_temperatures() || !begun) return false;
  if (way.raised == Raised::Heated) return false;
  return soil_after_sowing_c(climate, way.raised, sown) > *sheet.germination_max_soil_c;
}

bool meets_the_summer(const climate::Climate& climate, const Sheet& sheet, const Way& way,
                      Date in_ground) {
  const bool begun = way.method == Method::Seed || way.method == Method::BoughtPlants;
  return begun && way.flowers == FlowersIn::SameYear && climate.has_temperatures() &&
         sheet.life_cycle == LifeCycle::HardyAnnual && frost_class(sheet) == FrostClass::Hardy &&
         climate::soil_c(climate, in_ground) > kSummerSoilC;
}

bool comes_up_outdoors(const climate::Climate& climate, const Sheet& sheet, Date sown) {
  return sheet.germination_c && climate.has_temperatures() &&
         climate::soil_c(climate, sown) >= sheet.germination_c->low;
}

std::vector<DateRange> too_hot(const climate::Season& season, const Sheet& sheet, Date from) {
  const climate::Climate& climate = season.climate();
  std::vector<DateRange> spells;
  if (!sheet.stop_above_max_c || !climate.has_temperatures()) return spells;
  const double limit = believed(climate, *sheet.stop_above_max_c);
  const Date end = season.range().until;
  while (const auto hot = held_above(climate, limit, {from, end})) {
    spells.push_back({*hot, end});
    if (sheet.when_hot == WhenHot::Ends) break;
    for (from = *hot + Days{kHeldDays}; from < end; from += Days{1}) {
      if (climate.likely_max_c(from) < limit - kCooler) break;
    }
    spells.back().until = from;
  }
  return spells;
}

Date hottest_day(const climate::Climate& climate, DateRange year) {
  Date hottest = year.from;
  for (Date day = year.from; day < year.until; day += Days{1}) {
    if (climate.likely_max_c(day) > climate.likely_max_c(hottest)) hottest = day;
  }
  return hottest;
}

bool dies_in_summer(const climate::Climate& climate, const Sheet& sheet) {
  const auto hottest = climate.hottest_month_max_c();
  return sheet.lives_to_mean_max_c && hottest &&
         *hottest > believed(climate, *sheet.lives_to_mean_max_c);
}

}  // namespace trug::growth
