// SPDX-License-Identifier: MIT
#include "climate/climate.h"

#include <gtest/gtest.h>

#include <memory>
#include <utility>

namespace trug::climate {
namespace {

using namespace std::chrono;

Place place(double latitude) {
  Place result;
  result.latitude = latitude;
  result.last_frost = latitude < 0 ? October / 20 : May / 14;
  result.first_frost = latitude < 0 ? May / 3 : October / 9;
  return result;
}

TEST(Climate, RemembersDayLengthsWithoutChangingThem) {
  const Climate climate = Climate::from(place(56.1));
  for (Date day = make_date(2027, 1, 1); day < make_date(2029, 1, 1); day += Days{1}) {
    for (const Horizon horizon : {Horizon::SunriseToSunset, Horizon::CivilTwilight}) {
      ASSERT_EQ(climate.day_hours(day, horizon), day_length_hours(56.1, day, horizon)) << iso(day);
    }
  }
}

TEST(Climate, SeasonsStartInMidwinter) {
  EXPECT_EQ(iso(Climate::from(place(52)).season_start(2027)), "2027-01-01");
  EXPECT_EQ(iso(Climate::from(place(-41)).season_start(2027)), "2026-07-01");
}

TEST(Climate, WinterBeforeTheSeason) {
  const auto north = Climate::from(place(52)).short_days_before(2027);
  ASSERT_TRUE(north);
  EXPECT_EQ(year_of(north->from), 2026);
  EXPECT_EQ(year_of(north->until), 2027);
  const auto south = Climate::from(place(-41)).short_days_before(2027);
  ASSERT_TRUE(south);
  EXPECT_EQ(month_of(south->from), 5U);
  EXPECT_EQ(year_of(south->from), 2026);
  EXPECT_EQ(year_of(south->until), 2026);
  EXPECT_FALSE(Climate::from(place(28)).short_days_before(2027));
}

TEST(Climate, WithoutTemperaturesHasNone) {
  const Climate climate = Climate::from(place(52));
  EXPECT_FALSE(climate.has_temperatures());
  EXPECT_FALSE(climate.max_c(make_date(2027, 7, 1)));
}

TEST(Climate, TwoMeansFollowTheHemisphere) {
  Place north = place(52);
  north.temperatures = TwoMeans{10, 17};
  Place south = place(-41);
  south.temperatures = TwoMeans{10, 17};
  const Date january = make_date(2027, 1, 22);
  const Date july = make_date(2027, 7, 23);
  EXPECT_GT(Climate::from(north).mean_c(july), 17);
  EXPECT_LT(Climate::from(north).mean_c(january), 3);
  EXPECT_GT(Climate::from(south).mean_c(january), 17);
  EXPECT_LT(Climate::from(south).mean_c(july), 3);
  EXPECT_FALSE(Climate::from(north).max_c(july));
}

TEST(Climate, MonthlyMeansAndMaxima) {
  MonthlyMeans months;
  months.mean_c = {4.5, 4.8, 6.8, 9.0, 12.2, 15.2, 17.0, 16.8, 14.3, 10.9, 7.2, 4.9};
  Place known = place(52);
  known.temperatures = months;
  EXPECT_FALSE(Climate::from(known).max_c(make_date(2027, 7, 19)));
  std::array<double, 12> maxima = months.mean_c;
  for (double& maximum : maxima) maximum += 5;
  months.max_c = maxima;
  known.temperatures = months;
  const Climate climate = Climate::from(known);
  ASSERT_TRUE(climate.has_temperatures());
  for (Date day = make_date(2028, 1, 1); day < make_date(2029, 1, 1); day += Days{1}) {
    EXPECT_NEAR(climate.max_c(day).value(), climate.mean_c(day) + 5, 1e-9) << iso(day);
  }
  EXPECT_EQ(climate.spread_c(), 3.0);
}

// Inland the hottest hours lie farther above the day's mean than by the sea (memory).
TEST(Climate, GuessesMaximaThatThePlanDoesNotGive) {
  Place inland = place(39);
  inland.temperatures = TwoMeans{12, 26};
  Place coast = place(34);
  coast.temperatures = TwoMeans{18, 22};
  const Date july = make_date(2027, 7, 23);
  for (const auto& [where, over] : {std::pair{inland, 5.5}, {coast, 4.0}}) {
    const Climate climate = Climate::from(where);
    EXPECT_FALSE(climate.knows_maxima());
    EXPECT_NEAR(climate.likely_max_c(july), climate.mean_c(july) + over, 1e-9);
  }
  EXPECT_NEAR(Climate::from(inland).hottest_month_max_c().value(), 31.5, 0.1);
}

TEST(Climate, FrostsAreThePlaces) {
  EXPECT_EQ(Climate::from(place(-41)).frosts(2027), season_frosts(place(-41), 2027));
  EXPECT_EQ(iso(Climate::from(place(-41)).frosts(2027).last), "2026-10-20");
}

DailyRecord record(Date first, std::vector<DailyWeather> days) { return {first, std::move(days)}; }

Climate at_ten(double spread_c) {
  Place ten = place(52);
  MonthlyMeans months;
  months.mean_c.fill(10);
  ten.temperatures = months;
  return Climate::from(ten, spread_c);
}

TEST(Climate, MeasuredDaysStandInForAverages) {
  const Climate climate = at_ten(2.5).with_record(std::make_shared<DailyRecord>(
      record(make_date(2027, 3, 1), {{4.0, 10.0}, {std::nullopt, 10.0}, {-2.0, 4.0}})));
  struct Row {
    Date day;
    bool measured;
    double mean_c, spread_c;
  };
  for (const Row& row :
       {Row{make_date(2027, 2, 28), false, 10, 2.5}, Row{make_date(2027, 3, 1), true, 7, 0},
        Row{make_date(2027, 3, 2), false, 10, 2.5}, Row{make_date(2027, 3, 3), true, 1, 0},
        Row{make_date(2027, 3, 4), false, 10, 2.5}}) {
    SCOPED_TRACE(iso(row.day));
    EXPECT_EQ(climate.measured(row.day), row.measured);
    EXPECT_NEAR(climate.mean_c(row.day), row.mean_c, 1e-9);
    EXPECT_EQ(climate.spread_c(row.day), row.spread_c);
  }
  EXPECT_EQ(climate.spread_c(), 2.5);
}

TEST(Climate, TheWeatherOfOtherYearsIsLaidOverDayByDay) {
  const auto leap = std::make_shared<DailyRecord>(
      record(make_date(2020, 2, 28), {{0.0, 2.0}, {2.0, 4.0}, {4.0, 6.0}}));
  const Climate plain_year = at_ten(3).with_record(leap, 2020 - 2027);
  EXPECT_EQ(plain_year.mean_c(make_date(2027, 2, 28)), 1);
  EXPECT_EQ(plain_year.mean_c(make_date(2027, 3, 1)), 5);
  EXPECT_FALSE(plain_year.measured(make_date(2020, 2, 28)));
  const auto plain =
      std::make_shared<DailyRecord>(record(make_date(2021, 2, 28), {{0.0, 2.0}, {4.0, 6.0}}));
  const Climate leap_year = at_ten(3).with_record(plain, 2021 - 2028);
  EXPECT_EQ(leap_year.mean_c(make_date(2028, 2, 29)), 1);
  EXPECT_EQ(leap_year.mean_c(make_date(2028, 3, 1)), 5);
}

}  // namespace
}  // namespace trug::climate
