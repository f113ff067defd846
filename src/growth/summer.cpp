// SPDX-License-Identifier: MIT
#include "growth/summer.h"

#include "climate/soil.h"

namespace trug::growth {
namespace {

constexpr int kGerminationDays = 10;
constexpr double kFrameGain = 2.5;
constexpr int kHeldDays = 7;
constexpr double kCooler = 3;  // memory

// What heat is compared with: the limit, and more where the maxima are a guess.
double believed(const climate::Climate& climate, double limit_c) {
  return limit_c + (climate.knows_maxima() ? 0 : kGuessedMaximaC);
}

}  // namespace

double soil_after_sowing_c(const climate::Climate& climate, Raised raised, Date sown) {
  double sum = 0;
  for (int i = 1; i <= kGerminationDays; ++i) sum += climate::soil_c(climate, sown + Days{i});
  return sum / kGerminationDays + (raised == Raised::Frame ? kFrameGain : 0);
}

bool too_warm_to_sow(const climate::Climate& climate, const Sheet& sheet, const Way& way,
                     Date sown) {
  const bool begun = way.method == Method::Seed || way.method == Method::Bulb;
  if (!sheet.germination_max_soil_c || !climate.has_temperatures() || !begun) return false;
  if (way.raised == Raised::Heated) return false;
  return soil_after_sowing_c(climate, way.raised, sown) > *sheet.germination_max_soil_c;
}

std::vector<DateRange> too_hot(const climate::Season& season, const Sheet& sheet, Date from) {
  const climate::Climate& climate = season.climate();
  std::vector<DateRange> spells;
  if (!sheet.stop_above_max_c || !climate.has_temperatures()) return spells;
  const double limit = believed(climate, *sheet.stop_above_max_c);
  const Date end = season.range().until;
  int held = 0;
  bool hot = false;
  for (Date day = from; day < end; day += Days{1}) {
    const double maximum = climate.likely_max_c(day);
    if (hot && maximum < limit - kCooler) {
      spells.back().until = day;
      hot = false;
    }
    held = maximum > limit ? held + 1 : 0;
    if (hot || held < kHeldDays) continue;
    spells.push_back({day - Days{kHeldDays - 1}, end});
    if (sheet.when_hot == WhenHot::Ends) break;
    hot = true;
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
