// SPDX-License-Identifier: MIT
#include "work/purchases.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "plan_text.h"
#include "work/planned.h"
#include "work/seeds.h"

namespace trug::work {
namespace {

const Date kToday = make_date(2026, 1, 1);

std::vector<Purchase> bought(const Planned& p, Date today = kToday) {
  return purchases(p.plan, p.schedule, p.jobs, today);
}

// Three plantings of one crop in two beds; `more`: keys of each.
std::string three_of(const std::string& crop, const std::string& more = "") {
  const auto entry = [&](const std::string& id) {
    return "[[bed.stretch.crop]]\ncrop = \"" + crop + "\"\nid = \"" + id + "\"\n" + more;
  };
  return bed_text("long bed", "2.6", "1.2", {{"1.1", entry("a")}, {"0.9", entry("b")}}) +
         bed_text("short bed", "1.7", "0.9", {{"0.8", entry("c")}});
}

TEST(Purchases, AreOneACropWithItsTotal) {
  const struct {
    const char* crop;
    const char* more;
    Goods goods;
    const char* month;
  } cases[] = {
      {"zinnia", "", Goods::Seed, "2027-01-01"},
      {"tulip", "group = \"mid\"\n", Goods::Bulbs, "2026-07-01"},
      {"dahlia", "", Goods::Tubers, "2026-12-01"},
  };
  for (const auto& one : cases) {
    SCOPED_TRACE(one.crop);
    const Planned p = planned("", three_of(one.crop, one.more));
    ASSERT_EQ(p.schedule.sowings.size(), 3u);
    const auto list = bought(p);
    ASSERT_EQ(list.size(), 1u);
    const Purchase& item = list.front();
    EXPECT_EQ(item.goods, one.goods);
    EXPECT_EQ(iso(item.month), one.month);
    EXPECT_FALSE(item.missed);
    EXPECT_EQ(item.plantings, (std::vector<std::size_t>{0, 1, 2}));
    int plants = 0;
    double number = 0;
    for (const ground::Sowing& sowing : p.schedule.sowings) {
      plants += sowing.plants;
      number += sowing.plants * (one.goods == Goods::Seed ? seeds_per_plant(sowing) : 1);
      EXPECT_LE(item.by, sowing.start - Days{14});
    }
    EXPECT_EQ(item.plants, plants);
    if (one.goods == Goods::Bulbs)
      number += std::round(number * 0.05);  // in case some do not come up
    EXPECT_EQ(item.number, std::ceil(number - 1e-9));
    EXPECT_EQ(item.packets.has_value(), one.goods == Goods::Seed);
  }
}

// Enough is bought, and no packet more than that takes.
TEST(Purchases, OfSeedAreWholePackets) {
  for (const char* length : {"0.3", "0.7", "1.1", "2.3"}) {
    for (const char* crop : {"zinnia", "cornflower", "sunflower", "orlaya"}) {
      SCOPED_TRACE(std::string(crop) + " " + length);
      const Planned p = planned(
          "", bed_text("b", "2.6", "1.2", {{length, std::string("crops = [\"") + crop + "\"]"}}));
      const auto list = bought(p);
      ASSERT_EQ(list.size(), 1u);
      const Purchase& item = list.front();
      ASSERT_TRUE(item.packets);
      const int packet = *item.sheet->buy.packet_seeds;
      EXPECT_GE(*item.packets * packet, item.number);
      EXPECT_LT((*item.packets - 1) * packet, item.number);
      EXPECT_GT(item.number * *item.sheet->buy.comes_up, item.plants);
    }
  }
}

// What is in hand is taken off, down to nothing.
TEST(Purchases, AreLessWhatIsInHand) {
  const std::string beds = three_of("tulip");
  const auto with = [&](int held) {
    return planned("", beds + "[[have]]\ncrop = \"tulip\"\nwhat = \"bulbs\"\nnumber = " +
                           std::to_string(held) + "\n");
  };
  const Purchase all = bought(planned("", beds)).front();
  const int wanted = all.number - all.spare;
  ASSERT_GT(wanted, 100);
  for (const int held : {1, 60, wanted - 1, wanted, wanted + 30}) {
    SCOPED_TRACE(held);
    const auto list = bought(with(held));
    ASSERT_EQ(list.empty(), held >= wanted);
    if (list.empty()) continue;
    EXPECT_EQ(list.front().number - list.front().spare, wanted - held);
    EXPECT_EQ(list.front().in_hand, held);
  }
}

// The month in which the best is to be had, or the first in which one can still buy.
TEST(Purchases, AreMadeInTheMonthOfTheSheetOrNow) {
  const Planned p = planned("", bed_text("b", "2.6", "1.2", {{"1.1", "crops = [\"tulip\"]"}}));
  const struct {
    Date today;
    const char* month;
    const char* missed;
  } cases[] = {
      {make_date(2026, 1, 1), "2026-07-01", ""},
      {make_date(2026, 7, 31), "2026-07-01", ""},
      {make_date(2026, 8, 1), "2026-08-01", "2026-07-01"},
  };
  for (const auto& one : cases) {
    const auto list = bought(p, one.today);
    ASSERT_EQ(list.size(), 1u);
    EXPECT_EQ(iso(list.front().month), one.month);
    EXPECT_EQ(list.front().missed ? iso(*list.front().missed) : "", one.missed);
  }
}

// Half a year on, where the seasons are.
TEST(Purchases, AreMadeHalfAYearLaterInTheSouth) {
  Planned p = planned("", bed_text("b", "2.6", "1.2", {{"1.1", "crops = [\"tulip\"]"}}));
  p.plan.place.latitude = -43;
  static_cast<ask::Outcome&>(p) = ask::reckon(p.plan, p.sheets, {}, kToday);
  const auto list = bought(p);
  ASSERT_EQ(list.size(), 1u);
  EXPECT_EQ(month_of(list.front().month), 1u);
}

TEST(Purchases, OfWhatWasOrderedAreNone) {
  Planned p = planned("", bed_text("b", "2.6", "1.2", {{"1.1", "crops = [\"zinnia\"]"}}));
  ASSERT_EQ(bought(p).size(), 1u);
  for (Job& job : p.jobs) {
    if (job.key.kind == JobKind::OrderSeed) job.state = Job::State::Assumed;
  }
  EXPECT_TRUE(bought(p).empty());
}

// Three seeds a place, thinned to one; a quarter more seedlings than plants (both memory). What
// comes up badly takes more, and so does what stands over the winter.
TEST(Seeds, FollowFromHowItIsSownAndComesUp) {
  Sheet sheet;
  sheet.ways = {{.name = "in place", .raised = Raised::InPlace},
                {.name = "in warmth", .raised = Raised::Heated}};
  const struct {
    std::size_t way;
    bool overwinters;
    std::optional<double> comes_up;
    double seeds;
  } cases[] = {
      {0, false, {}, 3},    {0, false, 0.8, 3},   {0, false, 0.5, 4},  {0, true, 0.8, 3.375},
      {1, false, {}, 1.25}, {1, false, 0.5, 2.5}, {1, true, 0.625, 2},
  };
  for (const auto& one : cases) {
    ground::Sowing sowing;
    sowing.sheet = &sheet;
    sowing.way = one.way;
    sowing.overwinters = one.overwinters;
    sheet.buy.comes_up = one.comes_up;
    EXPECT_DOUBLE_EQ(seeds_per_plant(sowing), one.seeds);
  }
}

// Where half of it dies twice as many are begun, and no more than that.
TEST(Purchases, AllowForAHardWinter) {
  Sheet sheet;
  sheet.ways.resize(2);
  sheet.ways[1].raised = Raised::Frame;
  const struct {
    double alive, begun, in_place, raised;
    int spare;
  } cases[] = {{1, 1, 3.375, 1.25, 0},
               {0.85, 1, 3.375, 1.25, 0},
               {0.8, 1.25, 3.75, 1.25, 3},
               {0.5, 2, 6, 2, 10},
               {0.2, 2, 6, 2, 10}};
  for (const auto& one : cases) {
    ground::Sowing sowing;
    sowing.sheet = &sheet;
    sowing.overwinters = true;
    sowing.plants = 10;
    sowing.alive = one.alive;
    EXPECT_DOUBLE_EQ(begun_per_plant(sowing), one.begun);
    EXPECT_EQ(spare_plants(sowing), one.spare);
    EXPECT_DOUBLE_EQ(seeds_per_plant(sowing), one.in_place);
    sowing.way = 1;
    EXPECT_DOUBLE_EQ(seeds_per_plant(sowing), one.raised);
  }
}

}  // namespace
}  // namespace trug::work
