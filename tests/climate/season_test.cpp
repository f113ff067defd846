// SPDX-License-Identifier: MIT
#include "climate/season.h"

#include <gtest/gtest.h>

namespace trug::climate {
namespace {

using namespace std::chrono;

Place place(double latitude, MonthDay last, MonthDay first) {
  Place place;
  place.latitude = latitude;
  place.last_frost = last;
  place.first_frost = first;
  return place;
}

TEST(Season, RunsFromNewYearAndInTheSouthFromJuly) {
  const auto north = Climate::from(place(52.5, May / 15, October / 15));
  const Season season(north, 2027);
  EXPECT_EQ(iso(season.range().from) + " " + iso(season.range().until), "2027-01-01 2028-01-01");
  EXPECT_EQ(iso(season.lives().from) + " " + iso(season.lives().until), "2025-01-01 2028-01-01");
  const auto south = Climate::from(place(-41, October / 20, May / 1));
  const Season turned(south, 2027);
  EXPECT_EQ(iso(turned.range().from) + " " + iso(turned.range().until), "2026-07-01 2027-07-01");
  EXPECT_EQ(iso(turned.frosts().last) + " " + iso(turned.frosts().first), "2026-10-20 2027-05-01");
}

// Windows name the frosts of the season in which their plants go in.
TEST(Season, WindowsCountFromTheFrostsOfTheirOwnYear) {
  const auto climate = Climate::from(place(52.5, May / 15, October / 15));
  const Season season(climate, 2027);
  const FrostWindow window{{-1, Frost::First}, {0.5, Frost::First}};
  for (const auto& [flowers, days] : {std::pair{FlowersIn::SameYear, "2027-10-08 2027-10-20"},
                                      std::pair{FlowersIn::NextYear, "2026-10-08 2026-10-20"},
                                      std::pair{FlowersIn::ThirdYear, "2025-10-08 2025-10-20"}}) {
    const DateRange range = season.window_days(window, flowers);
    EXPECT_EQ(iso(range.from) + " " + iso(range.until), days);
  }
}

// The sheets' windows describe gardens with 160 days between the frosts; where there are more, a
// tender crop has as many days longer.
TEST(Season, TenderCropsAreBegunLongerWhereAutumnComesLater) {
  Way way;
  way.window = FrostWindow{{0, Frost::Last}, {3, Frost::Last}};
  struct Case {
    MonthDay first_frost;
    FrostClass frost_class;
    const char* until;  // the day after
  };
  for (const Case& one : {Case{October / 15, FrostClass::Tender, "2027-06-06"},
                          Case{November / 4, FrostClass::Tender, "2027-06-19"},
                          Case{November / 4, FrostClass::HalfHardy, "2027-06-06"},
                          Case{November / 4, FrostClass::Hardy, "2027-06-06"}}) {
    const auto climate = Climate::from(place(45, May / 15, one.first_frost));
    Sheet sheet;
    sheet.frost_class = one.frost_class;
    const auto days = Season(climate, 2027).usual_days(way, sheet);
    EXPECT_EQ(iso(days.value().from), "2027-05-15");
    EXPECT_EQ(iso(days.value().until), one.until);
  }
}

// The same for autumn in mild winters: 15 October is 116 days after midsummer, 4 November twenty
// days more. Bulbs wait for the cold.
TEST(Season, AutumnBeginsEarlierWhereWintersAreMildAndFrostComesLate) {
  struct Case {
    MonthDay first_frost;
    double mean_c;  // of each month
    Method method;
    LifeCycle life_cycle;
    const char* from;
  };
  for (const Case& one :
       {Case{October / 15, 9, Method::Seed, LifeCycle::HardyAnnual, "2026-09-17"},
        Case{November / 4, 9, Method::Seed, LifeCycle::HardyAnnual, "2026-09-17"},
        Case{November / 4, 9, Method::Bulb, LifeCycle::Corm, "2026-09-17"},
        Case{November / 4, 9, Method::Bulb, LifeCycle::Bulb, "2026-10-07"},
        Case{November / 4, 6, Method::Seed, LifeCycle::HardyAnnual, "2026-10-07"}}) {
    Way way;
    way.window = FrostWindow{{-4, Frost::First}, {0, Frost::First}};
    way.flowers = FlowersIn::NextYear;
    way.method = one.method;
    Sheet sheet;
    sheet.life_cycle = one.life_cycle;
    Place here = place(45, May / 15, one.first_frost);
    MonthlyMeans means;
    means.mean_c.fill(one.mean_c);
    here.temperatures = means;
    const auto climate = Climate::from(here);
    const Season season(climate, 2027);
    const auto days = season.usual_days(way, sheet);
    EXPECT_EQ(iso(days.value().from), one.from);
    EXPECT_EQ(days.value().until, season.frosts(FlowersIn::NextYear).first + Days{1});
  }
}

// Raised or bought, planted in autumn, in a winter of 6.8 degC and in one three degrees colder: to
// the day on which the average falls under ten, which is in November's last third (its mean
// is 12.0, December's 8.2). Seed keeps its window.
TEST(Season, PlantsGoOutLongerWhereTheyRootAllWinter) {
  const auto until = [](double colder, Method method, std::optional<Range> raised) {
    Place here = place(34, April / 5, November / 5);
    MonthlyMeans means{{6.8, 8.8, 12.6, 16.8, 21.2, 25.1, 26.9, 26.4, 23.3, 17.5, 12.0, 8.2}, {}};
    for (double& mean : means.mean_c) mean -= colder;
    here.temperatures = means;
    Way way;
    way.window = FrostWindow{{-6, Frost::First}, {-2, Frost::First}};
    way.flowers = FlowersIn::NextYear;
    way.method = method;
    way.weeks_under_cover = raised;
    const auto climate = Climate::from(here);
    return Season(climate, 2027).usual_days(way, Sheet{}).value().until;
  };
  const Date usual = make_date(2026, 10, 23);
  for (const Method method : {Method::Seed, Method::BoughtPlants}) {
    const auto raised = method == Method::Seed ? std::optional(Range{10, 12}) : std::nullopt;
    EXPECT_NEAR(days_between(make_date(2026, 11, 25), until(0, method, raised)), 0, 5);
    EXPECT_EQ(until(3, method, raised), usual);
  }
  EXPECT_EQ(until(0, Method::Seed, std::nullopt), usual);
}

// The days under ten hours are PyEphem's (see day_length_test); at 28 degrees there are none.
TEST(Season, EndsByFrost) {
  const auto climate = Climate::from(place(52.5, May / 15, October / 15));
  const Season season(climate, 2027);
  EXPECT_EQ(iso(season.judging_day().value()), "2026-10-26");
  EXPECT_EQ(iso(season.end(FrostClass::Tender)), "2027-10-15");
  EXPECT_EQ(iso(season.end(FrostClass::HalfHardy)), "2027-11-01");
  EXPECT_EQ(iso(season.end(FrostClass::Hardy)), "2027-11-15");
  const auto light = Climate::from(place(28, January / 20, December / 25));
  const Season bright(light, 2027);
  EXPECT_FALSE(bright.judging_day());
  EXPECT_EQ(iso(bright.end(FrostClass::Hardy)), "2028-01-25");
}

TEST(Season, ColdCountsFromAutumnToSpring) {
  const auto north = Climate::from(place(52.5, May / 15, October / 15));
  const DateRange here = Season(north, 2027).cold_months();
  EXPECT_EQ(iso(here.from) + " " + iso(here.until), "2026-10-01 2027-04-16");
  const auto south = Climate::from(place(-41, October / 20, May / 1));
  const DateRange there = Season(south, 2027).cold_months();
  EXPECT_EQ(iso(there.from) + " " + iso(there.until), "2026-04-01 2026-10-16");
}

// 13.5 hours from sunrise to sunset fall on 4 September at 52 N (calculated with PyEphem).
TEST(Season, LightDaysRunFromTheLongestOrACriticalDayToTheCold) {
  Place cool = place(52, May / 15, October / 15);
  cool.temperatures = TwoMeans{10, 17};
  const auto climate = Climate::from(cool);
  const Season season(climate, 2027);
  EXPECT_EQ(iso(season.light_days(24).from), "2027-06-21");
  EXPECT_NEAR(days_between(make_date(2027, 9, 4), season.light_days(13.5).from), 0, 1);
  const Date cold = season.light_days(24).until;
  EXPECT_LT(climate.average_c(cold), 4);
  EXPECT_GE(climate.average_c(cold - Days{1}), 4);
  Place southern = cool;
  southern.latitude = -52;
  const auto turned = Climate::from(southern);
  EXPECT_EQ(iso(Season(turned, 2027).light_days(24).from), "2026-12-21");
}

}  // namespace
}  // namespace trug::climate
