// SPDX-License-Identifier: MIT
#include "growth/harvest_curve.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>

namespace trug::growth {
namespace {

double total(const std::vector<double>& shares, std::size_t from, std::size_t to) {
  to = std::min(to, shares.size());
  return std::accumulate(shares.begin() + static_cast<std::ptrdiff_t>(from),
                         shares.begin() + static_cast<std::ptrdiff_t>(to), 0.0);
}

TEST(HarvestCurve, AlwaysTotalsOnePlantsStems) {
  for (const Habit habit : {Habit::Single, Habit::Limited, Habit::CutAndComeAgain}) {
    for (double weeks = 1; weeks <= 24; weeks += 0.5) {
      const auto shares = harvest_curve(habit, {weeks, weeks}, std::nullopt);
      EXPECT_NEAR(total(shares, 0, shares.size()), 1, 1e-9);
      const auto twice = harvest_curve(habit, {weeks, weeks}, SecondFlush{7, 0.3});
      EXPECT_NEAR(total(twice, 0, twice.size()), 1, 1e-9);
    }
  }
}

TEST(HarvestCurve, SingleIsSixtyAndFortyOverItsFortnight) {
  const auto shares = harvest_curve(Habit::Single, {2, 2}, std::nullopt);
  ASSERT_EQ(shares.size(), 14u);
  EXPECT_NEAR(total(shares, 0, 7), 0.6, 1e-9);
}

TEST(HarvestCurve, LimitedPeaksInItsSecondWeek) {
  const auto shares = harvest_curve(Habit::Limited, {4, 4}, std::nullopt);
  const double second = total(shares, 7, 14);
  EXPECT_GT(second, total(shares, 0, 7));
  EXPECT_GT(second, total(shares, 14, 21));
  EXPECT_GT(total(shares, 14, 21), total(shares, 21, 28));
}

// University of Georgia bulb trials: florist's anemone is cut most three to five weeks after the
// first cut, over six to eight weeks.
TEST(HarvestCurve, AnemonePeaksThreeToFiveWeeksIn) {
  const auto shares = harvest_curve(Habit::CutAndComeAgain, {6, 8}, std::nullopt);
  std::size_t best = 0;
  for (std::size_t week = 0; week * 7 < shares.size(); ++week) {
    if (total(shares, week * 7, week * 7 + 7) > total(shares, best * 7, best * 7 + 7) + 1e-9) {
      best = week;
    }
  }
  EXPECT_GE(best + 1, 3u);
  EXPECT_LE(best + 1, 5u);
}

TEST(HarvestCurve, SecondFlushComesAfterItsPause) {
  const auto shares = harvest_curve(Habit::Limited, {4, 4}, SecondFlush{6, 0.25});
  ASSERT_EQ(shares.size(), 28u + 42u + 14u);
  EXPECT_EQ(total(shares, 28, 70), 0);
  EXPECT_NEAR(total(shares, 70, 84), 0.25, 1e-9);
}

TEST(FewestCuttingDays, AreTheSheetsElseTheHabits) {
  Sheet sheet;
  sheet.habit = Habit::CutAndComeAgain;
  EXPECT_EQ(fewest_cutting_days(sheet, 60), 21);
  EXPECT_EQ(fewest_cutting_days(sheet, 10), 10);
  sheet.habit = Habit::Limited;
  EXPECT_EQ(fewest_cutting_days(sheet, 60), 14);
  sheet.fewest_cutting_days = 30;
  EXPECT_EQ(fewest_cutting_days(sheet, 60), 30);
}

}  // namespace
}  // namespace trug::growth
