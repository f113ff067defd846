// SPDX-License-Identifier: MIT
// What a place's daily record says: when frosts begin and end, how warm the months are.
//
// Frost winters run from 24 July to 23 July (south: 24 January to 23 January) and bear nine missing
// days, as in the freeze tables of the Utah Climate Center. Dates within one are counted in days
// from its start on a calendar without 29 February (it counts as the 28th), so that leap years move
// nothing and no date wraps round at the new year.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "base/date.h"
#include "garden/sheet.h"
#include "garden/weather.h"

namespace trug::climate {

// One frost winter at one threshold.
struct FrostWinter {
  int year = 0;  // in which it starts
  // Whether the record tells the date, or that there was none: fewer than ten days are missing
  // before the first frost (after the last; all through where there was none).
  bool first_known = false;
  bool last_known = false;
  std::optional<Date> first;  // absent: no frost seen
  std::optional<Date> last;
};

// How many winters with frost it takes to say the mean and the spread of their dates, the levels,
// and the levels as they were counted; fewer tell the extremes alone.
inline constexpr int kFewestForSpread = 5;
inline constexpr int kFewestForLevels = 10;
inline constexpr int kFewestForCounted = 20;

// The days of the last, or of the first, frosts over the winters that tell them.
struct FrostDates {
  // Days from the start of the winter reached in 10, 50 and 90 winters in 100: for last frosts the
  // ninth in ten is the safe one. Absent: in too many winters there is no frost at all.
  using Levels = std::array<std::optional<double>, 3>;

  int winters = 0;     // that tell
  int with_frost = 0;  // of them
  std::optional<double> earliest, latest;
  std::optional<double> mean, spread_days;  // standard deviation, n - 1
  std::optional<double> skewness;
  std::optional<Levels> levels;   // of the normal distribution, or counted where `skewed`
  std::optional<Levels> counted;  // Hazen's plotting positions, interpolated
  // Last frosts of -2 degC and harder that lean to one side (skewness -0.3 or beyond), as in mild
  // maritime places, where the normal distribution is up to 8 days off: the levels are counted.
  bool skewed = false;
  // Some counted level is more than seven days from the normal distribution's.
  bool levels_differ = false;

  double frost_share() const;  // winters with frost among those that tell; 0 where none tells
  // More than one winter in ten without frost: say so wherever these dates are shown.
  bool often_without_frost() const { return winters > 0 && frost_share() < 0.9; }
};

struct FrostStatistics {
  double threshold_c = 0;
  FrostDates last;
  FrostDates first;
};

// The winters the record touches, in order. Frost is a minimum at or below the threshold.
std::vector<FrostWinter> frost_winters(const DailyRecord& record, double threshold_c,
                                       bool southern);
FrostStatistics frost_statistics(const DailyRecord& record, double threshold_c, bool southern);
// The statistics of dates already found: `days` into the winter of those that had frost, among
// `winters` that tell.
FrostDates frost_dates(std::vector<double> days, int winters, Frost which, double threshold_c);

// The value reached in `share` (0 to 1) of all cases by Hazen's plotting positions (i - 0.5) / n,
// straight lines between them. Besides those of `sorted` there are cases without a value: `before`
// count as earlier than all, `after` as later. nullopt: the share falls among these, or there is no
// value.
std::optional<double> counted_level(const std::vector<double>& sorted, double share, int before,
                                    int after);

// A day counted from the start of the winter, rounded, as a day of the year, and back.
MonthDay winter_day(double days, bool southern);
int days_into_winter(Date day, bool southern);

// Averages of all days that have both a minimum and a maximum.
struct RecordTemperatures {
  std::array<double, 12> mean_c{}, max_c{}, min_c{};  // by month; the mean is (max + min) / 2
  // Standard deviation of a day's mean about the smooth curve through the months, March to October
  // (south: September to April).
  double spread_c = 0;
};
// nullopt where a month of the year has fewer than 20 such days in all.
std::optional<RecordTemperatures> record_temperatures(const DailyRecord& record, bool southern);

// The average of each winter's coldest night, over winters with fewer than ten days missing.
std::optional<double> usual_coldest_c(const DailyRecord& record, bool southern);

// The record's last `years` years. Frosts grow rarer (memory: last frosts one to three days earlier
// a decade), so thirty years describe a place better than a hundred.
DailyRecord last_years(const DailyRecord& record, int years);

}  // namespace trug::climate
