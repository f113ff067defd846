// SPDX-License-Identifier: MIT
#include "climate/season.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>

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

// Northern Japan: a metre of snow until about 5 April, gone for good by the middle of November; and
// a cool coast and a summer that hardly comes (all memory).
Place with_means(Place place, const std::array<double, 12>& mean_c) {
  MonthlyMeans means;
  means.mean_c = mean_c;
  place.temperatures = means;
  return place;
}
Place snowy() {
  return with_means(place(43.1, May / 8, October / 20),
                    {-3.2, -2.7, 1.1, 7.3, 13.0, 17.0, 21.1, 22.3, 18.6, 12.1, 5.2, -0.9});
}
Place coast() {
  return with_means(place(60.4, May / 5, October / 20),
                    {2.6, 2.3, 3.7, 6.8, 10.4, 13.2, 15.3, 15.0, 12.2, 8.6, 5.4, 3.2});
}
Place lowlands() {
  return with_means(place(52.5, May / 15, October / 15),
                    {4.5, 4.8, 6.8, 9.0, 12.2, 15.2, 17.0, 16.8, 14.3, 10.9, 7.2, 4.9});
}

// In spring plants wait until the air averages what they ask, and are then no later than before.
TEST(Season, NothingGoesIntoTheOpenBeforeTheAirIsWarmEnough) {
  struct Case {
    Place place;
    FrostClass frost_class;
    double survives_c;
    Method method;
    Raised raised;
    double earliest, latest;       // weeks from the last frost
    std::optional<double> asks_c;  // nullopt: the window stays as it is
    int sooner = 0;                // days before that
  };
  constexpr auto kHardy = FrostClass::Hardy;
  constexpr auto kHalfHardy = FrostClass::HalfHardy;
  constexpr auto kTender = FrostClass::Tender;
  constexpr auto kSeed = Method::Seed;
  constexpr auto kBulb = Method::Bulb;
  constexpr auto kHere = Raised::InPlace;
  constexpr auto kWarm = Raised::Heated;
  for (const Case& one : {Case{snowy(), kHardy, -20, kSeed, kHere, -10, -2, 5},
                          Case{snowy(), kHardy, -20, kBulb, kHere, -11, -6, 5},
                          Case{snowy(), kHardy, -20, kSeed, kHere, 2, 6, std::nullopt},
                          Case{snowy(), kHalfHardy, -6, kBulb, kHere, -7, 7, 8},
                          Case{snowy(), kTender, 1, kSeed, kWarm, 1, 4, 13.5},
                          Case{coast(), kHardy, -20, kSeed, kHere, -10, -2, 3},
                          Case{coast(), kHalfHardy, -5, kSeed, kWarm, -6, -1, 6},
                          Case{coast(), kHalfHardy, -2, kSeed, kWarm, -3, 2, 9},
                          Case{coast(), kTender, 1, kSeed, kWarm, 0, 6, 11.6},
                          Case{coast(), kTender, 1, kBulb, kHere, -2, 3, 11.6, 21},
                          Case{coast(), kHalfHardy, -2, kSeed, kHere, -3, 2, std::nullopt},
                          Case{lowlands(), kHardy, -20, kSeed, kHere, -10, -2, std::nullopt},
                          Case{lowlands(), kHalfHardy, -5, kSeed, kWarm, -6, -1, std::nullopt}}) {
    SCOPED_TRACE(std::to_string(one.survives_c) + " " + std::to_string(one.earliest));
    Way way{.method = one.method, .raised = one.raised};
    way.window = FrostWindow{{one.earliest, Frost::Last}, {one.latest, Frost::Last}};
    Sheet sheet;
    sheet.survives_c = one.survives_c;
    sheet.frost_class = one.frost_class;
    const auto climate = Climate::from(one.place);
    const Season season(climate, 2027);
    const DateRange before = season.window_days(*way.window, way.flowers);
    const DateRange days = season.usual_days(way, sheet).value();
    if (!one.asks_c) {
      EXPECT_EQ(iso(days.from), iso(before.from));
      EXPECT_EQ(iso(days.until), iso(before.until));
      continue;
    }
    const Date warm = days.from + Days{one.sooner};
    EXPECT_GE(climate.average_c(warm), *one.asks_c - 0.1) << iso(warm);
    EXPECT_LT(climate.average_c(warm - Days{2}), *one.asks_c) << iso(warm);
    EXPECT_GE(days.until, before.until);
    EXPECT_GE(days_between(days.from, days.until),
              std::min(28, days_between(before.from, before.until)));
  }
}

// Bulbs go in before the snow comes, half of them into soil of 10 degC or less.
TEST(Season, AutumnsWindowsEndBeforeTheGroundCloses) {
  const auto bulbs = [](const Place& place, LifeCycle life_cycle) {
    Way way{.method = Method::Bulb};
    way.flowers = FlowersIn::NextYear;
    way.window = FrostWindow{{2, Frost::First}, {8, Frost::First}};
    Sheet sheet;
    sheet.life_cycle = life_cycle;
    const auto climate = Climate::from(place);
    const DateRange days = Season(climate, 2027).usual_days(way, sheet).value();
    return iso(days.from) + " " + iso(days.until - Days{1});
  };
  // 5.2 degC is November's average; 10 degC falls between the middles of October and November.
  EXPECT_EQ(bulbs(snowy(), LifeCycle::Bulb), "2026-10-31 2026-11-16");
  EXPECT_EQ(bulbs(snowy(), LifeCycle::Corm), "2026-10-05 2026-11-16");
  EXPECT_EQ(bulbs(lowlands(), LifeCycle::Bulb), "2026-10-29 2026-12-10") << "as the trade has it";
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
