// SPDX-License-Identifier: MIT
// Real daily records through the reader, the frost statistics and the heat sums.
//
// The folder named by the environment variable TRUG_WEATHER_DATA holds, unchanged:
//   seattle-weather.csv, weather.csv, seattle-weather-hourly-normals.csv
//     from the npm package vega-datasets 3.2.1, folder data/ (United States government data);
//   chicago.csv
//     date, temp_min, temp, temp_max of the data set Chicago in the R package modeldata 1.1.0
//     (degrees Fahrenheit), as R's write.csv(..., row.names=FALSE) writes them.
// Unless a check names another source, its figures come from a reference program of our own, run
// on the same files.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "climate/frost_record.h"
#include "climate/heat.h"
#include "climate/year_curve.h"
#include "read/daily_csv.h"

namespace trug {
namespace {

using climate::FrostDates;
using climate::FrostStatistics;
using climate::FrostWinter;

std::string file_text(const std::string& name) {
  const char* folder = std::getenv("TRUG_WEATHER_DATA");
  if (folder == nullptr) {
    ADD_FAILURE() << "TRUG_WEATHER_DATA does not name the folder of weather records";
    return {};
  }
  std::ifstream file(std::string(folder) + "/" + name, std::ios::binary);
  if (!file) ADD_FAILURE() << "no file " << name << " in " << folder;
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

// The headings and the lines that start with a word: one place of a table of several.
std::string lines_of(const std::string& text, const std::string& start) {
  std::istringstream lines(text);
  std::string line;
  std::string result;
  while (std::getline(lines, line)) {
    if (result.empty() || line.starts_with(start)) result += line + "\n";
  }
  return result;
}

DailyRecord record_of(const std::string& text, read::DegreeUnit unit) {
  read::DailyCsvOptions options;
  options.unit = unit;
  Diagnostics diagnostics;
  auto record = read::read_daily_csv(text, "record", options, diagnostics);
  EXPECT_TRUE(diagnostics.empty()) << diagnostics.render();
  if (!record) {
    ADD_FAILURE() << "the record was not read";
    return {};
  }
  return std::move(*record);
}

DailyRecord seattle() {
  return record_of(file_text("seattle-weather.csv"), read::DegreeUnit::Celsius);
}
DailyRecord new_york() {
  return record_of(lines_of(file_text("weather.csv"), "New York,"), read::DegreeUnit::Celsius);
}
DailyRecord chicago() { return record_of(file_text("chicago.csv"), read::DegreeUnit::Fahrenheit); }

std::vector<std::string> known_last(const DailyRecord& record, double threshold) {
  std::vector<std::string> dates;
  for (const FrostWinter& winter : climate::frost_winters(record, threshold, false)) {
    if (winter.last_known && winter.last) dates.push_back(iso(*winter.last));
  }
  return dates;
}

std::vector<std::string> known_first(const DailyRecord& record, double threshold) {
  std::vector<std::string> dates;
  for (const FrostWinter& winter : climate::frost_winters(record, threshold, false)) {
    if (winter.first_known && winter.first) dates.push_back(iso(*winter.first));
  }
  return dates;
}

struct Moments {
  double mean_day_of_year, spread;
};

// Mean and spread of the dates, whether or not there are enough winters to show them.
Moments moments(const std::vector<std::string>& dates) {
  std::vector<double> days;
  for (const std::string& date : dates) {
    days.push_back(climate::days_into_winter(parse_iso(date).value(), false));
  }
  double mean = 0;
  for (const double day : days) mean += day / static_cast<double>(days.size());
  double squares = 0;
  for (const double day : days) squares += (day - mean) * (day - mean);
  // 24 July is day 205 of the year.
  return {mean + 205 > 365 ? mean + 205 - 365 : mean + 205,
          std::sqrt(squares / static_cast<double>(days.size() - 1))};
}

TEST(FrostRecords, Seattle) {
  const DailyRecord record = seattle();
  ASSERT_EQ(record.days.size(), 1461U);
  using Dates = std::vector<std::string>;
  const Dates last = known_last(record, 0);
  const Dates first = known_first(record, 0);
  EXPECT_EQ(first, (Dates{"2012-11-10", "2013-11-21", "2014-11-12", "2015-11-23"}));
  EXPECT_EQ(last, (Dates{"2012-03-19", "2013-03-04", "2014-02-09", "2015-03-04"}));
  EXPECT_NEAR(moments(first).mean_day_of_year, 320.5, 1e-9);
  EXPECT_NEAR(moments(first).spread, 6.455, 0.001);
  EXPECT_NEAR(moments(last).mean_day_of_year, 61.0, 1e-9);
  EXPECT_NEAR(moments(last).spread, 15.684, 0.001);
  EXPECT_EQ(known_last(record, -2.2),
            (Dates{"2012-02-27", "2013-01-17", "2014-02-07", "2015-01-01"}));
  EXPECT_EQ(known_first(record, -2.2),
            (Dates{"2013-01-01", "2013-12-05", "2014-11-29", "2015-11-28"}));
  EXPECT_FALSE(climate::frost_statistics(record, 0, false).last.mean);  // four winters
}

TEST(FrostRecords, NewYork) {
  using Dates = std::vector<std::string>;
  const Dates last = known_last(new_york(), 0);
  const Dates first = known_first(new_york(), 0);
  EXPECT_EQ(first, (Dates{"2012-11-06", "2013-11-12", "2014-11-15", "2015-11-24"}));
  EXPECT_EQ(last, (Dates{"2012-03-27", "2013-04-04", "2014-04-16", "2015-03-29"}));
  EXPECT_NEAR(moments(first).mean_day_of_year, 318.25, 1e-9);
  EXPECT_NEAR(moments(first).spread, 7.5, 1e-9);
  EXPECT_NEAR(moments(last).mean_day_of_year, 93.5, 1e-9);
  EXPECT_NEAR(moments(last).spread, 9.0, 1e-9);
}

TEST(FrostRecords, Chicago) {
  const DailyRecord record = chicago();
  ASSERT_EQ(record.days.size(), 5698U);
  EXPECT_EQ(known_last(record, 0),
            (std::vector<std::string>{"2001-04-18", "2002-04-06", "2003-04-10", "2004-03-23",
                                      "2005-03-27", "2006-04-09", "2007-04-15", "2008-04-02",
                                      "2009-04-08", "2010-03-30", "2011-04-01", "2012-04-11",
                                      "2013-04-20", "2014-04-16", "2015-04-04", "2016-04-09"}));
  EXPECT_EQ(known_first(record, 0),
            (std::vector<std::string>{"2001-11-20", "2002-10-24", "2003-10-02", "2004-10-17",
                                      "2005-11-10", "2006-10-12", "2007-11-07", "2008-10-28",
                                      "2009-10-11", "2010-11-05", "2011-11-11", "2012-11-06",
                                      "2013-10-22", "2014-11-02", "2015-11-14"}));
  struct Row {
    double threshold, last_mean, last_spread, first_mean, first_spread;
  };
  for (const Row& row :
       {Row{0, 97.25, 7.954, 302.27, 14.200}, Row{-2.2, 88.19, 9.174, 319.00, 11.601}}) {
    SCOPED_TRACE(row.threshold);
    const FrostStatistics found = climate::frost_statistics(record, row.threshold, false);
    EXPECT_NEAR(found.last.mean.value() + 205 - 365, row.last_mean, 0.005);
    EXPECT_NEAR(found.last.spread_days.value(), row.last_spread, 0.001);
    EXPECT_NEAR(found.first.mean.value() + 205, row.first_mean, 0.005);
    EXPECT_NEAR(found.first.spread_days.value(), row.first_spread, 0.001);
  }
}

// NOAA's freeze normals 1981-2010, 32 degF, level 50: other years and neighbouring stations, so
// ten days.
TEST(FrostRecords, LieNearThePublishedNormals) {
  struct Row {
    const char* name;
    DailyRecord record;
    Date last, first;
  };
  const Row rows[] = {
      {"Chicago Midway", chicago(), make_date(2001, 4, 12), make_date(2001, 10, 28)},
      {"Seattle-Tacoma", seattle(), make_date(2001, 3, 8), make_date(2001, 11, 21)},
      {"New York Central Park", new_york(), make_date(2001, 4, 1), make_date(2001, 11, 18)}};
  for (const Row& row : rows) {
    SCOPED_TRACE(row.name);
    EXPECT_NEAR(moments(known_last(row.record, 0)).mean_day_of_year, day_of_year(row.last), 10);
    EXPECT_NEAR(moments(known_first(row.record, 0)).mean_day_of_year, day_of_year(row.first), 10);
  }
}

TEST(FrostRecords, SpreadOfDailyMeans) {
  EXPECT_NEAR(climate::record_temperatures(seattle(), false).value().spread_c, 2.5, 0.15);
  EXPECT_NEAR(climate::record_temperatures(chicago(), false).value().spread_c, 4.3, 0.15);
}

double heat_of_year(const DailyRecord& record, int year, double base) {
  double sum = 0;
  for (Date day = make_date(year, 1, 1); day < make_date(year + 1, 1, 1); day += Days{1}) {
    const auto& weather = record.days.at(static_cast<std::size_t>(days_between(record.first, day)));
    sum += climate::expected_excess((weather.min_c.value() + weather.max_c.value()) / 2, base, 0);
  }
  return sum;
}

TEST(FrostRecords, HeatOfAYear) {
  struct Row {
    const char* name;
    DailyRecord record;
    int year;
    double above_5, above_10;
  };
  const Row rows[] = {{"Seattle", seattle(), 2012, 2396.20, 1133.40},
                      {"Seattle", seattle(), 2013, 2720.70, 1369.25},
                      {"Seattle", seattle(), 2014, 2941.30, 1490.20},
                      {"Seattle", seattle(), 2015, 3017.95, 1541.05},
                      {"New York", new_york(), 2012, 3440.80, 2140.55},
                      {"Chicago", chicago(), 2010, 3312.61, 2151.25}};
  for (const Row& row : rows) {
    SCOPED_TRACE(std::string(row.name) + " " + std::to_string(row.year));
    EXPECT_NEAR(heat_of_year(row.record, row.year, 5), row.above_5, 0.02);
    EXPECT_NEAR(heat_of_year(row.record, row.year, 10), row.above_10, 0.02);
  }
}

TEST(FrostRecords, DayOnWhichHeatIsReached) {
  const DailyRecord record = seattle();
  for (const char* reached : {"2012-06-19", "2013-06-04", "2014-05-28", "2015-05-19"}) {
    const int year = year_of(parse_iso(reached).value());
    double sum = 0;
    Date day = make_date(year, 1, 1);
    for (;; day += Days{1}) {
      const auto& weather =
          record.days.at(static_cast<std::size_t>(days_between(record.first, day)));
      sum += climate::expected_excess((weather.min_c.value() + weather.max_c.value()) / 2, 5, 0);
      if (sum >= 700) break;
    }
    EXPECT_EQ(iso(day), reached);
  }
}

// NCEI's hourly normals 1981-2010 of Seattle: twelve means, and the curve through them against the
// 365 daily means they came from.
TEST(FrostRecords, CurveThroughTheMonthsMeetsTheDays) {
  std::istringstream lines(file_text("seattle-weather-hourly-normals.csv"));
  std::string line;
  std::getline(lines, line);
  ASSERT_EQ(line.substr(0, 25), "date,pressure,temperature");
  std::array<double, 365> sums{};
  std::array<int, 365> hours{};
  while (std::getline(lines, line)) {
    const Date day = parse_iso(line.substr(0, 10)).value();
    const std::size_t from = line.find(',', line.find(',') + 1) + 1;
    const auto index = static_cast<std::size_t>(day_of_year(day) - 1);
    sums[index] += std::stod(line.substr(from));
    ++hours[index];
  }
  std::array<double, 12> months{};
  std::array<int, 12> days{};
  for (std::size_t i = 0; i < 365; ++i) {
    const std::size_t month = month_of(make_date(2010, 1, 1) + Days{static_cast<int>(i)}) - 1;
    sums[i] /= hours[i];
    months[month] += sums[i];
    ++days[month];
  }
  const std::array<double, 12> expected = {5.391,  6.113,  7.742,  9.812,  12.891, 15.565,
                                           18.268, 18.405, 15.673, 11.239, 7.323,  4.740};
  for (std::size_t i = 0; i < 12; ++i) {
    months[i] /= days[i];
    EXPECT_NEAR(months[i], expected[i], 0.001);
  }
  const auto curve = climate::YearCurve::from_months(months);
  double squares = 0;
  double worst = 0;
  for (std::size_t i = 0; i < 365; ++i) {
    const double off = curve.on(make_date(2010, 1, 1) + Days{static_cast<int>(i)}) - sums[i];
    squares += off * off;
    worst = std::max(worst, std::abs(off));
  }
  EXPECT_LT(std::sqrt(squares / 365), 0.20);
  EXPECT_LT(worst, 0.55);
}

}  // namespace
}  // namespace trug
