// SPDX-License-Identifier: MIT
#include "climate/soil.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <memory>

#include "lowland.h"

namespace trug::climate {
namespace {

const DateRange kYear{make_date(2027, 1, 1), make_date(2028, 1, 1)};

// The same curve, reckoned separately in Python (the script is not kept here), gives 7.873 on 1
// April, 10.518 on 1 May and 13.912 on 1 June: three days later the soil is half a degree warmer.
TEST(Soil, IsTheAirThreeDaysBeforeAndHalfADegreeMore) {
  const auto climate = Climate::from(lowland());
  EXPECT_NEAR(soil_c(climate, make_date(2027, 4, 4)), 8.373, 0.002);
  EXPECT_NEAR(soil_c(climate, make_date(2027, 5, 4)), 11.018, 0.002);
  EXPECT_NEAR(soil_c(climate, make_date(2027, 6, 4)), 14.412, 0.002);
}

struct WarmRow {
  FrostClass frost_class;
  Date expected;
};

// Between the values above (and 5.638 on 1 March, 16.380 on 1 July) by straight lines, which miss
// the curve by three days at most.
TEST(Soil, IsWarmFromTheFirstOfSevenDays) {
  const auto climate = Climate::from(lowland());
  for (const WarmRow& row : {WarmRow{FrostClass::Hardy, make_date(2027, 3, 16)},
                             WarmRow{FrostClass::HalfHardy, make_date(2027, 4, 22)},
                             WarmRow{FrostClass::Tender, make_date(2027, 6, 11)}}) {
    const auto from = soil_warm_from(climate, sowing_soil_c(row.frost_class), kYear);
    ASSERT_TRUE(from);
    EXPECT_LE(std::abs(days_between(row.expected, *from)), 3) << iso(*from);
  }
  EXPECT_FALSE(soil_warm_from(climate, 18, kYear));
}

TEST(Soil, IsWarmAtOnceWhereItAlwaysIs) {
  Place place = lowland();
  std::get<MonthlyMeans>(place.temperatures).mean_c.fill(26);
  EXPECT_EQ(soil_warm_from(Climate::from(place), 15, kYear), kYear.from);
}

// Measured days: six warm ones, a cold one, then warm for good.
TEST(Soil, MustHoldForAWeek) {
  DailyRecord record{.first = make_date(2027, 1, 1), .days = {}};
  for (int day = 0; day < 60; ++day) {
    const double mean = day < 10 || day == 16 ? 0 : 12;
    record.days.push_back({mean - 5, mean + 5});
  }
  const auto climate =
      Climate::from(lowland()).with_record(std::make_shared<const DailyRecord>(std::move(record)));
  const DateRange days{make_date(2027, 1, 1), make_date(2027, 3, 1)};
  EXPECT_EQ(soil_warm_from(climate, 10, days), make_date(2027, 1, 1) + Days{17 + 3});
}

TEST(Soil, TheSouthIsSixMonthsOn) {
  Place south = lowland();
  south.latitude = -52.5;
  auto& means = std::get<MonthlyMeans>(south.temperatures).mean_c;
  std::rotate(means.begin(), means.begin() + 6, means.end());
  const auto from =
      soil_warm_from(Climate::from(south), 10, {make_date(2026, 7, 1), make_date(2027, 7, 1)});
  ASSERT_TRUE(from);
  EXPECT_LE(std::abs(days_between(make_date(2026, 10, 22), *from)), 4) << iso(*from);
}

}  // namespace
}  // namespace trug::climate
