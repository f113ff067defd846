// SPDX-License-Identifier: MIT
#include "growth/spread.h"

#include <gtest/gtest.h>

namespace trug::growth {
namespace {

TEST(Spread, OfTheWeatherShrinksThroughSpring) {
  for (const auto& [month, north, south] : {std::tuple{1u, 14, 7},
                                            {3u, 14, 7},
                                            {4u, 10, 7},
                                            {5u, 10, 7},
                                            {6u, 7, 7},
                                            {7u, 7, 14},
                                            {9u, 7, 14},
                                            {10u, 7, 10},
                                            {11u, 7, 10},
                                            {12u, 7, 7}}) {
    const Date flower = make_date(2027, month, 10);
    EXPECT_EQ(weather_spread(flower, false), north) << month;
    EXPECT_EQ(weather_spread(flower, true), south) << month;
  }
}

TEST(Spread, JoinsWeatherAndTheRestInQuadrature) {
  EXPECT_DOUBLE_EQ(spread_at(18, make_date(2027, 7, 1), false), 18);
  // 18^2 - 7^2 + 10^2 = 375, + 14^2 = 471.
  EXPECT_NEAR(spread_at(18, make_date(2027, 5, 1), false), 19.365, 1e-3);
  EXPECT_NEAR(spread_at(18, make_date(2027, 2, 1), false), 21.703, 1e-3);
}

// A spread holds 80 of 100, so one in ten lies on either side (any table of the normal curve).
TEST(Spread, TellsTheChanceOfADate) {
  const Date likely = make_date(2027, 7, 1);
  EXPECT_NEAR(chance_by(likely, 18, likely), 0.5, 0.02);
  EXPECT_NEAR(chance_by(likely, 18, likely + Days{18}), 0.9, 0.01);
  EXPECT_NEAR(chance_by(likely, 18, likely - Days{18}), 0.1, 0.01);
  EXPECT_GT(chance_by(likely, 18, likely + Days{40}), 0.99);
}

TEST(Spread, ExpectsDaysOfCuttingEvenWhereTheLikelyDayIsPast) {
  const Date likely = make_date(2027, 9, 1);
  // Far from either end the days themselves, and never more than the crop has.
  EXPECT_NEAR(expected_days(likely, 18, likely + Days{99}, 500), 100, 0.1);
  EXPECT_NEAR(expected_days(likely, 18, likely + Days{199}, 40), 40, 0.1);
  // On the last day itself: the mean of the half that comes in time, deviation / sqrt(2 pi).
  EXPECT_NEAR(expected_days(likely, 18, likely - Days{1}, 500), 14.05 / 2.5066, 0.1);
  EXPECT_LT(expected_days(likely, 18, likely - Days{60}, 500), 0.1);
}

}  // namespace
}  // namespace trug::growth
