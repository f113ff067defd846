// SPDX-License-Identifier: MIT
#include "climate/frost_record.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "climate/frost.h"

namespace trug::climate {
namespace {

using namespace std::chrono;

Date day(const char* text) { return parse_iso(text).value(); }

// Days of 5 to 15 degrees, but for the minima named.
DailyRecord record(const char* from, const char* until,
                   const std::map<std::string, double>& minima = {}) {
  DailyRecord result{day(from), {}};
  result.days.resize(static_cast<std::size_t>(days_between(day(from), day(until))), {5.0, 15.0});
  for (const auto& [date, minimum] : minima) {
    result.days[static_cast<std::size_t>(days_between(day(from), day(date.c_str())))].min_c =
        minimum;
  }
  return result;
}

void lose(DailyRecord& record, const char* from, int days) {
  for (int i = 0; i < days; ++i) {
    record.days[static_cast<std::size_t>(days_between(record.first, day(from)) + i)] = {};
  }
}

std::vector<double> offsets(std::initializer_list<const char*> dates) {
  std::vector<double> result;
  for (const char* date : dates) result.push_back(days_into_winter(day(date), false));
  return result;
}

// The day of the year of an offset, past 365 not wrapped for first frosts, wrapped for last ones.
double last_day_of_year(double offset) { return offset + 205 - 365; }
double first_day_of_year(double offset) { return offset + 205; }

TEST(FrostWinters, RunFromLateJulyToLateJuly) {
  const DailyRecord days = record("2020-07-24", "2022-07-24",
                                  {{"2020-10-30", 0.0},  // at the threshold is frost
                                   {"2021-05-02", -1.5},
                                   {"2021-07-23", -0.5},
                                   {"2021-07-24", -0.5},
                                   {"2022-04-04", 0.1}});  // above it is none
  const auto winters = frost_winters(days, 0, false);
  ASSERT_EQ(winters.size(), 2U);
  EXPECT_EQ(winters[0].year, 2020);
  EXPECT_EQ(winters[0].first, day("2020-10-30"));
  EXPECT_EQ(winters[0].last, day("2021-07-23"));
  EXPECT_EQ(winters[1].first, day("2021-07-24"));
  EXPECT_EQ(winters[1].last, day("2021-07-24"));
  for (const FrostWinter& winter : winters) EXPECT_TRUE(winter.first_known && winter.last_known);
  const auto harder = frost_winters(days, -1, false);
  EXPECT_EQ(harder[0].first, day("2021-05-02"));
  EXPECT_FALSE(harder[1].first);
  EXPECT_TRUE(harder[1].first_known && harder[1].last_known);
}

// Canberra Airport (ACORN-SAT): frosts of -0.9 on 5 November 1913, -1.0 on 30 April 1914 and -2.6
// on 21 October 1914 end the winter of 1913, begin and end that of 1914. The days between are made
// up.
TEST(FrostWinters, SouthernWintersRunFromLateJanuary) {
  const auto winters = frost_winters(
      record(
          "1913-01-24", "1915-01-24",
          {{"1913-06-20", -4}, {"1913-11-05", -0.9}, {"1914-04-30", -1.0}, {"1914-10-21", -2.6}}),
      0, true);
  ASSERT_EQ(winters.size(), 2U);
  EXPECT_EQ(winters[0].last, day("1913-11-05"));
  EXPECT_EQ(winters[1].year, 1914);
  EXPECT_EQ(winters[1].first, day("1914-04-30"));
  EXPECT_EQ(winters[1].last, day("1914-10-21"));
}

TEST(FrostWinters, HalfWintersAtTheEndsTellOneDate) {
  const auto winters = frost_winters(
      record("2020-01-01", "2021-12-31",
             {{"2020-03-20", -1}, {"2020-11-11", -1}, {"2021-04-01", -1}, {"2021-11-20", -1}}),
      0, false);
  ASSERT_EQ(winters.size(), 3U);
  EXPECT_FALSE(winters[0].first_known);
  EXPECT_TRUE(winters[0].last_known);
  EXPECT_TRUE(winters[1].first_known && winters[1].last_known);
  EXPECT_TRUE(winters[2].first_known);
  EXPECT_FALSE(winters[2].last_known);
}

TEST(FrostWinters, NineMissingDaysAreBorneTenAreNot) {
  const auto known = [](const char* from, int days) {
    DailyRecord lossy =
        record("2020-07-24", "2021-07-24", {{"2020-11-01", -1}, {"2021-04-01", -1}});
    lose(lossy, from, days);
    const FrostWinter winter = frost_winters(lossy, 0, false).at(0);
    return std::pair(winter.first_known, winter.last_known);
  };
  EXPECT_EQ(known("2020-09-01", 9), std::pair(true, true));
  EXPECT_EQ(known("2020-09-01", 10), std::pair(false, true));
  EXPECT_EQ(known("2021-05-01", 9), std::pair(true, true));
  EXPECT_EQ(known("2021-05-01", 10), std::pair(true, false));
  EXPECT_EQ(known("2021-01-01", 60), std::pair(true, true));  // between the two nothing is asked
}

TEST(FrostWinters, AFrostlessWinterMustBeWhole) {
  DailyRecord lossy = record("2020-07-24", "2021-07-24");
  lose(lossy, "2021-01-01", 9);
  EXPECT_TRUE(frost_winters(lossy, 0, false).at(0).first_known);
  lose(lossy, "2021-02-01", 1);
  EXPECT_FALSE(frost_winters(lossy, 0, false).at(0).first_known);
  EXPECT_FALSE(frost_winters(lossy, 0, false).at(0).last_known);
}

TEST(WinterDays, LeapYearsMoveNothing) {
  EXPECT_EQ(days_into_winter(day("2023-07-24"), false), 0);
  EXPECT_EQ(days_into_winter(day("2024-07-23"), false), 364);
  EXPECT_EQ(days_into_winter(day("2024-02-29"), false), days_into_winter(day("2024-02-28"), false));
  EXPECT_EQ(days_into_winter(day("2024-03-01"), false), days_into_winter(day("2023-03-01"), false));
  EXPECT_EQ(days_into_winter(day("2024-01-24"), true), 0);
  EXPECT_EQ(days_into_winter(day("2024-12-31"), true), days_into_winter(day("2023-12-31"), true));
  for (const bool southern : {false, true}) {
    for (Date date = day("2023-01-01"); date < day("2024-01-01"); date += Days{1}) {
      EXPECT_EQ(on(winter_day(days_into_winter(date, southern), southern), 2023), date);
    }
  }
}

// The frosts of Chicago 2001 to 2016, from the daily minima in the R package modeldata 1.1.0; the
// expected figures are the arithmetic of a normal distribution over them.
TEST(FrostDates, NormalLevelsOfChicago) {
  const FrostDates last = frost_dates(
      offsets({"2001-04-18", "2002-04-06", "2003-04-10", "2004-03-23", "2005-03-27", "2006-04-09",
               "2007-04-15", "2008-04-02", "2009-04-08", "2010-03-30", "2011-04-01", "2012-04-11",
               "2013-04-20", "2014-04-16", "2015-04-04", "2016-04-09"}),
      16, Frost::Last, 0);
  EXPECT_NEAR(last_day_of_year(last.mean.value()), 97.25, 1e-9);
  EXPECT_NEAR(last.spread_days.value(), 7.954, 0.001);
  EXPECT_EQ(short_day(winter_day(last.levels.value()[0].value(), false)), "28 March");
  EXPECT_EQ(short_day(winter_day(last.levels.value()[1].value(), false)), "7 April");
  EXPECT_EQ(short_day(winter_day(last.levels.value()[2].value(), false)), "17 April");
  EXPECT_FALSE(last.counted);  // under 20 winters
  EXPECT_EQ(winter_day(last.earliest.value(), false), March / 23);
  EXPECT_EQ(winter_day(last.latest.value(), false), April / 20);

  const FrostDates first =
      frost_dates(offsets({"2001-11-20", "2002-10-24", "2003-10-02", "2004-10-17", "2005-11-10",
                           "2006-10-12", "2007-11-07", "2008-10-28", "2009-10-11", "2010-11-05",
                           "2011-11-11", "2012-11-06", "2013-10-22", "2014-11-02", "2015-11-14"}),
                  15, Frost::First, 0);
  EXPECT_NEAR(first_day_of_year(first.mean.value()), 302.27, 0.005);
  EXPECT_NEAR(first.spread_days.value(), 14.200, 0.001);
  EXPECT_EQ(short_day(winter_day(first.levels.value()[0].value(), false)), "11 October");
  EXPECT_EQ(short_day(winter_day(first.levels.value()[1].value(), false)), "29 October");
  EXPECT_EQ(short_day(winter_day(first.levels.value()[2].value(), false)), "16 November");
}

TEST(FrostDates, SayLessOfShortRecords) {
  struct Row {
    int winters;
    bool mean, levels, counted;
  };
  const Row rows[] = {{1, false, false, false}, {4, false, false, false}, {5, true, false, false},
                      {9, true, false, false},  {10, true, true, false},  {19, true, true, false},
                      {20, true, true, true}};
  for (const Row& row : rows) {
    SCOPED_TRACE(row.winters);
    std::vector<double> days;
    for (int i = 0; i < row.winters; ++i) days.push_back(280 + i);
    const FrostDates dates = frost_dates(days, row.winters, Frost::Last, 0);
    EXPECT_EQ(dates.earliest, 280);
    EXPECT_EQ(dates.latest, 279 + row.winters);
    EXPECT_EQ(dates.mean.has_value(), row.mean);
    EXPECT_EQ(dates.spread_days.has_value(), row.mean);
    EXPECT_EQ(dates.levels.has_value(), row.levels);
    EXPECT_EQ(dates.counted.has_value(), row.counted);
  }
  const FrostDates none = frost_dates({}, 6, Frost::Last, 0);
  EXPECT_FALSE(none.earliest);
  EXPECT_TRUE(none.often_without_frost());
  EXPECT_FALSE(frost_dates({}, 0, Frost::Last, 0).often_without_frost());
}

// Hazen: the i-th of n stands at (i - 0.5) / n; of 20, the tenth in 100 halfway from 2nd to 3rd.
TEST(FrostDates, CountedLevels) {
  std::vector<double> days;
  for (int i = 1; i <= 20; ++i) days.push_back(10 * i);
  const FrostDates dates = frost_dates(days, 20, Frost::First, 0);
  EXPECT_NEAR(dates.counted.value()[0].value(), 25, 1e-9);
  EXPECT_NEAR(dates.counted.value()[1].value(), 105, 1e-9);
  EXPECT_NEAR(dates.counted.value()[2].value(), 185, 1e-9);
  EXPECT_FALSE(dates.skewed);
  // Mean 105, spread 59.16: the normal levels are 29.2, 105, 180.8.
  EXPECT_NEAR(dates.levels.value()[0].value(), 105 - 1.2815516 * 59.1608, 0.01);
  EXPECT_FALSE(dates.levels_differ);
}

TEST(FrostDates, SaysWhenCountedLevelsDiffer) {
  std::vector<double> days(18, 100);
  days.push_back(200);
  days.push_back(300);
  EXPECT_TRUE(frost_dates(days, 20, Frost::First, 0).levels_differ);
}

// Frost in 16 winters of 20, mean 307.5: a risk of one in ten is 1/8 of the frosty winters, and in
// one winter of five nothing comes to wait for, so the tenth level does not exist. Counted, the
// four frostless winters stand before all dates: half-way is the tenth and eleventh of 20, which
// are the sixth and seventh dates.
TEST(FrostDates, FrostlessWintersCountAsEarly) {
  std::vector<double> days;
  for (int i = 0; i < 16; ++i) days.push_back(300 + i);
  FrostDates dates = frost_dates(days, 20, Frost::Last, 0);
  EXPECT_DOUBLE_EQ(dates.frost_share(), 0.8);
  EXPECT_TRUE(dates.often_without_frost());
  EXPECT_FALSE(dates.levels.value()[0]);
  EXPECT_NEAR(dates.levels.value()[1].value(),
              307.5 + dates.spread_days.value() * normal_quantile(1 - 0.5 / 0.8), 1e-9);
  EXPECT_NEAR(dates.levels.value()[2].value(),
              307.5 + dates.spread_days.value() * normal_quantile(1 - 0.1 / 0.8), 1e-9);
  for (int i = 16; i < 20; ++i) days.push_back(300 + i);
  dates = frost_dates(days, 25, Frost::Last, 0);
  EXPECT_FALSE(dates.counted.value()[0]);
  EXPECT_NEAR(dates.counted.value()[1].value(), 307, 1e-9);  // 0.5 x 25 + 0.5 - 5 = 8th
  EXPECT_NEAR(dates.counted.value()[2].value(), 317, 1e-9);
}

// First frosts that never came count as late.
TEST(FrostDates, FrostlessWintersCountAsLate) {
  std::vector<double> days;
  for (int i = 0; i < 20; ++i) days.push_back(100 + i);
  const FrostDates dates = frost_dates(days, 25, Frost::First, 0);
  EXPECT_NEAR(dates.counted.value()[0].value(), 102, 1e-9);  // 0.1 x 25 + 0.5 = 3rd
  EXPECT_NEAR(dates.counted.value()[1].value(), 112, 1e-9);
  EXPECT_FALSE(dates.counted.value()[2]);
  EXPECT_FALSE(dates.levels.value()[2]);
  EXPECT_NEAR(dates.levels.value()[0].value(),
              109.5 + dates.spread_days.value() * normal_quantile(0.1 / 0.8), 1e-9);
}

TEST(FrostDates, LeaningHardLastFrostsAreCounted) {
  const std::vector<double> leaning = {180, 215, 235, 240, 243, 246, 248, 250, 251, 252};
  const FrostDates hard = frost_dates(leaning, 10, Frost::Last, -2.2);
  EXPECT_LT(hard.skewness.value(), -1);
  EXPECT_TRUE(hard.skewed);
  EXPECT_NEAR(hard.levels.value()[1].value(), 244.5, 1e-9);
  EXPECT_NEAR(hard.levels.value()[0].value(), 197.5, 1e-9);
  // Not at 0 degC, not for first frosts, not where they do not lean.
  EXPECT_FALSE(frost_dates(leaning, 10, Frost::Last, 0).skewed);
  EXPECT_FALSE(frost_dates(leaning, 10, Frost::First, -2.2).skewed);
  EXPECT_FALSE(frost_dates({1, 2, 3, 4, 5, 6, 7, 8, 9, 10}, 10, Frost::Last, -2.2).skewed);
}

TEST(FrostStatistics, GatherTheWintersThatTell) {
  const FrostStatistics statistics = frost_statistics(
      record("2020-01-01", "2021-12-31",
             {{"2020-03-20", -1}, {"2020-11-11", -1}, {"2021-04-01", -1}, {"2021-11-20", -1}}),
      0, false);
  EXPECT_EQ(statistics.last.winters, 2);
  EXPECT_EQ(statistics.first.winters, 2);
  EXPECT_EQ(winter_day(statistics.last.earliest.value(), false), March / 20);
  EXPECT_EQ(winter_day(statistics.last.latest.value(), false), April / 1);
  EXPECT_EQ(winter_day(statistics.first.latest.value(), false), November / 20);
}

TEST(RecordTemperatures, AreMonthlyAverages) {
  DailyRecord days = record("2019-01-01", "2023-01-01");
  for (std::size_t i = 0; i < days.days.size(); ++i) {
    const unsigned month = month_of(days.first + Days{static_cast<int>(i)});
    days.days[i] = {month * 1.0, month * 3.0};
  }
  days.days[40] = {std::nullopt, 90.0};  // half a day counts for nothing
  const auto result = record_temperatures(days, false);
  ASSERT_TRUE(result);
  for (std::size_t month = 0; month < 12; ++month) {
    EXPECT_NEAR(result->min_c[month], static_cast<double>(month + 1), 1e-9);
    EXPECT_NEAR(result->max_c[month], 3.0 * static_cast<double>(month + 1), 1e-9);
    EXPECT_NEAR(result->mean_c[month], 2.0 * static_cast<double>(month + 1), 1e-9);
  }
}

// Level at 10 degrees, every other day of the growing months 2 above, the rest 2 below; in the
// other months 9, which must not count.
TEST(RecordTemperatures, SpreadIsOfTheGrowingMonths) {
  for (const bool southern : {false, true}) {
    DailyRecord days = record("2019-01-01", "2023-01-01");
    for (std::size_t i = 0; i < days.days.size(); ++i) {
      const unsigned month = month_of(days.first + Days{static_cast<int>(i)});
      const bool growing = southern ? month >= 9 || month <= 4 : month >= 3 && month <= 10;
      const double off = (i % 2 == 0 ? 1 : -1) * (growing ? 2.0 : 9.0);
      days.days[i] = {5 + off, 15 + off};
    }
    const auto result = record_temperatures(days, southern);
    ASSERT_TRUE(result);
    EXPECT_NEAR(result->spread_c, 2.0, 0.03);
  }
}

TEST(RecordTemperatures, NeedEveryMonth) {
  EXPECT_TRUE(record_temperatures(record("2021-01-01", "2022-01-01"), false));
  EXPECT_FALSE(record_temperatures(record("2021-01-01", "2021-12-20"), false));
  EXPECT_FALSE(record_temperatures(DailyRecord{}, false));
}

TEST(UsualColdest, IsTheMeanOfWholeWinters) {
  const DailyRecord days =
      record("2019-12-01", "2023-07-24",
             {{"2020-01-10", -30}, {"2020-12-31", -8}, {"2022-02-02", -11}, {"2022-12-12", -14}});
  EXPECT_NEAR(usual_coldest_c(days, false).value(), -11, 1e-9);  // the first winter is a half one
  EXPECT_FALSE(usual_coldest_c(record("2020-01-01", "2020-12-31"), false));
  EXPECT_FALSE(usual_coldest_c(DailyRecord{}, false));
}

TEST(LastYears, CutsTheRecord) {
  const DailyRecord days = record("1960-01-01", "2022-03-15", {{"1992-03-15", -7}});
  const DailyRecord recent = last_years(days, 30);
  EXPECT_EQ(iso(recent.first), "1992-03-15");
  EXPECT_EQ(recent.until(), days.until());
  EXPECT_EQ(recent.days.front().min_c, -7);
  EXPECT_EQ(last_years(days, 100).days.size(), days.days.size());
}

// R 4.2.2: quantile(c(3, 5, 8, 9, 14, 20, 21), c(.1, .25, .5, .9), type = 5), Hazen's positions.
TEST(CountedLevel, AsRCountsIt) {
  const std::vector<double> values = {3, 5, 8, 9, 14, 20, 21};
  EXPECT_NEAR(counted_level(values, 0.1, 0, 0).value(), 3.4, 1e-9);
  EXPECT_NEAR(counted_level(values, 0.25, 0, 0).value(), 5.75, 1e-9);
  EXPECT_NEAR(counted_level(values, 0.5, 0, 0).value(), 9, 1e-9);
  EXPECT_NEAR(counted_level(values, 0.9, 0, 0).value(), 20.8, 1e-9);
}

TEST(CountedLevel, CasesWithoutAValueTakeTheirPlaces) {
  const std::vector<double> values = {1, 2, 3, 4, 5, 6, 7};
  EXPECT_NEAR(counted_level(values, 0.5, 0, 3).value(), 5.5, 1e-9);
  EXPECT_NEAR(counted_level(values, 0.5, 3, 0).value(), 2.5, 1e-9);
  EXPECT_FALSE(counted_level(values, 0.9, 0, 3));
  EXPECT_FALSE(counted_level(values, 0.1, 3, 0));
  EXPECT_FALSE(counted_level({}, 0.5, 0, 3));
}

}  // namespace
}  // namespace trug::climate
