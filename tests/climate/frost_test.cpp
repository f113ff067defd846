// SPDX-License-Identifier: MIT
#include "climate/frost.h"

#include <gtest/gtest.h>

namespace trug::climate {
namespace {

using namespace std::chrono;

Place place(double latitude, MonthDay last, MonthDay first,
            FrostMeaning meaning = FrostMeaning::Garden) {
  Place result;
  result.latitude = latitude;
  result.last_frost = last;
  result.first_frost = first;
  result.frost_meaning = meaning;
  return result;
}

// Python 3.11's statistics.NormalDist (Wichura's algorithm AS 241).
TEST(Normal, QuantileAgreesWithAnotherProgram) {
  const std::pair<double, double> rows[] = {
      {1e-12, -7.034483825301132}, {1e-06, -4.753424308822899}, {0.001, -3.090232306167813},
      {0.05, -1.6448536269514726}, {0.1, -1.2815515655446008},  {0.2, -0.8416212335729142},
      {0.3, -0.5244005127080407},  {0.6, 0.2533471031357998},   {0.9, 1.2815515655446008},
      {0.975, 1.9599639845400536}, {0.99, 2.3263478740408408},  {0.999999, 4.753424308817089}};
  for (const auto& [probability, z] : rows) {
    SCOPED_TRACE(probability);
    EXPECT_NEAR(normal_quantile(probability), z, 1e-9);
  }
  EXPECT_EQ(normal_quantile(0.5), 0);
}

TEST(Normal, CdfAgreesWithAnotherProgram) {
  const std::pair<double, double> rows[] = {{-3, 0.0013498980316301035},
                                            {-1, 0.15865525393145707},
                                            {0.5, 0.6914624612740131},
                                            {2, 0.9772498680518208}};
  for (const auto& [z, probability] : rows) {
    SCOPED_TRACE(z);
    EXPECT_NEAR(normal_cdf(z), probability, 1e-12);
  }
}

TEST(Normal, QuantileUndoesTheCdf) {
  for (double z = -6; z <= 6; z += 0.125) {
    SCOPED_TRACE(z);
    EXPECT_NEAR(normal_quantile(normal_cdf(z)), z, 1e-7);
  }
}

// Last frost on average 15 May (day 135), spread 12 days. Arithmetic of the normal distribution.
TEST(FrostRisk, ShrinksThroughSpring) {
  const Date mean = make_date(2027, 5, 15);
  const std::tuple<unsigned, unsigned, double> rows[] = {{4, 25, 0.9522}, {5, 5, 0.7977},
                                                         {5, 15, 0.5},    {5, 25, 0.2023},
                                                         {5, 31, 0.0912}, {6, 10, 0.0151}};
  for (const auto& [month, day, risk] : rows) {
    const int offset = days_between(mean, make_date(2027, month, day));
    EXPECT_NEAR(1 - normal_cdf(offset / 12.0), risk, 1e-4);
  }
}

TEST(FrostRisk, SafeDayIsRoundedUp) {
  const Date mean = make_date(2027, 5, 15);
  const std::tuple<double, unsigned, unsigned> rows[] = {{0.3, 5, 22}, {0.2, 5, 26},  {0.1, 5, 31},
                                                         {0.05, 6, 4}, {0.01, 6, 12}, {0.5, 5, 15}};
  for (const auto& [risk, month, day] : rows) {
    SCOPED_TRACE(risk);
    EXPECT_EQ(iso(frost_safe_day(mean, 12, risk).value()), iso(make_date(2027, month, day)));
  }
}

// Frost in four years of five: 148.80 and 131.18 are days 149 and 132 of the year.
TEST(FrostRisk, YearsWithoutFrostCount) {
  const Date mean = make_date(2027, 5, 15);
  EXPECT_EQ(iso(frost_safe_day(mean, 12, 0.1, 0.8).value()), "2027-05-29");
  EXPECT_EQ(iso(frost_safe_day(mean, 12, 0.5, 0.8).value()), "2027-05-12");
  EXPECT_FALSE(frost_safe_day(mean, 12, 0.85, 0.8));
  EXPECT_FALSE(frost_safe_day(mean, 12, 0.8, 0.8));
  EXPECT_FALSE(cover_by_day(mean, 12, 0.85, 0.8));
}

TEST(FrostRisk, CoverDayIsRoundedDown) {
  const Date mean = make_date(2027, 1, 1) + Days{287};
  const std::tuple<double, unsigned, unsigned> rows[] = {
      {0.3, 10, 8}, {0.2, 10, 4}, {0.1, 9, 29}, {0.05, 9, 25}, {0.5, 10, 15}};
  for (const auto& [risk, month, day] : rows) {
    SCOPED_TRACE(risk);
    EXPECT_EQ(iso(cover_by_day(mean, 12, risk).value()), iso(make_date(2027, month, day)));
  }
}

// NOAA's freeze normals 1981-2010, 32 degF: the day that frost follows (precedes) in half of the
// years, and in nine (one) of ten. From the first and the spread taken where only one date is known
// the second is ten days off at most.
TEST(FrostRisk, UsualSpreadIsNearThatOfStations) {
  struct Row {
    const char* station;
    unsigned month, day, level_month, level_day;
  };
  const Row last[] = {{"Chicago Midway", 4, 12, 3, 31},       {"Seattle-Tacoma", 3, 8, 2, 12},
                      {"New York Central Park", 4, 1, 3, 18}, {"Indianapolis", 4, 16, 4, 1},
                      {"Philadelphia", 4, 2, 3, 20},          {"Charlotte", 4, 4, 3, 18},
                      {"Minneapolis", 4, 25, 4, 11}};
  for (const Row& row : last) {
    const Date safe =
        frost_safe_day(make_date(2027, row.month, row.day), kSpringSpreadDays, 0.9).value();
    EXPECT_NEAR(days_between(make_date(2027, row.level_month, row.level_day), safe), 0, 10)
        << row.station;
  }
  const Row first[] = {{"Chicago Midway", 10, 28, 11, 10},       {"Seattle-Tacoma", 11, 21, 12, 11},
                       {"New York Central Park", 11, 18, 12, 3}, {"Indianapolis", 10, 22, 11, 5},
                       {"Philadelphia", 11, 10, 11, 25},         {"Charlotte", 11, 3, 11, 19},
                       {"Minneapolis", 10, 10, 10, 26}};
  for (const Row& row : first) {
    const Date by =
        cover_by_day(make_date(2027, row.month, row.day), kAutumnSpreadDays, 0.9).value();
    EXPECT_NEAR(days_between(make_date(2027, row.level_month, row.level_day), by), 0, 10)
        << row.station;
  }
}

struct SeasonRow {
  const char* name;
  Place place;
  const char* last;
  const char* first;
};

TEST(SeasonFrosts, FallOnTheirSideOfTheSeason) {
  const SeasonRow rows[] = {
      {"north", place(52, May / 14, October / 9), "2027-05-14", "2027-10-09"},
      {"last frost in December", place(38, December / 20, January / 5), "2026-12-20", "2028-01-05"},
      {"first frost in February", place(33, January / 10, February / 2), "2027-01-10",
       "2028-02-02"},
      // NOAA's normals for Phoenix: the first frost's median lies before the last one's.
      {"Phoenix", place(33.4, January / 6, January / 2), "2027-01-06", "2028-01-02"},
      {"the split's own days, north", place(64, July / 23, July / 24), "2027-07-23", "2027-07-24"},
      {"south", place(-36, October / 20, May / 3), "2026-10-20", "2027-05-03"},
      {"south, late and early", place(-43, December / 28, February / 20), "2026-12-28",
       "2027-02-20"},
      {"the split's own days, south", place(-43, January / 23, January / 24), "2027-01-23",
       "2027-01-24"},
      {"south, winter's middle", place(-33, July / 1, August / 1), "2026-07-01", "2027-08-01"},
      {"29 February", place(30, February / 29, December / 1), "2027-02-28", "2027-12-01"},
  };
  for (const SeasonRow& row : rows) {
    SCOPED_TRACE(row.name);
    const SeasonFrosts frosts = season_frosts(row.place, 2027);
    EXPECT_EQ(iso(frosts.last), row.last);
    EXPECT_EQ(iso(frosts.first), row.first);
  }
}

// Air: 13 days later, 14 earlier. Safe: 1.2816 x 13 = 16.7 and 1.2816 x 15 = 19.2, whole days.
TEST(SeasonFrosts, BecomeGardenFrosts) {
  const SeasonRow rows[] = {
      {"garden", place(52, May / 11, October / 15, FrostMeaning::Garden), "2027-05-11",
       "2027-10-15"},
      {"air", place(52, April / 28, October / 31, FrostMeaning::Air), "2027-05-11", "2027-10-17"},
      {"safe", place(52, May / 28, September / 26, FrostMeaning::Safe), "2027-05-11", "2027-10-15"},
      {"south, air", place(-36, October / 20, May / 3, FrostMeaning::Air), "2026-11-02",
       "2027-04-19"},
      {"moved across the split", place(64, July / 20, July / 26, FrostMeaning::Air), "2027-08-02",
       "2027-07-12"},
  };
  for (const SeasonRow& row : rows) {
    SCOPED_TRACE(row.name);
    const SeasonFrosts frosts = season_frosts(row.place, 2027);
    EXPECT_EQ(iso(frosts.last), row.last);
    EXPECT_EQ(iso(frosts.first), row.first);
  }
}

// Hupsel, Netherlands (52.1 N): screen 0 degC 28 April and 31 October, screen +2 degC 11 May and
// 15 October. One of the ten records behind the shift, so only near.
TEST(SeasonFrosts, AirFrostOfHupselComesNearItsGardenFrost) {
  const SeasonFrosts frosts =
      season_frosts(place(52.1, April / 28, October / 31, FrostMeaning::Air), 2027);
  EXPECT_LE(std::abs(days_between(frosts.last, make_date(2027, 5, 11))), 3);
  EXPECT_LE(std::abs(days_between(frosts.first, make_date(2027, 10, 15))), 3);
}

}  // namespace
}  // namespace trug::climate
