// SPDX-License-Identifier: MIT
// Winters that chill and winters that do not: what is refused for want of cold, and what bulbs from
// cold storage do there. Places and bands from memory (tests/growth/places.h and bands.tsv).
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <utility>

#include "climate/season.h"
#include "climate/soil.h"
#include "crops/test_garden.h"
#include "growth/places.h"

namespace trug {
namespace {

using ground::Candidate;
using ground::Refusal;
using ground::Rule;

const TestGarden& garden_in(const std::string& place) {
  static std::map<std::string, TestGarden> gardens;
  return gardens.try_emplace(place, six_places().at(place)).first->second;
}

// What one way is refused for, or told where it stands and stays; a test failure where it flowers.
Refusal refusal_of(const std::string& place, const std::string& crop, const std::string& way,
                   CropEntry entry = {}) {
  const auto found = garden_in(place).ask(crop, way, std::move(entry));
  for (const Candidate& c : found.list) {
    EXPECT_TRUE(c.stands && c.without_flower) << crop << ", " << way << ", " << place;
    if (c.against) return *c.against;
  }
  for (const auto& report : found.reports) {
    if (report.refusal && report.refusal->rule != Rule::Pinned) return *report.refusal;
  }
  ADD_FAILURE() << "no reason";
  return {};
}

// The four cells of the bands in which nothing flowers without more ado.
TEST(Chill, WhatFlowersNowhereSaysHowMuchColdItLacks) {
  struct Row {
    std::string crop, group, way;
    double needed;
  };
  const Row rows[] = {
      {"tulip", "mid", "bulbs in late autumn", 100},
      {"allium", "", "bulbs in autumn", 80},
      {"sweet william", "", "sown in summer and planted in autumn", 50},
      {"peony", "", "established", 35},
  };
  for (const Row& row : rows) {
    SCOPED_TRACE(row.crop);
    CropEntry entry;
    if (!row.group.empty()) entry.group = row.group;
    const Refusal refusal = refusal_of("Los Angeles", row.crop, row.way, entry);
    EXPECT_EQ(refusal.rule, Rule::NoFlower);
    EXPECT_TRUE(refusal.chilling);
    EXPECT_EQ(refusal.wanted, row.needed);
    EXPECT_LT(refusal.found, 0.6 * row.needed);
  }
}

TEST(Chill, BulbsFromColdStorageAreForWintersThatDoNotChillThem) {
  for (const std::string crop : {"tulip", "daffodil", "allium"}) {
    for (const std::string place : {"Derby", "Kansas City", "Seattle", "Christchurch"}) {
      EXPECT_EQ(refusal_of(place, crop, "pre-chilled bulbs").rule, Rule::EnoughCold);
    }
    const TestGarden& mild = garden_in("Los Angeles");
    const auto found = mild.ask(crop, "pre-chilled bulbs");
    ASSERT_FALSE(found.list.empty()) << crop;
    const Date coldest = climate::Season(mild.climate(), 2027).coldest_day();
    for (const Candidate& c : found.list) {
      EXPECT_LE(std::abs(days_between(coldest, c.in_ground)), 42) << iso(c.in_ground);
      EXPECT_LT(climate::soil_c(mild.climate(), c.in_ground), 16) << iso(c.in_ground);
      EXPECT_TRUE(c.needs_cold_store);
    }
  }
}

// Tulips in Los Angeles: 20 February to 25 March, planted from the refrigerator on 5 January.
TEST(Chill, TulipsFromColdStorageFlowerInLateWinter) {
  const auto cut =
      garden_in("Los Angeles").first_cut({"tulip", "pre-chilled bulbs", "2027-01-05", "", "mid"});
  ASSERT_TRUE(cut);
  EXPECT_GE(iso(*cut), "2027-02-20");
  EXPECT_LE(iso(*cut), "2027-03-25");
}

// Between six tenths of its cold and the whole, fewer and shorter stems: either way is offered.
// Means near San Francisco (memory).
TEST(Chill, UpToTheWholeOfItsColdStemsAreShort) {
  Place place = maritime();
  place.temperatures =
      MonthlyMeans{{10.5, 11.8, 12.4, 13.3, 14.4, 15.6, 16.0, 16.7, 17.0, 16.3, 13.6, 10.8}, {}};
  const TestGarden mild(place);
  const auto found = mild.ask("tulip", "bulbs in late autumn");
  ASSERT_FALSE(found.list.empty());
  for (const Candidate& c : found.list) {
    EXPECT_GE(c.cold_share(), 0.6);
    EXPECT_LT(c.cold_share(), 1);
    EXPECT_DOUBLE_EQ(c.stem_factor, c.cold_share());
    EXPECT_FALSE(c.needs_cold_store);
  }
  EXPECT_FALSE(mild.ask("tulip", "pre-chilled bulbs").list.empty());
}

// Larkspur seed lies in a refrigerator before it is sown into warm soil; sown into winter's soil in
// Kansas, which is at 7 degC until the last week of March, the ground chills it (common practice).
TEST(Chill, SeedSownIntoColdGroundIsNotChilledBefore) {
  struct Row {
    std::string way, start;
    bool chilled;
  };
  for (const Row& row : {Row{"sown in place in spring", "2027-03-02", false},
                         {"sown in place in spring", "2027-04-10", true},
                         {"sown in place in autumn", "2026-10-05", true}}) {
    CropEntry entry{.crop = "larkspur"};
    entry.pins.way = row.way;
    entry.pins.start_on = day(row.start);
    EXPECT_EQ(garden_in("Kansas City").job_day(entry, work::JobKind::PreTreat).has_value(),
              row.chilled)
        << row.start;
  }
}

}  // namespace
}  // namespace trug
