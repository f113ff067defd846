// SPDX-License-Identifier: MIT
// A place's measured days.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "base/date.h"

namespace trug {

// Screen temperatures of one day, degrees Celsius; absent where nothing was measured.
struct DailyWeather {
  std::optional<double> min_c;
  std::optional<double> max_c;
  bool operator==(const DailyWeather&) const = default;
};

// Consecutive days from `first` on; a day without measurements keeps its place.
struct DailyRecord {
  Date first;
  std::vector<DailyWeather> days;
  Date until() const { return first + Days{static_cast<int>(days.size())}; }
};

// A record as a plan is reckoned with it.
struct MeasuredWeather {
  std::shared_ptr<const DailyRecord> record;  // up to yesterday
  double spread_c = 0;                        // of a day's mean, from the record
};

}  // namespace trug
