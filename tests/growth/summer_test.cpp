// SPDX-License-Identifier: MIT
#include "growth/summer.h"

#include <gtest/gtest.h>

#include <vector>

#include "growth/places.h"

namespace trug::growth {
namespace {

struct Here {
  explicit Here(const Place& place)
      : climate(climate::Climate::from(place)), season(climate, 2027) {}
  climate::Climate climate;
  climate::Season season;
};

Here at(const std::string& place) { return Here(six_places().at(place)); }

// Calculated separately in Python from the same curves; tolerance two days.
TEST(TooHot, BeginsWhenTheAverageMaximumHasPassedTheLimitForAWeek) {
  const Here kansas = at("Kansas City");
  for (const auto& [limit, day] : {std::pair{28.5, make_date(2027, 6, 10)},
                                   {30.0, make_date(2027, 6, 21)},
                                   {31.0, make_date(2027, 6, 30)}}) {
    Sheet sheet;
    sheet.stop_above_max_c = limit;
    const auto spells = too_hot(kansas.season, sheet, make_date(2027, 5, 1));
    ASSERT_EQ(spells.size(), 1u);
    EXPECT_NEAR(days_between(day, spells[0].from), 0, 2) << limit;
    EXPECT_EQ(spells[0].until, kansas.season.range().until);
  }
  Sheet sheet;
  sheet.stop_above_max_c = 28.5;
  EXPECT_TRUE(too_hot(at("Seattle").season, sheet, make_date(2027, 5, 1)).empty());
  EXPECT_TRUE(too_hot(at("Christchurch").season, sheet, make_date(2026, 11, 1)).empty());
  const auto south = too_hot(at("Los Angeles").season, sheet, make_date(2027, 5, 1));
  ASSERT_EQ(south.size(), 1u);
  EXPECT_NEAR(days_between(make_date(2027, 7, 18), south[0].from), 0, 2);
}

TEST(TooHot, APauseEndsThreeDegreesCooler) {
  Sheet sheet;
  sheet.stop_above_max_c = 31;
  sheet.when_hot = WhenHot::Pauses;
  const Here kansas = at("Kansas City");
  const auto spells = too_hot(kansas.season, sheet, make_date(2027, 5, 1));
  ASSERT_EQ(spells.size(), 1u);
  const Date cool = spells[0].until;
  EXPECT_LT(kansas.climate.max_c(cool).value(), 28);
  EXPECT_GE(kansas.climate.max_c(cool - Days{1}).value(), 28);
  EXPECT_TRUE(too_hot(kansas.season, sheet, cool).empty());
}

// Day by day, as the rule is said: hot after a week above the limit, until three degrees under it.
std::vector<DateRange> day_by_day(const climate::Season& season, const Sheet& sheet, Date from) {
  std::vector<DateRange> spells;
  const double limit = sheet.stop_above_max_c.value();
  int held = 0;
  bool hot = false;
  for (Date day = from; day < season.range().until; day += Days{1}) {
    const double maximum = season.climate().likely_max_c(day);
    if (hot && maximum < limit - 3) {
      spells.back().until = day;
      hot = false;
    }
    held = maximum > limit ? held + 1 : 0;
    if (hot || held < 7) continue;
    spells.push_back({day - Days{6}, season.range().until});
    if (sheet.when_hot == WhenHot::Ends) break;
    hot = true;
  }
  return spells;
}

TEST(TooHot, IsTheSameAsLookedAtDayByDay) {
  for (const auto& [name, place] : six_places()) {
    const auto climate = climate::Climate::from(place);
    const climate::Season season(climate, 2027);
    for (const WhenHot when : {WhenHot::Ends, WhenHot::Pauses}) {
      for (double limit = 18; limit <= 32; ++limit) {
        Sheet sheet;
        sheet.stop_above_max_c = limit;
        sheet.when_hot = when;
        for (Date from = season.range().from; from < season.range().until; from += Days{11}) {
          const auto found = too_hot(season, sheet, from);
          const auto expected = day_by_day(season, sheet, from);
          ASSERT_EQ(found.size(), expected.size()) << name << " " << limit << " " << iso(from);
          for (std::size_t i = 0; i < found.size(); ++i) {
            EXPECT_EQ(found[i].from, expected[i].from) << name << " " << limit << " " << iso(from);
            EXPECT_EQ(found[i].until, expected[i].until)
                << name << " " << limit << " " << iso(from);
          }
        }
      }
    }
  }
}

TEST(TooHot, GuessedMaximaMustBeTwoDegreesBeyondTheLimit) {
  Place place = six_places().at("Kansas City");
  std::get<MonthlyMeans>(place.temperatures).max_c.reset();
  const Here guessed(place);
  Sheet sheet;
  sheet.stop_above_max_c = 28.5;
  const auto spells = too_hot(guessed.season, sheet, make_date(2027, 5, 1));
  ASSERT_EQ(spells.size(), 1u);
  EXPECT_GT(guessed.climate.likely_max_c(spells[0].from), 30.5);
  EXPECT_LE(guessed.climate.likely_max_c(spells[0].from - Days{1}), 30.5);
}

// Cornell's advice for larkspur, soil under 18 degC: in Kansas City from about 1 October.
TEST(TooWarmToSow, LarkspurWaitsForOctoberInKansas) {
  const Here kansas = at("Kansas City");
  Sheet sheet;
  sheet.germination_max_soil_c = 18;
  const Way in_place{.name = "", .method = Method::Seed};
  Date day = make_date(2026, 8, 1);
  while (too_warm_to_sow(kansas.climate, sheet, in_place, day)) day += Days{1};
  EXPECT_NEAR(days_between(make_date(2026, 10, 1), day), 0, 7);
  const Date august = make_date(2026, 8, 20);
  for (const auto& [method, raised, warm] : {std::tuple{Method::Seed, Raised::Frame, true},
                                             {Method::Seed, Raised::Heated, false},
                                             {Method::Bulb, Raised::InPlace, true},
                                             {Method::BoughtPlants, Raised::InPlace, false}}) {
    const Way way{.name = "", .method = method, .raised = raised};
    EXPECT_EQ(too_warm_to_sow(kansas.climate, sheet, way, august), warm);
  }
}

TEST(DiesInSummer, ByTheHottestMonth) {
  Sheet sheet;
  EXPECT_FALSE(dies_in_summer(at("Kansas City").climate, sheet));
  sheet.lives_to_mean_max_c = 31;
  EXPECT_TRUE(dies_in_summer(at("Kansas City").climate, sheet));
  EXPECT_FALSE(dies_in_summer(at("Derby").climate, sheet));
}

}  // namespace
}  // namespace trug::growth
