// SPDX-License-Identifier: MIT
// How much ground a wish takes, and which plants no week needs.
#include "ask/wish_ground.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <string>
#include <vector>

#include "ask/spare_plants.h"
#include "plan_text.h"
#include "work/planned.h"

namespace trug::ask {
namespace {

std::string wish(double vases, const std::string& more = "") {
  return "[wish]\nvases_per_week = " + std::to_string(vases) +
         "\nstems_per_vase = 12\nfrom = \"1 June\"\nto = \"26 September\"\n" + more;
}

const std::string kLike =
    "like = [\"sweet william\", \"cosmos\", \"zinnia\", \"ammi\", \"calendula\", \"statice\", "
    "\"snapdragon\"]\n";

struct Asked {
  Planned p;
  ground::Sheets sheets;  // every one
  WishGround ground;
};

Asked asked(const std::string& text) {
  Asked result{planned("", text), {}, {}};
  Diagnostics diagnostics;
  for (const std::string& name : result.p.all_sheets->names()) {
    result.sheets[name] = result.p.all_sheets->find(name, diagnostics);
  }
  result.ground =
      wish_ground({result.p.plan, result.sheets, *result.p.climate, make_date(2026, 1, 1)});
  return result;
}

// The stems of all that is planted, counted again by week: full but where it says so.
void expect_full(const GroundNeeded& need, const Plan& plan, const climate::Climate& climate) {
  const DateRange days = *harvest::wish_days(plan, climate);
  std::size_t week = 0;
  for (Date monday = monday_of(days.from); monday < days.until; monday += Days{7}, ++week) {
    std::map<std::string, harvest::Kind> kinds;
    for (const Planted& planted : need.planted) {
      const Sheet& sheet = *planted.growing.sheet;
      harvest::Kind& kind = kinds[sheet.name];
      kind.part = harvest::part_of(sheet.roles.front());
      kind.stems += planted.plants * planted.growing.stems.at(week);
    }
    std::vector<harvest::Kind> list;
    for (const auto& [name, kind] : kinds) list.push_back(kind);
    const bool full =
        harvest::vase(harvest::wanted(*plan.wish), list).state() == harvest::WeekState::Full;
    const bool lacking = std::ranges::find(need.lacking, monday) != need.lacking.end();
    EXPECT_NE(full, lacking) << iso(monday);
  }
}

TEST(WishGround, FillsTheWeeksItSaysItFills) {
  for (const double vases : {0.5, 1.0, 3.0, 20.0}) {
    for (const std::string& like : {std::string(), kLike}) {
      SCOPED_TRACE(std::to_string(vases) + (like.empty() ? "" : " liked"));
      const Asked a = asked(wish(vases, like));
      expect_full(a.ground.as_wished, a.p.plan, *a.p.climate);
      // Of 17; at the ends of the wish the flowers may not be worth their ground, and of the seven
      // that are liked the fillers of June are over before those of August begin.
      EXPECT_LE(a.ground.as_wished.lacking.size(), like.empty() ? 2u : 3u);
    }
  }
}

// Three to five of a kind suffice for a household (common practice); a liked kind has its three.
TEST(WishGround, HasAFewOfEachKind) {
  const Asked a = asked(wish(1, kLike));
  const GroundNeeded& need = a.ground.as_wished;
  EXPECT_EQ(need.crops.size(), 7u);
  EXPECT_TRUE(a.ground.not_grown.empty());
  int few = 0;
  for (const GroundCrop& crop : need.crops) {
    SCOPED_TRACE(crop.sheet->name);
    EXPECT_GE(crop.plants.likely, 3);
    EXPECT_LE(crop.plants.low, crop.plants.likely);
    EXPECT_LE(crop.plants.likely, crop.plants.high);
    EXPECT_LE(crop.m2.low, crop.m2.high);
    EXPECT_LE(crop.first_week, crop.last_week);
    if (crop.plants.likely <= 5) ++few;
  }
  EXPECT_GE(few, 3);
  EXPECT_LE(need.shared_m2.likely, need.m2.likely + 1e-9);
  EXPECT_GE(need.shared_m2.likely * 2, need.m2.likely);
}

// Our own reckoning: the fewest of a kind and the price of kinds weigh on small wishes alone.
TEST(WishGround, OfTwelveTimesTheVasesIsNineTimesTheGroundAtLeast) {
  for (const double vases : {1.0, 2.0, 5.0}) {
    SCOPED_TRACE(vases);
    const Asked small = asked(wish(vases)), large = asked(wish(12 * vases));
    EXPECT_GE(large.ground.as_wished.m2.likely, 9 * small.ground.as_wished.m2.likely);
    EXPECT_LE(large.ground.as_wished.m2.likely, 13 * small.ground.as_wished.m2.likely);
  }
}

TEST(WishGround, GrowsWithTheVases) {
  const Asked a = asked(wish(2));
  EXPECT_LT(a.ground.half.m2.likely, a.ground.as_wished.m2.likely);
  EXPECT_GT(a.ground.twice.m2.likely, a.ground.as_wished.m2.likely);
}

// Nine to twelve plants of a robust biennial give several times one weekly vase of twelve stems,
// all told (common practice).
TEST(Growings, OfABiennialNineGiveSeveralVases) {
  const Asked a = asked(wish(1));
  std::vector<Date> mondays;
  for (Date day = make_date(2027, 4, 5); day < make_date(2027, 9, 1); day += Days{7}) {
    mondays.push_back(day);
  }
  const Garden garden{a.p.plan, a.sheets, *a.p.climate, make_date(2026, 1, 1)};
  for (const char* crop : {"sweet william", "sweet rocket", "foxglove"}) {
    double most = 0;
    for (const Growing& growing : growings(garden, *a.sheets.at(crop), mondays)) {
      most = std::max(most, std::accumulate(growing.stems.begin(), growing.stems.end(), 0.0));
    }
    EXPECT_GE(9 * most, 2 * 12) << crop;
    EXPECT_LE(12 * most, 12 * 12) << crop;
  }
}

// Only what the wish likes, and what of it does not grow in its weeks is named.
TEST(WishGround, NamesWhatDoesNotGrow) {
  const Asked a = asked(wish(1, "like = [\"tulip\", \"zinnia\", \"gypsophila\"]\n"));
  EXPECT_EQ(a.ground.not_grown, std::vector<std::string>{"tulip"});
  for (const GroundCrop& crop : a.ground.as_wished.crops) {
    EXPECT_TRUE(crop.sheet->name == "zinnia" || crop.sheet->name == "gypsophila");
  }
  EXPECT_FALSE(a.ground.as_wished.lacking.empty());
}

TEST(WishGround, HeedsColoursAndIsTheSameTwice) {
  const std::string text = wish(1, "colours = [\"white\"]\n");
  const Asked one = asked(text), two = asked(text);
  ASSERT_EQ(one.ground.as_wished.planted.size(), two.ground.as_wished.planted.size());
  for (std::size_t i = 0; i < one.ground.as_wished.planted.size(); ++i) {
    const Planted& a = one.ground.as_wished.planted[i];
    const Planted& b = two.ground.as_wished.planted[i];
    EXPECT_EQ(a.growing.sheet->name, b.growing.sheet->name);
    EXPECT_EQ(a.growing.way, b.growing.way);
    EXPECT_EQ(a.plants, b.plants);
    const auto& colours = a.growing.sheet->colours;
    EXPECT_TRUE(std::ranges::find(colours, "white") != colours.end() ||
                a.growing.sheet->roles.front() == Role::Foliage)
        << a.growing.sheet->name;
  }
}

// What stands outside the beds need not be planted again.
TEST(WishGround, CountsWhatGrowsElsewhere) {
  const Asked without = asked(wish(1));
  const Asked with = asked(wish(1) + "[[elsewhere]]\ncrop = \"rose\"\nplants = 6\nsince = 2018\n");
  EXPECT_LT(with.ground.as_wished.m2.likely, without.ground.as_wished.m2.likely);
}

// Planted again with so many fewer, as many weeks have their vases.
TEST(SparePlants, AreMissedByNoWeek) {
  const auto text = [](int zinnias, int statices) {
    const auto crop = [](const char* name, int plants) {
      return std::string("[[bed.stretch.crop]]\ncrop = \"") + name +
             "\"\nplants = " + std::to_string(plants);
    };
    return wish(1) +
           bed_text("b", "5.6", "1.2",
                    {{"2.6", crop("zinnia", zinnias)}, {"2.3", crop("statice", statices)}});
  };
  const Planned many = planned("", text(40, 40));
  const auto spare = spare_plants(many.plan, many);
  ASSERT_FALSE(spare.empty());
  int plants[] = {40, 40};
  for (const Spare& one : spare) {
    EXPECT_EQ(one.plants, 40);
    EXPECT_LT(one.enough, 40);
    EXPECT_TRUE(one.enough == 0 || one.enough >= 3);
    EXPECT_GT(one.best, 12);
    plants[one.planting] = std::max(1, one.enough);
  }
  const Planned fewer = planned("", text(plants[0], plants[1]));
  EXPECT_GE(harvest::count(fewer.weeks, harvest::WeekState::Full),
            harvest::count(many.weeks, harvest::WeekState::Full));
  const Planned few = planned("", text(4, 4));
  EXPECT_TRUE(spare_plants(few.plan, few).empty());
}

}  // namespace
}  // namespace trug::ask
