// SPDX-License-Identifier: MIT
#include "climate/frost_record.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

#include "climate/frost.h"
#include "climate/year_curve.h"

namespace trug::climate {
namespace {

using namespace std::chrono;

constexpr int kMostMissing = 9;
constexpr int kFewestDaysOfMonth = 20;
constexpr double kLevelsDiffer = 7;
constexpr double kHardFrost = -2;
constexpr double kLeaning = -0.3;
constexpr std::array<double, 3> kLevels = {0.1, 0.5, 0.9};

// 1 to 365 on the calendar without 29 February.
int plain_day_of_year(MonthDay day) { return day_of_year(on(day, 2001)); }

std::optional<double> minimum_on(const DailyRecord& record, Date day) {
  if (day < record.first || day >= record.until()) return std::nullopt;
  return record.days[static_cast<std::size_t>(days_between(record.first, day))].min_c;
}

std::optional<double> mean_of(const DailyWeather& day) {
  if (!day.min_c || !day.max_c) return std::nullopt;
  return (*day.min_c + *day.max_c) / 2;
}

// The frost winters that hold a day of the record, by the year in which they start.
std::vector<int> winter_years(const DailyRecord& record, bool southern) {
  std::vector<int> years;
  if (record.days.empty()) return years;
  const MonthDay start = frost_winter_start(southern);
  int year = year_of(record.first);
  if (record.first < on(start, year)) --year;
  for (; on(start, year) < record.until(); ++year) years.push_back(year);
  return years;
}

FrostWinter frost_winter(const DailyRecord& record, double threshold_c, int year, bool southern) {
  FrostWinter winter{.year = year};
  const Date until = on(frost_winter_start(southern), year + 1);
  int missing_before_first = 0;
  int missing_after_last = 0;
  for (Date day = on(frost_winter_start(southern), year); day < until; day += Days{1}) {
    const auto minimum = minimum_on(record, day);
    if (!minimum) {
      ++missing_after_last;
      if (!winter.first) ++missing_before_first;
    } else if (*minimum <= threshold_c) {
      if (!winter.first) winter.first = day;
      winter.last = day;
      missing_after_last = 0;
    }
  }
  winter.first_known = missing_before_first <= kMostMissing;
  winter.last_known = missing_after_last <= kMostMissing;
  return winter;
}

// Last frosts that never came count as early, first frosts that never came as late.
FrostDates::Levels counted_levels(const std::vector<double>& sorted, int before, int after) {
  FrostDates::Levels levels;
  for (std::size_t i = 0; i < kLevels.size(); ++i) {
    levels[i] = counted_level(sorted, kLevels[i], before, after);
  }
  return levels;
}

// The same of a normal distribution and the share of winters that have frost.
FrostDates::Levels normal_levels(double mean, double spread, double share, Frost which) {
  FrostDates::Levels levels;
  for (std::size_t i = 0; i < kLevels.size(); ++i) {
    // The probability of a frost after the day (last) or before it (first).
    const double risk = which == Frost::Last ? 1 - kLevels[i] : kLevels[i];
    if (risk >= share) continue;
    const double p = which == Frost::Last ? 1 - risk / share : risk / share;
    levels[i] = mean + spread * normal_quantile(p);
  }
  return levels;
}

struct Moments {
  double mean = 0;
  double spread = 0;
  double skewness = 0;
};

Moments moments_of(const std::vector<double>& values) {
  const double n = static_cast<double>(values.size());
  Moments result;
  for (const double value : values) result.mean += value / n;
  double squares = 0;
  double cubes = 0;
  for (const double value : values) {
    const double off = value - result.mean;
    squares += off * off;
    cubes += off * off * off;
  }
  result.spread = std::sqrt(squares / (n - 1));
  if (squares > 0) result.skewness = (cubes / n) / std::pow(squares / n, 1.5);
  return result;
}

bool differ(const FrostDates::Levels& a, const FrostDates::Levels& b) {
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (a[i] && b[i] && std::abs(*a[i] - *b[i]) > kLevelsDiffer) return true;
  }
  return false;
}

// Root of the mean square of a day's mean about the curve, in the months of growth.
double spread_about(const YearCurve& curve, const DailyRecord& record, bool southern) {
  double squares = 0;
  int days = 0;
  for (std::size_t i = 0; i < record.days.size(); ++i) {
    const Date date = record.first + Days{static_cast<int>(i)};
    const auto mean = mean_of(record.days[i]);
    const unsigned month = southern ? (month_of(date) + 5) % 12 + 1 : month_of(date);
    if (!mean || month < 3 || month > 10) continue;
    squares += (*mean - curve.on(date)) * (*mean - curve.on(date));
    ++days;
  }
  return std::sqrt(squares / days);
}

}  // namespace

std::optional<double> counted_level(const std::vector<double>& sorted, double share, int before,
                                    int after) {
  if (sorted.empty()) return std::nullopt;
  const double last = static_cast<double>(sorted.size());
  const double rank = share * (last + before + after) + 0.5 - before;  // 1 is the first value
  if ((rank < 1 && before > 0) || (rank > last && after > 0)) return std::nullopt;
  const double inside = std::clamp(rank, 1.0, last);
  const auto low = static_cast<std::size_t>(inside);
  const double part = inside - static_cast<double>(low);
  const double next = low < sorted.size() ? sorted[low] : sorted.back();
  return sorted[low - 1] + part * (next - sorted[low - 1]);
}

double FrostDates::frost_share() const {
  return winters > 0 ? static_cast<double>(with_frost) / winters : 0;
}

MonthDay winter_day(double days, bool southern) {
  const int start = plain_day_of_year(frost_winter_start(southern)) - 1;
  const int day = (start + static_cast<int>(std::lround(days))) % 365;
  const year_month_day ymd{make_date(2001, 1, 1) + Days{(day + 365) % 365}};
  return ymd.month() / ymd.day();
}

int days_into_winter(Date day, bool southern) {
  const year_month_day ymd{day};
  const int start = plain_day_of_year(frost_winter_start(southern));
  return (plain_day_of_year(ymd.month() / ymd.day()) - start + 365) % 365;
}

std::vector<FrostWinter> frost_winters(const DailyRecord& record, double threshold_c,
                                       bool southern) {
  std::vector<FrostWinter> winters;
  for (const int year : winter_years(record, southern)) {
    winters.push_back(frost_winter(record, threshold_c, year, southern));
  }
  return winters;
}

FrostDates frost_dates(std::vector<double> days, int winters, Frost which, double threshold_c) {
  FrostDates result{.winters = winters, .with_frost = static_cast<int>(days.size())};
  if (days.empty()) return result;
  std::ranges::sort(days);
  result.earliest = days.front();
  result.latest = days.back();
  if (result.with_frost < kFewestForSpread) return result;
  const Moments moments = moments_of(days);
  result.mean = moments.mean;
  result.spread_days = moments.spread;
  result.skewness = moments.skewness;
  if (result.with_frost < kFewestForLevels) return result;
  const auto normal = normal_levels(moments.mean, moments.spread, result.frost_share(), which);
  const int without = winters - result.with_frost;
  const auto counted =
      counted_levels(days, which == Frost::Last ? without : 0, which == Frost::First ? without : 0);
  result.skewed = which == Frost::Last && threshold_c <= kHardFrost && moments.skewness <= kLeaning;
  result.levels = result.skewed ? counted : normal;
  if (result.with_frost >= kFewestForCounted) {
    result.counted = counted;
    result.levels_differ = differ(normal, counted);
  }
  return result;
}

FrostStatistics frost_statistics(const DailyRecord& record, double threshold_c, bool southern) {
  std::vector<double> last;
  std::vector<double> first;
  int last_winters = 0;
  int first_winters = 0;
  for (const FrostWinter& winter : frost_winters(record, threshold_c, southern)) {
    if (winter.last_known) {
      ++last_winters;
      if (winter.last) last.push_back(days_into_winter(*winter.last, southern));
    }
    if (winter.first_known) {
      ++first_winters;
      if (winter.first) first.push_back(days_into_winter(*winter.first, southern));
    }
  }
  return {threshold_c, frost_dates(std::move(last), last_winters, Frost::Last, threshold_c),
          frost_dates(std::move(first), first_winters, Frost::First, threshold_c)};
}

std::optional<RecordTemperatures> record_temperatures(const DailyRecord& record, bool southern) {
  RecordTemperatures result;
  std::array<int, 12> count{};
  for (std::size_t i = 0; i < record.days.size(); ++i) {
    const DailyWeather& day = record.days[i];
    if (!mean_of(day)) continue;
    const std::size_t month = month_of(record.first + Days{static_cast<int>(i)}) - 1;
    result.min_c[month] += *day.min_c;
    result.max_c[month] += *day.max_c;
    ++count[month];
  }
  for (std::size_t month = 0; month < 12; ++month) {
    if (count[month] < kFewestDaysOfMonth) return std::nullopt;
    result.min_c[month] /= count[month];
    result.max_c[month] /= count[month];
    result.mean_c[month] = (result.min_c[month] + result.max_c[month]) / 2;
  }
  result.spread_c = spread_about(YearCurve::from_months(result.mean_c), record, southern);
  return result;
}

std::optional<double> usual_coldest_c(const DailyRecord& record, bool southern) {
  double sum = 0;
  int winters = 0;
  for (const int year : winter_years(record, southern)) {
    const Date until = on(frost_winter_start(southern), year + 1);
    std::optional<double> coldest;
    int missing = 0;
    for (Date day = on(frost_winter_start(southern), year); day < until; day += Days{1}) {
      const auto minimum = minimum_on(record, day);
      if (!minimum) ++missing;
      if (minimum && (!coldest || *minimum < *coldest)) coldest = minimum;
    }
    if (missing > kMostMissing || !coldest) continue;
    sum += *coldest;
    ++winters;
  }
  return winters > 0 ? std::optional(sum / winters) : std::nullopt;
}

DailyRecord last_years(const DailyRecord& record, int years) {
  if (record.days.empty()) return record;
  const year_month_day end{record.until()};
  const Date from =
      std::max(record.first, on(end.month() / end.day(), year_of(record.until()) - years));
  return {from, {record.days.begin() + days_between(record.first, from), record.days.end()}};
}

}  // namespace trug::climate
