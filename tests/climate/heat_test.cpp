// SPDX-License-Identifier: MIT
#include "climate/heat.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "climate/year_curve.h"

namespace trug::climate {
namespace {

// The excess averaged over a normal day by adding up slices: no closed form in it.
double added_up_excess(double mean, double base, double spread) {
  constexpr int kSlices = 40000;
  const double step = 20.0 / kSlices;
  double sum = 0;
  for (int i = 0; i < kSlices; ++i) {
    const double z = -10 + (i + 0.5) * step;
    const double density = std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi);
    sum += std::max(0.0, mean + spread * z - base) * density * step;
  }
  return sum;
}

TEST(ExpectedExcess, KnownValues) {
  struct Row {
    double mean, base, spread, excess;
  };
  const Row rows[] = {{5, 5, 3, 1.1968},  {8, 5, 3, 3.2499},  {2, 5, 3, 0.2499},
                      {12, 5, 3, 7.0100}, {5, 10, 3, 0.0595}, {10, 10, 4.3, 1.7155},
                      {-5, 5, 3, 0.0003}, {9, 5, 0, 4}};
  for (const Row& row : rows) {
    SCOPED_TRACE(row.mean);
    EXPECT_NEAR(expected_excess(row.mean, row.base, row.spread), row.excess, 1e-4);
  }
}

TEST(ExpectedExcess, IsTheAverageOverTheDaysItStandsFor) {
  for (double mean = -10; mean <= 25; mean += 2.5) {
    for (const double spread : {0.5, 2.0, 3.0, 4.3}) {
      SCOPED_TRACE(mean);
      EXPECT_NEAR(expected_excess(mean, 5, spread), added_up_excess(mean, 5, spread), 1e-5);
    }
  }
}

// Without a spread it is the average method: minimum, maximum, base -> degree-days.
TEST(ExpectedExcess, WithoutSpreadIsTheAverageMethod) {
  struct Row {
    double minimum, maximum, base, degree_days;
  };
  const Row rows[] = {{2, 18, 10, 0},
                      {5, 12, 5, 3.5},
                      {-3, 9, 5, 0},
                      {12, 36, 10, 14},
                      {20, 34, 10, 17},
                      {-5, 4, 5, 0},
                      {0, 10, 5, 0},
                      {8, 8, 5, 3},
                      {4, 22, 10, 3},
                      // Worked example of the University of California IPM: mean 64 degF,
                      // threshold 53 degF, 11 degree-days Fahrenheit.
                      {64, 64, 53, 11}};
  for (const Row& row : rows) {
    SCOPED_TRACE(row.minimum);
    EXPECT_NEAR(expected_excess((row.minimum + row.maximum) / 2, row.base, 0), row.degree_days,
                1e-6);
  }
}

TEST(CappedExcess, KnownValues) {
  struct Row {
    double mean, spread, excess;
  };
  const Row rows[] = {
      {10, 3, 6.0255}, {24, 3, 18.8032}, {28, 3, 19.8728}, {22, 0, 18}, {30, 0, 20}};
  for (const Row& row : rows) {
    SCOPED_TRACE(row.mean);
    EXPECT_NEAR(capped_excess(row.mean, 4, 24, row.spread), row.excess, 1e-4);
  }
}

TEST(CappedExcess, GrowsWithTheMeanUpToTheCap) {
  double before = -1;
  for (double mean = -20; mean <= 45; mean += 0.1) {
    const double now = capped_excess(mean, 4, 24, 3);
    EXPECT_GE(now, before);
    EXPECT_GE(now, 0);
    EXPECT_LE(now, 20 + 1e-9);
    before = now;
  }
}

// Regression sums over a climate like that of southern England.
TEST(ExpectedExcess, SumsOverAYear) {
  const YearCurve curve =
      YearCurve::from_months({4.5, 4.8, 6.8, 9.0, 12.2, 15.2, 17.0, 16.8, 14.3, 10.9, 7.2, 4.9});
  struct Row {
    double spread, base, april, may, june, july, year;
  };
  const Row rows[] = {{0, 5, 120.0, 223.2, 306.0, 372.0, 1976.6},
                      {0, 10, 0.9, 68.2, 156.0, 217.0, 814.0},
                      {3, 5, 124.3, 223.6, 306.0, 372.0, 2103.2},
                      {3, 10, 24.0, 82.3, 157.8, 217.3, 901.6}};
  for (const Row& row : rows) {
    std::array<double, 13> sums{};
    for (Date day = make_date(2027, 1, 1); day < make_date(2028, 1, 1); day += Days{1}) {
      const double heat = expected_excess(curve.on(day), row.base, row.spread);
      sums[month_of(day)] += heat;
      sums[0] += heat;
    }
    SCOPED_TRACE(std::to_string(row.spread) + " " + std::to_string(row.base));
    EXPECT_NEAR(sums[4], row.april, 0.1);
    EXPECT_NEAR(sums[5], row.may, 0.1);
    EXPECT_NEAR(sums[6], row.june, 0.1);
    EXPECT_NEAR(sums[7], row.july, 0.1);
    EXPECT_NEAR(sums[0], row.year, 0.1);
  }
}

// Regression values of the Wang-Engel form; 0, 1 and 0 at the cardinal temperatures by definition.
TEST(Vernalisation, KnownValues) {
  const std::pair<double, double> rows[] = {{-2, 0},      {-1.3, 0},   {0, 0.5668},  {2, 0.8763},
                                            {4.9, 1},     {7, 0.9507}, {10, 0.7393}, {12, 0.5245},
                                            {15, 0.1107}, {15.7, 0},   {18, 0}};
  for (const auto& [celsius, worth] : rows) {
    SCOPED_TRACE(celsius);
    EXPECT_NEAR(vernalisation(celsius), worth, 1e-4);
  }
}

struct PaceRow {
  const char* name;
  DayLengthResponse response;
  double hours, pace;
  bool rising = false;
};

TEST(DayLengthPace, KnownValues) {
  using Kind = DayLengthResponse::Kind;
  const DayLengthResponse neutral{};
  const DayLengthResponse ramp{.kind = Kind::Long, .from_hours = 10.5, .to_hours = 14.5};
  const DayLengthResponse with_floor{
      .kind = Kind::Long, .from_hours = 8.5, .to_hours = 14.5, .floor = 0.3};
  const DayLengthResponse shorter{
      .kind = Kind::Short, .from_hours = 14, .slower_per_hour = 0.03, .floor = 0.8};
  const DayLengthResponse rising{
      .kind = Kind::Long, .from_hours = 10.5, .to_hours = 14.5, .floor_rising = 0.5};
  const DayLengthResponse critical{.kind = Kind::CriticalShort, .from_hours = 13.5, .floor = 0};
  const PaceRow rows[] = {{"neutral", neutral, 8, 1},
                          {"neutral", neutral, 17, 1},
                          {"long", ramp, 9, 0},
                          {"long", ramp, 10.5, 0},
                          {"long", ramp, 12, 0.375},
                          {"long", ramp, 13.3, 0.70},
                          {"long", ramp, 14.5, 1},
                          {"long", ramp, 17, 1},
                          {"long, floor", with_floor, 8, 0.3},
                          {"long, floor", with_floor, 10, 0.3},
                          {"long, floor", with_floor, 11.5, 0.5},
                          // Winter's days count as they grow longer, not as they shorten.
                          {"long, rising", rising, 9, 0.5, true},
                          {"long, rising", rising, 13.5, 0.75, true},
                          {"long, falling", rising, 9, 0},
                          {"long, one floor", with_floor, 8, 0.3, true},
                          {"short", shorter, 12, 1},
                          {"short", shorter, 16, 0.94},
                          {"short", shorter, 18, 0.88},
                          {"short", shorter, 22, 0.8},
                          {"critical", critical, 13, 1},
                          {"critical", critical, 13.5, 1},
                          {"critical", critical, 13.6, 0}};
  for (const PaceRow& row : rows) {
    SCOPED_TRACE(std::string(row.name) + " " + std::to_string(row.hours));
    EXPECT_NEAR(day_length_pace(row.response, row.hours, row.rising), row.pace, 1e-9);
  }
}

// The limits as the crops' constants give them; straight between.
TEST(ColdDay, IsWholeInTheColdAndNothingInWarmth) {
  const Chill bulbs{100, 9, 15};
  for (const auto& [mean, worth] :
       {std::pair{-10.0, 1.0}, {9.0, 1.0}, {12.0, 0.5}, {15.0, 0.0}, {20.0, 0.0}}) {
    EXPECT_NEAR(cold_day(bulbs, mean), worth, 1e-9) << mean;
  }
}

TEST(EffectiveDay, IsSlowerInColdAndInHeat) {
  const AfterLight early{24, 74, 4, 14, 24, 36, 0.4};
  for (const auto& [mean, worth] : {std::pair{3.0, 0.0},
                                    {9.0, 0.5},
                                    {14.0, 1.0},
                                    {24.0, 1.0},
                                    {30.0, 0.5},
                                    {36.0, 0.4},
                                    {45.0, 0.4}}) {
    EXPECT_NEAR(effective_day(early, mean), worth, 1e-9) << mean;
  }
}

TEST(LightFactor, KnownValues) {
  const std::pair<double, double> rows[] = {{7, 0.2},   {8, 0.2}, {9, 0.6},
                                            {9.5, 0.8}, {10, 1},  {16, 1}};
  for (const auto& [hours, factor] : rows) {
    SCOPED_TRACE(hours);
    EXPECT_NEAR(light_factor(hours), factor, 1e-9);
  }
}

}  // namespace
}  // namespace trug::climate
