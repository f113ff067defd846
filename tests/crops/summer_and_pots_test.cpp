// SPDX-License-Identifier: MIT
// What a hot summer and an old pot do to the crops of the sheets: worked by hand from the sheets'
// own figures (memory).
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <string>
#include <variant>

#include "crops/test_garden.h"

namespace trug {
namespace {

// The maxima of maritime(), all as much warmer, so that the hottest month has that one.
Place with_hottest_max(double hottest_c) {
  Place place = maritime();
  auto& means = std::get<MonthlyMeans>(place.temperatures);
  std::array<double, 12> maxima = means.mean_c;
  for (double& month : maxima) month += hottest_c - 17.0;
  means.max_c = maxima;
  return place;
}

// Half a degree under and over its limit, every perennial that has one. The hottest days come at
// the end of July: what is begun before them and flowers after them would have to live through
// them.
TEST(HotSummer, KillsPerennialsAboveTheirLimitAndNoneBelow) {
  int walked = 0;
  for (const Sheet* of : all_sheets()) {
    if (!of->lives_to_mean_max_c) continue;
    SCOPED_TRACE(of->name);
    ++walked;
    const TestGarden cool(with_hottest_max(*of->lives_to_mean_max_c - 0.5));
    const TestGarden hot(with_hottest_max(*of->lives_to_mean_max_c + 0.5));
    for (const ground::Candidate& c : cool.ask(of->name).list) EXPECT_FALSE(c.one_year);
    for (const ground::Candidate& c : hot.ask(of->name).list) {
      EXPECT_TRUE(c.one_year);
      if (of->ways[c.way].method == Method::Established) continue;  // it is told, and stays
      for (const char* july : {"2026-07-15", "2027-07-15"}) {
        const bool through =
            c.start < day(july) && c.timeline.first_flower.likely > day(july) + Days{31};
        EXPECT_FALSE(through) << of->ways[c.way].name << " of " << iso(c.start);
      }
    }
  }
  EXPECT_EQ(walked, 7);
}

// Delphiniums sown in one spring for the next, and what stands already.
TEST(HotSummer, RefusesWhatWouldHaveToLiveThroughItAndTellsWhatStands) {
  const TestGarden hot(with_hottest_max(32));
  const auto delphinium = hot.ask("delphinium");
  const bool refused = std::ranges::any_of(delphinium.reports, [](const ground::WayReport& report) {
    return report.refusal && report.refusal->rule == ground::Rule::SummerHeat;
  });
  EXPECT_TRUE(refused);
  const auto stands = hot.ask("astrantia", "established").list;
  ASSERT_EQ(stands.size(), 1u);
  EXPECT_TRUE(stands.front().one_year);
}

struct Raising {
  double heated_c;
  const char* crop;
  const char* way;
  int longest_days;  // in warmth before it starves: pot_kd over the degrees above 4 degC, a day
};

// 600 degree-days at 26 above 4 degC are 23 days, 450 are 17 (20 weeks or 14 in whole weeks).
TEST(OldPots, NoStartStandsInWarmthForLongerThanItsPotLasts) {
  for (const Raising& row : {Raising{16, "zinnia", "raised in warmth in spring", 50},
                             {30, "zinnia", "raised in warmth in spring", 23},
                             {30, "sunflower", "raised in warmth in spring", 17}}) {
    SCOPED_TRACE(row.crop);
    Place place = maritime();
    place.heated_c = row.heated_c;
    const auto found = TestGarden(place).ask(row.crop, row.way);
    ASSERT_FALSE(found.list.empty());
    int longest = 0;
    for (const ground::Candidate& c : found.list) {
      EXPECT_FALSE(c.starved);
      longest = std::max(longest, days_between(c.start, c.in_ground));
    }
    EXPECT_LE(longest, row.longest_days);
    EXPECT_GT(longest, row.longest_days > 30 ? 27 : row.longest_days - 7);  // the next week is not
  }
}

TEST(OldPots, APinKeepsItsDaysAndIsToldFewerStems) {
  Place place = maritime();
  place.heated_c = 19;  // 42 days at 15 above 4 degC: 630 of the 600
  CropEntry entry;
  entry.pins.start_on = day("2027-04-17");
  entry.pins.plant_on = day("2027-05-29");
  const auto old = TestGarden(place).ask("zinnia", "raised in warmth in spring", entry).list;
  ASSERT_EQ(old.size(), 1u);
  EXPECT_TRUE(old.front().starved);
  entry.pins.start_on = day("2027-05-01");
  const auto young = TestGarden(place).ask("zinnia", "raised in warmth in spring", entry).list;
  ASSERT_EQ(young.size(), 1u);
  EXPECT_FALSE(young.front().starved);
  EXPECT_NEAR(old.front().stem_factor, 0.6 * young.front().stem_factor, 1e-9);
}

}  // namespace
}  // namespace trug
