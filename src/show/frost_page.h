// SPDX-License-Identifier: MIT
// What `trug frost` shows of a daily record: for people, for programs, and for a plan to paste.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "climate/frost_record.h"
#include "garden/weather.h"
#include "show/json.h"
#include "show/pages.h"

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

FrostReport frost_report(std::string file, DailyRecord record, std::vector<double> thresholds,
                         bool southern);

// Last and first frosts at each threshold, how they lie (a mark for each winter), the months'
// temperatures and the cold. What a short record cannot tell is said, not shown.
std::string frost_page(const FrostReport& report, Style style);

// "trug.frost/1". Days of the year are "MM-DD".
std::string frost_json(const DocumentHead& head, const FrostReport& report);

// The [place] table of a plan, as far as the record tells it; the rest as comments. Without
// `latitude`, degrees, its line is a comment too.
std::string place_block(const FrostReport& report, std::optional<double> latitude);

}  // namespace trug::show
