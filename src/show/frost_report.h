// SPDX-License-Identifier: MIT
// One daily record, looked at once for all that `trug frost` shows of it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "climate/frost_record.h"
#include "garden/weather.h"

namespace trug::show {

// Plans count from garden frost: a screen minimum at or below this (growth models, 4 and 9).
inline constexpr double kGardenFrostC = 2;

// Consecutive days without a minimum.
struct Gap {
  Date from;
  int days = 0;
  bool operator==(const Gap&) const = default;
};

struct ColdNight {
  Date day;
  double celsius = 0;
};

// One record, looked at once.
struct FrostReport {
  std::string file;
  DailyRecord record;
  bool southern = false;
  std::vector<climate::FrostStatistics> thresholds;  // the warmest first
  climate::FrostStatistics garden;
  std::vector<Gap> gaps;
  std::optional<climate::RecordTemperatures> temperatures;
  std::optional<double> usual_coldest_c;
  std::optional<ColdNight> coldest;  // of all; absent: the record has no minimum

  int days_missing() const;
};

// Thresholds are screen minima, degrees Celsius, in any order.
FrostReport frost_report(std::string file, DailyRecord record, std::vector<double> thresholds,
                         bool southern);

// Rounded to tenths, never "-0.0".
double tenths(double value);

}  // namespace trug::show
