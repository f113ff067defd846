// SPDX-License-Identifier: MIT
#include "growth/crop_clock.h"

#include <gtest/gtest.h>

#include <cstddef>
#include <numeric>
#include <vector>

#include "growth/places.h"
#include "lowland.h"

namespace trug::growth {
namespace {

Sheet bulb() {
  Sheet sheet;
  sheet.life_cycle = LifeCycle::Bulb;
  sheet.survives_c = -25;
  sheet.habit = Habit::Single;
  sheet.cutting_weeks = {2, 2};
  Way way;
  way.method = Method::Bulb;
  way.window = FrostWindow{{2, Frost::First}, {8, Frost::First}};
  way.flowers = FlowersIn::NextYear;
  way.first_flower = FrostWindow{{-4, Frost::Last}, {-2, Frost::Last}};
  sheet.ways = {way};
  return sheet;
}

TEST(CropClock, WindowsCountFromTheFrostsOfTheirOwnYear) {
  const auto climate = climate::Climate::from(lowland());
  const Sheet sheet = bulb();
  const CropClock clock(climate, sheet, nullptr, 2027);
  const DateRange window = clock.window_days(*sheet.ways[0].window, FlowersIn::NextYear);
  EXPECT_EQ(iso(window.from), "2026-10-29");
  EXPECT_EQ(iso(window.until), "2026-12-11");
}

// Bulbs: the middle of their window whenever they are planted, 4.5 days a degree of spring
// (memory).
TEST(CropClock, BulbsMoveWithTheSpringNotWithTheirPlanting) {
  const Sheet sheet = bulb();
  Place place = lowland();
  const auto likely = [&](Date planted) {
    const auto climate = climate::Climate::from(place);
    return CropClock(climate, sheet, nullptr, 2027)
        .timeline(sheet.ways[0], planted, planted)
        ->first_cut.likely;
  };
  const Date here = likely(make_date(2026, 11, 14));
  EXPECT_EQ(here, likely(make_date(2026, 12, 5)));
  EXPECT_NEAR(days_between(make_date(2027, 4, 24), here), 0, 2);
  for (double& mean : std::get<MonthlyMeans>(place.temperatures).mean_c) mean += 2;
  EXPECT_EQ(days_between(likely(make_date(2026, 11, 14)), here), 9);
}

TEST(CropClock, WithoutTemperaturesTheWindowsAreWide) {
  Place place = lowland();
  place.temperatures = NoTemperatures{};
  const auto climate = climate::Climate::from(place);
  Sheet sheet = bulb();
  sheet.life_cycle = LifeCycle::HardyAnnual;
  sheet.growth =
      Growth{.base_c = 4, .top_c = 24, .heat_to_respond_kd = 200, .heat_to_first_flower_kd = 400};
  const auto spread = [&] {
    const auto t = CropClock(climate, sheet, nullptr, 2027)
                       .timeline(sheet.ways[0], make_date(2026, 11, 1), make_date(2026, 11, 1));
    EXPECT_EQ(t->basis, Basis::Window);
    return days_between(t->first_cut.early, t->first_cut.late);
  };
  EXPECT_EQ(spread(), 42);
  sheet.growth->base_c = 8;  // heat lovers
  EXPECT_EQ(spread(), 70);
}

// A group that loves heat does so though its sheet does not.
TEST(CropClock, AGroupsOwnHeatDecidesHowWideItsWindowIs) {
  Place place = lowland();
  place.temperatures = NoTemperatures{};
  const auto climate = climate::Climate::from(place);
  const climate::Season season(climate, 2027);
  Sheet sheet = bulb();
  sheet.growth = Growth{.base_c = 4, .top_c = 24, .heat_to_first_flower_kd = 400};
  sheet.groups = {Group{.name = "hot", .growth = Growth{.base_c = 8, .top_c = 30}}};
  const Date planted = make_date(2026, 11, 1);
  const auto t = CropClock(season, CropSpec(sheet, &sheet.groups[0]))
                     .timeline(sheet.ways[0], planted, planted)
                     .value();
  EXPECT_EQ(days_between(t.first_cut.early, t.first_cut.late), 70);
}

// Heat stops a crop that goes by windows as it does one that goes by heat; only where the plan
// gives maxima.
TEST(CropClock, HeatStopsCutting) {
  Place place = lowland();
  const std::array<double, 12> maxima = {7, 8, 11, 14, 18, 21, 24, 23, 19, 15, 10, 8};
  std::get<MonthlyMeans>(place.temperatures).max_c = maxima;
  const auto climate = climate::Climate::from(place);
  Sheet sheet = bulb();
  sheet.life_cycle = LifeCycle::Corm;
  sheet.habit = Habit::CutAndComeAgain;
  sheet.cutting_weeks = {14, 14};
  const Date planted = make_date(2026, 11, 14);
  const auto free =
      CropClock(climate, sheet, nullptr, 2027).timeline(sheet.ways[0], planted, planted).value();
  EXPECT_FALSE(free.too_hot_from);
  sheet.stop_above_max_c = 20;
  const CropClock clock(climate, sheet, nullptr, 2027);
  const auto stopped = clock.timeline(sheet.ways[0], planted, planted).value();
  ASSERT_TRUE(stopped.too_hot_from);
  EXPECT_TRUE(stopped.cut_short);
  EXPECT_EQ(stopped.last_cut(), *stopped.too_hot_from - Days{1});
  EXPECT_LT(stopped.last_cut(), free.last_cut());
  EXPECT_GT(climate.max_c(*stopped.too_hot_from), 20);
  EXPECT_LE(climate.max_c(stopped.last_cut()), 20);
  sheet.stop_above_max_c = 40;
  EXPECT_FALSE(CropClock(climate, sheet, nullptr, 2027)
                   .timeline(sheet.ways[0], planted, planted)
                   ->too_hot_from);
}

// Begun one to five weeks after the last frost, in flower so many weeks after it and two more.
Way in_flower_from(double weeks) {
  Way way;
  way.window = FrostWindow{{1, Frost::Last}, {5, Frost::Last}};
  way.first_flower = FrostWindow{{weeks, Frost::Last}, {weeks + 2, Frost::Last}};
  return way;
}

TEST(CropClock, AutumnIsSlowAndEndsWithTheSeason) {
  Place place = lowland();
  place.temperatures = NoTemperatures{};
  const auto climate = climate::Climate::from(place);
  Sheet sheet;
  sheet.survives_c = 0;
  sheet.habit = Habit::CutAndComeAgain;
  sheet.cutting_weeks = {14, 14};
  const Way way = in_flower_from(11);
  sheet.ways = {way};
  const CropClock clock(climate, sheet, nullptr, 2027);
  const auto timeline = clock.timeline(way, make_date(2027, 6, 5), make_date(2027, 6, 5));
  ASSERT_TRUE(timeline);
  EXPECT_TRUE(timeline->cut_short);
  EXPECT_EQ(iso(timeline->last_cut()), "2027-10-15");
  const auto share = [&](unsigned month, unsigned day) {
    return timeline->shares[static_cast<std::size_t>(
        days_between(timeline->first_cut.likely, make_date(2027, month, day)))];
  };
  EXPECT_NEAR(share(10, 1) / share(9, 30), 0.4, 0.001);
}

// The paces from the first of August (south February) on of tubers in flower by then, which meet no
// frost before the end of November (May).
std::vector<double> autumn_paces(Place place) {
  const bool south = place.latitude < 0;
  using namespace std::chrono;
  place.last_frost = south ? September / 15 : March / 15;
  place.first_frost = south ? May / 31 : November / 30;
  const auto climate = climate::Climate::from(place);
  Sheet sheet;
  sheet.life_cycle = LifeCycle::Tuber;
  sheet.habit = Habit::Limited;
  sheet.cutting_weeks = {4, 4};
  const Way way = in_flower_from(10);
  sheet.ways = {way};
  const Date out = south ? make_date(2026, 10, 1) : make_date(2027, 4, 1);
  const auto timeline = CropClock(climate, sheet, nullptr, 2027).timeline(way, out, out).value();
  const Date from = make_date(2027, south ? 2 : 8, 1);
  const int before = days_between(timeline.first_cut.likely, from);
  std::vector<double> paces(timeline.shares.begin() + before, timeline.shares.end());
  for (double& pace : paces) pace /= timeline.shares[static_cast<std::size_t>(before)];
  return paces;
}

// October's share (April's) of what came before, and the tenth of November's (May's): what growers
// see of dahlias, memory.
TEST(CropClock, AutumnSlowsByColdAndShortDaysOfThePlaceNotInOneDay) {
  struct Row {
    const char* place;
    double least, most, november_most;
  };
  for (const Row& row : {Row{"Derby", 0.35, 0.6, 0.15},
                         {"Strathspey", 0.1, 0.4, 0.1},
                         {"Seattle", 0.45, 0.7, 0.25},
                         {"Christchurch", 0.55, 0.8, 0.55},
                         {"Kansas City", 0.7, 0.95, 0.6},
                         {"Los Angeles", 1, 1, 1}}) {
    SCOPED_TRACE(row.place);
    const std::vector<double> paces = autumn_paces(six_places().at(row.place));
    const auto october = paces.begin() + (six_places().at(row.place).latitude < 0 ? 59 : 61);
    const double mean = std::accumulate(october, october + 30, 0.0) / 30;
    EXPECT_GE(mean, row.least);
    EXPECT_LE(mean, row.most);
    EXPECT_LE(october[40], row.november_most);
    for (std::size_t i = 1; i < paces.size(); ++i) EXPECT_GT(paces[i], paces[i - 1] - 0.05) << i;
    EXPECT_GT(paces[31], 0.95) << "the first of September, south of March";
  }
}

// Cut again and again from midsummer, in a place without frost before winter.
TEST(CropClock, HardyAnnualsGoToSeedWhileOthersGoOn) {
  Place place = lowland();
  place.last_frost = std::chrono::March / 1;
  const auto climate = climate::Climate::from(place);
  Sheet sheet;
  sheet.survives_c = -10;
  sheet.habit = Habit::CutAndComeAgain;
  sheet.cutting_weeks = {6, 6};
  Way way;
  way.window = FrostWindow{{1, Frost::Last}, {5, Frost::Last}};
  way.first_flower = FrostWindow{{11, Frost::Last}, {13, Frost::Last}};
  sheet.ways = {way};
  const auto cut_for = [&](LifeCycle life_cycle) {
    sheet.life_cycle = life_cycle;
    const Date out = make_date(2027, 3, 15);
    const auto timeline = CropClock(climate, sheet, nullptr, 2027).timeline(way, out, out);
    EXPECT_FALSE(timeline->cut_short);
    return static_cast<int>(timeline->shares.size());
  };
  const int annual = cut_for(LifeCycle::HardyAnnual);
  EXPECT_NEAR(annual, (6 + 4) * 7, 1);
  EXPECT_EQ(cut_for(LifeCycle::HalfHardyAnnual), annual + 8 * 7);
  EXPECT_EQ(cut_for(LifeCycle::Bulb), annual - 4 * 7);
}

}  // namespace
}  // namespace trug::growth
