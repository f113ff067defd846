// SPDX-License-Identifier: MIT
// Winters colder by a degree at a time: what lives through them, what is told, and nothing by a
// jump. The shares of six places are worked by hand from the sheets' figures (memory).
#include <gtest/gtest.h>

#include <algorithm>
#include <optional>
#include <string>

#include "base/text.h"
#include "crops/test_garden.h"
#include "growth/places.h"
#include "growth/winter.h"

namespace trug {
namespace {

// A degree more or less takes a seventh of what lives at most, where the curve is steepest; what
// is refused had no more left to lose.
constexpr double kMostOfAStep = 0.19;

// The most that a plant of the crop gives after a winter with that night; 0: it is not grown over
// the winter.
double best_factor(const std::string& crop, const std::string& way, double coldest_c) {
  Place place = maritime();
  place.coldest_c = coldest_c;
  double best = 0;
  for (const ground::Candidate& c : TestGarden(place).ask(crop, way).list) {
    if (c.overwinters) best = std::max(best, c.stem_factor);
  }
  return best;
}

TEST(Hardiness, NoDegreeOfTheColdestNightIsAJump) {
  struct Row {
    std::string crop, way;
    double least;  // under it refused: survives_c less the cover, less 7.1
  };
  for (const Row& row : {Row{"larkspur", "sown in place in autumn", -31.1},
                         {"cornflower", "sown in place in autumn", -28.1},
                         {"ammi", "sown in place in autumn", -24.1},
                         {"sweet pea", "pots in a frame over winter", -19.1},
                         {"sweet pea", "sown in place in autumn", -18.1},
                         {"tulip", "bulbs in late autumn", -45.1}}) {
    SCOPED_TRACE(row.crop);
    std::optional<double> warmer;
    for (double coldest_c = 2; coldest_c >= -32; --coldest_c) {
      const double now = best_factor(row.crop, row.way, coldest_c);
      if (warmer) {
        EXPECT_LE(now, *warmer) << coldest_c;
        EXPECT_LT(*warmer - now, kMostOfAStep) << coldest_c;
      } else {
        EXPECT_GT(now, 0);
      }
      EXPECT_EQ(now > 0, coldest_c > row.least) << coldest_c;
      warmer = now;
    }
  }
}

// Mild winters let sweet peas stand where they were sown (common practice), and they are cut
// three weeks before those of spring; in Kansas nobody sows them so by choice.
TEST(Hardiness, SweetPeasSownInAutumnAreForMildWinters) {
  const auto first = [](const std::string& place, const std::string& way) {
    const TestGarden garden(six_places().at(place));
    const std::size_t asked = way_index(sheet("sweet pea"), way);
    std::optional<Date> earliest;
    for (const ground::Candidate& c : garden.ask("sweet pea").list) {
      if (c.way != asked) continue;
      earliest = std::min(earliest.value_or(Date::max()), c.timeline.first_cut.likely);
    }
    return earliest;
  };
  EXPECT_FALSE(first("Kansas City", "sown in place in autumn"));
  for (const char* mild : {"Los Angeles", "Seattle"}) {
    const auto autumn = first(mild, "sown in place in autumn");
    ASSERT_TRUE(autumn) << mild;
    EXPECT_GT(days_between(*autumn, first(mild, "sown in place in spring").value()), 21) << mild;
  }
}

// What is left in the ground in the six climates, bare and under mulch (dahlias that are not
// lifted; hand-worked: deviations from the middle by the sheet's survives_c and mulch_gain_c).
TEST(Hardiness, SharesOfSixPlaces) {
  struct Row {
    std::string place, crop;
    double bare, covered;
  };
  for (const Row& row : {Row{"Kansas City", "rose", 1.0, 1.0},
                         {"Kansas City", "dutch iris", 0.84, 1.0},
                         {"Kansas City", "larkspur", 0.91, 0.99},
                         {"Kansas City", "cornflower", 0.63, 0.91},
                         {"Kansas City", "ammi", 0.16, 0.50},
                         {"Kansas City", "chrysanthemum", 0.05, 0.50},
                         {"Kansas City", "dahlia", 0.0, 0.0},
                         {"Derby", "dahlia", 0.75, 0.95},
                         {"Seattle", "dahlia", 0.75, 0.95},
                         {"Christchurch", "dahlia", 0.91, 0.99},
                         {"Strathspey", "dahlia", 0.02, 0.16},
                         {"Los Angeles", "dahlia", 1.0, 1.0},
                         {"Strathspey", "wallflower", 0.91, 0.99}}) {
    const Place& place = six_places().at(row.place);
    const growth::Survival found =
        growth::in_bed(climate::Climate::from(place), sheet(row.crop), place.coldest_c.value());
    EXPECT_NEAR(found.bare, row.bare, 0.01) << row.place << " " << row.crop;
    EXPECT_NEAR(found.covered, row.covered, 0.01) << row.place << " " << row.crop;
  }
}

// By choice nothing stands over a winter that fewer than half live through; in Kansas anemones
// are planted when it is past, and in autumn only where the plan says so.
TEST(Hardiness, NobodyPlantsByChoiceWhatFewerThanHalfLiveThrough) {
  for (const std::string where : {"Kansas City", "Strathspey"}) {
    const TestGarden garden(six_places().at(where));
    for (const Sheet* of : all_sheets()) {
      for (const ground::Candidate& c : garden.ask(of->name).list) {
        if (c.stands || !c.overwinters) continue;
        EXPECT_GE(c.alive, 0.5) << where << ": " << of->name << ", " << of->ways[c.way].name;
      }
    }
  }
  const TestGarden kansas(six_places().at("Kansas City"));
  const auto free = kansas.ask("anemone").list;
  ASSERT_FALSE(free.empty());
  for (const ground::Candidate& c : free) {
    EXPECT_EQ(sheet("anemone").ways[c.way].name, "corms in late winter");
  }
  const auto named = kansas.ask("anemone", "corms in autumn, open ground").list;
  ASSERT_FALSE(named.empty());
  EXPECT_NEAR(named.front().alive, 0.159, 0.001);  // a deviation short of half, by any table
}

// A chrysanthemum is lifted where a mulch does not bring it through, and only there.
TEST(Hardiness, WhatMulchDoesNotBringThroughIsLifted) {
  CropEntry entry;
  entry.crop = "chrysanthemum";
  entry.group = "early";
  EXPECT_TRUE(
      TestGarden(six_places().at("Kansas City")).job_day(entry, work::JobKind::LiftAndStore));
  EXPECT_FALSE(TestGarden(six_places().at("Derby")).job_day(entry, work::JobKind::LiftAndStore));
}

// Sown late, larkspur is thinned in spring; its fleece is laid in autumn all the same.
TEST(Hardiness, FleeceDoesNotWaitForThinning) {
  Place place = maritime();
  place.coldest_c = -22;
  CropEntry entry{.crop = "larkspur"};
  entry.pins.way = "sown in place in autumn";
  entry.pins.start_on = day("2026-10-10");
  const TestGarden garden(place);
  const auto fleece = garden.job_day(entry, work::JobKind::Protect);
  const auto thinned = garden.job_day(entry, work::JobKind::Thin);
  ASSERT_TRUE(fleece && thinned);
  EXPECT_GT(iso(*thinned), "2027-01-01");
  EXPECT_LT(iso(*fleece), "2026-12-31");
}

}  // namespace
}  // namespace trug
