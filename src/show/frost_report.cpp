// SPDX-License-Identifier: MIT
#include "show/frost_report.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

namespace trug::show {

int FrostReport::days_missing() const {
  int days = 0;
  for (const Gap& gap : gaps) days += gap.days;
  return days;
}

FrostReport frost_report(std::string file, DailyRecord record, std::vector<double> thresholds,
                         bool southern) {
  std::ranges::sort(thresholds, std::greater{});
  thresholds.erase(std::unique(thresholds.begin(), thresholds.end()), thresholds.end());
  FrostReport report{.file = std::move(file), .record = std::move(record), .southern = southern};
  for (const double threshold : thresholds) {
    report.thresholds.push_back(climate::frost_statistics(report.record, threshold, southern));
  }
  report.garden = climate::frost_statistics(report.record, kGardenFrostC, southern);
  report.temperatures = climate::record_temperatures(report.record, southern);
  report.usual_coldest_c = climate::usual_coldest_c(report.record, southern);
  Date day = report.record.first;
  bool missing_before = false;
  for (const DailyWeather& weather : report.record.days) {
    if (!weather.min_c) {
      if (!missing_before) report.gaps.push_back({day, 0});
      ++report.gaps.back().days;
    } else if (!report.coldest || *weather.min_c < report.coldest->celsius) {
      report.coldest = ColdNight{day, *weather.min_c};
    }
    missing_before = !weather.min_c;
    day += Days{1};
  }
  return report;
}

double tenths(double value) {
  const double rounded = std::round(value * 10) / 10;
  return rounded == 0 ? 0 : rounded;
}

}  // namespace trug::show
