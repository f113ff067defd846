// SPDX-License-Identifier: MIT
// What a hot summer and an old pot do to the crops of the sheets: worked by hand from the sheets'
// own figures (memory).
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <string>
#include <variant>

#include "crops/test_garden.h"
#include "growth/places.h"

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

// Dahlias are slow over 31 degC by day: in Kansas from the end of June, first cut when they would
// be all the same, and two fifths of the stems until it is cooler (bands of growers: first cut 5 to
// 28 July, best 10 September to 20 October, memory). England never is so hot.
TEST(HotSummer, SlowsDahliasAndStopsThemNowhere) {
  Sheet unmoved = sheet("dahlia");
  unmoved.stop_above_max_c.reset();
  for (const char* where : {"Kansas City", "Derby"}) {
    SCOPED_TRACE(where);
    const Place& place = six_places().at(where);
    const auto climate = climate::Climate::from(place);
    const growth::CropClock hot(climate, sheet("dahlia"), nullptr, 2027);
    const growth::CropClock plain(climate, unmoved, nullptr, 2027);
    const Way& potted = sheet("dahlia").ways.front();
    const Date start = day("2027-03-22"), out = day("2027-05-05");
    const auto timeline = hot.timeline(potted, start, out).value();
    const auto free = plain.timeline(potted, start, out).value();
    EXPECT_EQ(timeline.first_cut.likely, free.first_cut.likely);
    ASSERT_EQ(timeline.shares.size(), free.shares.size());
    ASSERT_EQ(timeline.slow.has_value(), std::string(where) == "Kansas City");
    int slow = 0;
    for (std::size_t i = 0; i < free.shares.size(); ++i) {
      const Date cut = timeline.first_cut.likely + Days{static_cast<int>(i)};
      const bool is_slow = timeline.slow && timeline.slow->contains(cut);
      EXPECT_NEAR(timeline.shares[i], free.shares[i] * (is_slow ? 0.4 : 1), 1e-12) << iso(cut);
      slow += is_slow ? 1 : 0;
    }
    if (!timeline.slow) continue;
    EXPECT_GT(slow, 28);
    EXPECT_GT(iso(timeline.slow->from), "2027-06-23");
    EXPECT_LT(iso(timeline.slow->until), "2027-09-15");
  }
}

// In Kansas the soil has the 21 degC that zinnias come up in (Nichols Garden Nursery) from about
// the turn of May: later ones are sown where they are to flower (common practice), in England,
// where it never is so warm, raised all the same; and what the plan asks for stands.
TEST(HotSummer, SowsLateZinniasWhereTheyAreToFlower) {
  const std::string warm = "raised in warmth in spring", in_place = "sown in place in spring";
  const auto latest_start = [](const ground::Candidates& found, const std::string& way) {
    Date latest = day("2027-01-01");
    for (const ground::Candidate& c : found.list) {
      if (sheet("zinnia").ways[c.way].name == way) latest = std::max(latest, c.start);
    }
    return iso(latest);
  };
  const TestGarden kansas(six_places().at("Kansas City"));
  const auto free = kansas.ask("zinnia");
  EXPECT_LT(latest_start(free, warm), "2027-06-10");
  EXPECT_GT(latest_start(free, in_place), "2027-07-10");
  EXPECT_GT(latest_start(TestGarden(six_places().at("Derby")).ask("zinnia"), warm), "2027-06-10");
  EXPECT_GT(latest_start(kansas.ask("zinnia", warm), warm), "2027-06-20");
}

// Planted in Kansas in late winter ranunculus flowers a week before the heat stops it: it is cut
// for that week (growers there plant it so: memory), and not a day into the heat.
TEST(HotSummer, LeavesRanunculusAWeekInKansas) {
  const TestGarden kansas(six_places().at("Kansas City"));
  const auto list = kansas.ask("ranunculus").list;
  ASSERT_FALSE(list.empty());
  for (const ground::Candidate& c : list) {
    EXPECT_EQ(sheet("ranunculus").ways[c.way].name, "corms in late winter");
    EXPECT_GE(c.timeline.first_cut.likely, c.timeline.first_flower.likely);
    EXPECT_LT(c.timeline.last_cut(), c.timeline.too_hot_from.value());
    EXPECT_GE(days_between(c.timeline.first_flower.likely, *c.timeline.too_hot_from), 1);
  }
}

// Larkspur of Kansas: heat ends it whenever it was sown, and so the sooner it flowers the more it
// gives, to the day.
TEST(HotSummer, WhatFlowersSoonerGivesMoreBeforeTheHeat) {
  const TestGarden kansas(six_places().at("Kansas City"));
  const auto list = kansas.ask("larkspur", "sown in place in spring").list;
  ASSERT_GT(list.size(), 20u);
  const auto stems = [](const ground::Candidate& c) {
    double sum = 0;
    for (const double share : c.timeline.shares) sum += share;
    return sum;
  };
  for (std::size_t i = 1; i < list.size(); ++i) {
    const ground::Candidate& sooner = list[i - 1];
    const ground::Candidate& later = list[i];
    SCOPED_TRACE(iso(later.start));
    ASSERT_TRUE(later.timeline.too_hot_from);
    EXPECT_LE(stems(later), stems(sooner) + 1e-12);
    if (sooner.timeline.first_flower.likely < later.timeline.first_flower.likely) {
      EXPECT_LT(stems(later), stems(sooner));
    }
  }
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
