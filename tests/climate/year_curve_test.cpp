// SPDX-License-Identifier: MIT
#include "climate/year_curve.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace trug::climate {
namespace {

// A climate like that of southern England.
constexpr std::array<double, 12> kMild = {4.5,  4.8,  6.8,  9.0,  12.2, 15.2,
                                          17.0, 16.8, 14.3, 10.9, 7.2,  4.9};

Date day_number(int number, int year = 2027) { return make_date(year, 1, 1) + Days{number - 1}; }

double month_mean(const YearCurve& curve, unsigned month) {
  double sum = 0;
  int days = 0;
  for (Date day = make_date(2027, month, 1); month_of(day) == month; day += Days{1}, ++days) {
    sum += curve.on(day);
  }
  return sum / days;
}

// Regression values of the equation.
TEST(YearCurve, KnownDays) {
  const YearCurve curve = YearCurve::from_months(kMild);
  const std::pair<int, double> rows[] = {{1, 4.509},    {32, 4.445},   {46, 4.711},   {60, 5.638},
                                         {91, 7.873},   {121, 10.518}, {152, 13.912}, {182, 16.380},
                                         {200, 17.168}, {213, 17.311}, {244, 15.756}, {274, 12.671},
                                         {305, 8.879},  {335, 5.682},  {365, 4.507}};
  for (const auto& [number, celsius] : rows) {
    SCOPED_TRACE(number);
    EXPECT_NEAR(curve.on(day_number(number)), celsius, 0.002);
  }
}

TEST(YearCurve, KeepsEveryMonthsMean) {
  // The last: a hard case, far from any climate.
  const std::array<double, 12> inputs[] = {kMild, {-20, 25, -3, 8, 8, 8, 40, -40, 0, 1, 2, 3}};
  for (const auto& input : inputs) {
    const YearCurve curve = YearCurve::from_months(input);
    for (unsigned month = 1; month <= 12; ++month) {
      SCOPED_TRACE(month);
      EXPECT_NEAR(month_mean(curve, month), input[month - 1], 1e-9);
    }
  }
}

TEST(YearCurve, EqualMonthsGiveALevelYear) {
  std::array<double, 12> level{};
  level.fill(10);
  const YearCurve curve = YearCurve::from_months(level);
  for (int number = 1; number <= 365; ++number) {
    EXPECT_NEAR(curve.on(day_number(number)), 10, 1e-9);
  }
}

// Smooth: no step from day to day, nor from December to January, beyond what the months ask for
// (steepest here: 3.7 degrees from October to November).
TEST(YearCurve, HasNoSteps) {
  const YearCurve curve = YearCurve::from_months(kMild);
  for (int number = 1; number <= 365; ++number) {
    SCOPED_TRACE(number);
    EXPECT_LT(std::abs(curve.on(day_number(number + 1)) - curve.on(day_number(number))), 0.15);
  }
}

// The middle of the month: on a day, or between two.
double mid_month(const YearCurve& curve, unsigned month) {
  const Date first = make_date(2027, month, 1);
  const int last = days_between(first, make_date(2027 + (month == 12), month % 12 + 1, 1)) - 1;
  return (curve.on(first + Days{last / 2}) + curve.on(first + Days{(last + 1) / 2})) / 2;
}

// Turned by six months the curve turns too; only nearly, as months differ in length.
TEST(YearCurve, SouthernMonthsMirrorNorthernOnes) {
  std::array<double, 12> southern = kMild;
  std::rotate(southern.begin(), southern.begin() + 6, southern.end());
  const YearCurve north = YearCurve::from_months(kMild);
  const YearCurve south = YearCurve::from_months(southern);
  for (unsigned month = 1; month <= 12; ++month) {
    SCOPED_TRACE(month);
    EXPECT_NEAR(mid_month(south, month), mid_month(north, (month + 5) % 12 + 1), 0.05);
  }
}

TEST(YearCurve, LeapYearsRepeatTheLastOfFebruary) {
  const YearCurve curve = YearCurve::from_months(kMild);
  EXPECT_EQ(curve.on(make_date(2028, 2, 29)), curve.on(make_date(2028, 2, 28)));
  for (Date day = make_date(2027, 1, 1); day < make_date(2028, 1, 1); day += Days{1}) {
    const std::chrono::year_month_day ymd{day};
    EXPECT_EQ(curve.on(on(ymd.month() / ymd.day(), 2028)), curve.on(day)) << iso(day);
  }
}

TEST(YearCurve, TwoNumbersComeBackAsTheYearAndItsWarmestMonth) {
  for (const bool southern : {false, true}) {
    const YearCurve curve = YearCurve::from_two(10, 17, southern);
    double sum = 0;
    double warmest = -100;
    for (unsigned month = 1; month <= 12; ++month)
      warmest = std::max(warmest, month_mean(curve, month));
    for (int number = 1; number <= 365; ++number) sum += curve.on(day_number(number));
    EXPECT_NEAR(sum / 365, 10, 1e-9);
    EXPECT_NEAR(warmest, 17, 0.05);
    EXPECT_NEAR(month_mean(curve, southern ? 1 : 7), warmest, 1e-12);
  }
}

TEST(YearCurve, TwoNumbersPeakInJulyOrJanuary) {
  const YearCurve north = YearCurve::from_two(10, 17, false);
  const YearCurve south = YearCurve::from_two(10, 17, true);
  EXPECT_NEAR(north.on(day_number(204)), 10 + 7 / 0.985, 1e-9);
  for (int number = 1; number <= 365; ++number) {
    EXPECT_LE(north.on(day_number(number)), north.on(day_number(204)));
    EXPECT_LE(south.on(day_number(number)), south.on(day_number(22)) + 1e-9);
  }
}

}  // namespace
}  // namespace trug::climate
