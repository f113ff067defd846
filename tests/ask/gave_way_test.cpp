// SPDX-License-Identifier: MIT
// What a late or left-out crop gave way to, against the plan without that.
#include "ask/gave_way.h"

#include <gtest/gtest.h>

#include <string>

#include "ask/ask.h"
#include "show/why_choice.h"
#include "work/planned.h"

namespace trug::ask {
namespace {

const std::string kBed =
    "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.2\n";

std::string crop(const std::string& name, const std::string& more = "") {
  return "[[bed.stretch.crop]]\ncrop = \"" + name + "\"\n" + more;
}

std::string words(const Planned& p, std::size_t planting, const std::optional<GaveWay>& way) {
  return show::why_choice(p.plan, p.schedule, planting, way, {});
}

// The plan as it is reckoned where the first crop is not in it.
void expect_as_without_the_first(const Planned& p, const GaveWay& way, const std::string& beds) {
  const Planned without = planned("", beds);
  EXPECT_NEAR(way.other_stems, stems(without.schedule.of(0)), 1e-6);
  EXPECT_NEAR(way.plan_stems, stems(without.schedule.sowings) - stems(p.schedule.sowings), 1e-6);
  EXPECT_EQ(way.in_ground, without.schedule.of(0)[0].in_ground);
}

// Canterbury bells stand until after the aster must have the ground.
TEST(GaveWay, ALeftOutCropNamesItsNeighbour) {
  const std::string aster = crop("china aster", "plant_on = 2027-06-02\n");
  const Planned p = planned("", kBed + crop("canterbury bells", "lift_on = 2027-07-20\n") + aster);
  const std::size_t out = p.schedule.of(0).empty() ? 0 : 1;
  ASSERT_TRUE(p.schedule.of(out).empty());
  const auto way = gave_way(p.garden(), p, out);
  ASSERT_TRUE(way);
  EXPECT_EQ(way->to, 1 - out);
  EXPECT_FALSE(way->lift);
  EXPECT_EQ(way->stems, 0);
  EXPECT_GT(way->other_stems, 0);
  if (out == 1) expect_as_without_the_first(p, *way, kBed + aster);
  EXPECT_NE(words(p, out, way).find("is left out for"), std::string::npos);
}

// Lifted in time, tulips leave zinnias their ground; sweet william is not cut by the day on which
// cornflowers should be sown, and the other choice is to do without it.
TEST(GaveWay, ALateCropNamesTheDayThatWouldMendIt) {
  const auto behind_tulips = [](const std::string& lift) {
    return planned("", kBed + crop("tulip", "lift_on = " + lift + "\n") + crop("zinnia"));
  };
  const Planned p = behind_tulips("2027-07-05");
  ASSERT_FALSE(p.schedule.of(1).empty());
  const auto way = gave_way(p.garden(), p, 1);
  ASSERT_TRUE(way);
  EXPECT_EQ(way->to, 0u);
  ASSERT_TRUE(way->lift);
  EXPECT_LT(*way->in_ground, p.schedule.of(1)[0].in_ground);
  EXPECT_GT(way->other_stems, way->stems);
  EXPECT_NEAR(way->other_stems, stems(behind_tulips(iso(*way->lift)).schedule.of(1)), 1e-6);
  EXPECT_NE(
      words(p, 1, way).find("zinnia waits for tulip, which leaves the ground on 5 July 2027. Were "
                            "tulip taken out on"),
      std::string::npos);

  const std::string cornflower = crop("cornflower", "way = \"sown in place in spring\"\n");
  const Planned early =
      planned("", kBed + crop("sweet william", "lift_on = 2027-07-04\n") + cornflower);
  const auto without = gave_way(early.garden(), early, 1);
  ASSERT_TRUE(without);
  EXPECT_FALSE(without->lift);
  expect_as_without_the_first(early, *without, kBed + cornflower);
}

TEST(GaveWay, NothingWhereNothingIsInTheWay) {
  const Planned p = planned("", kBed + crop("sunflower"));
  EXPECT_FALSE(gave_way(p.garden(), p, 0));
  EXPECT_EQ(words(p, 0, {}), "");
}

// Cosmos goes in as soon as larkspur is lifted; were that a month before, it waited for nothing.
TEST(GaveWay, WhatGoesInLongAfterItsGroundIsFreeWaitsForNoCrop) {
  Planned p = planned("", kBed + crop("larkspur", "lift_on = 2027-06-25\n") +
                              crop("cosmos", "plant_on = 2027-07-02\n"));
  ASSERT_EQ(p.schedule.sowings.size(), 2u);
  const auto pinned = waiting(p.plan, p.schedule, 1);
  EXPECT_FALSE(pinned);  // the plan has its day
  p = planned("", kBed + crop("larkspur", "lift_on = 2027-06-25\n") + crop("cosmos"));
  ASSERT_EQ(p.schedule.sowings.size(), 2u);
  EXPECT_TRUE(waiting(p.plan, p.schedule, 1));
  p.schedule.sowings[0].lift -= Days{30};
  EXPECT_FALSE(waiting(p.plan, p.schedule, 1));
}

}  // namespace
}  // namespace trug::ask
