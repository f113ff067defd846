// SPDX-License-Identifier: MIT
// Room to raise plants in: what there is, what is wanted, and what a frame would add.
#include <gtest/gtest.h>

#include <algorithm>
#include <optional>
#include <variant>

#include "ask/advised.h"
#include "ask/ask.h"
#include "show/finding_words.h"

namespace trug::ask {
namespace {

std::string bed(const std::string& crop) {
  return "[[bed]]\nname = \"b\"\nlength_m = 2.2\nwidth_m = 0.9\n[[bed.stretch]]\n"
         "length_m = 2.2\n[[bed.stretch.crop]]\n" +
         crop;
}

std::string statice(int plants) {
  return bed("crop = \"statice\"\nway = \"raised in warmth in spring\"\nplants = " +
             std::to_string(plants) + "\n");
}

// The plan with another shelter.
Planned sheltered(const Shelter& shelter, const std::string& beds) {
  Planned p = planned("", beds);
  p.plan.shelter = shelter;
  static_cast<Outcome&>(p) = reckon(p.garden());
  return p;
}

Shelter trays(double count) { return {.given = true, .heated_trays = count}; }

// 40 modules a tray: 40 fill one, and the 41st wants another.
TEST(Shelter, TraysThatAreTooFew) {
  EXPECT_FALSE(sheltered(trays(1), statice(40)).finding("overfull"));
  EXPECT_FALSE(sheltered(trays(2), statice(41)).finding("overfull"));
  const Planned p = sheltered(trays(1), statice(41));
  const Finding* finding = p.finding("overfull");
  ASSERT_TRUE(finding);
  const auto& full = std::get<Overfull>(finding->found);
  EXPECT_EQ(full.place, Raised::Heated);
  EXPECT_DOUBLE_EQ(full.wanted, 41 / 40.0);
  EXPECT_EQ(full.room, 1);
  const ground::Sowing& sowing = p.schedule.of(0)[0];
  EXPECT_GE(full.mondays.front(), monday_of(sowing.start));
  EXPECT_EQ(full.mondays.back(), monday_of(sowing.in_ground - Days{1}));
  EXPECT_TRUE(
      show::message(p.plan, *finding)
          .starts_with("what is raised in warmth wants 2 trays at once where there is 1: "));
}

// 40 plants a square metre.
TEST(Shelter, ANurseryBedThatIsTooSmall) {
  const std::string crop =
      bed("crop = \"sweet william\"\nplants = 60\n"
          "way = \"sown in summer and planted in autumn\"\n");
  EXPECT_FALSE(sheltered({.given = true, .nursery_m2 = 1.5}, crop).finding("overfull"));
  const Planned p = sheltered({.given = true, .nursery_m2 = 1}, crop);
  const Finding* finding = p.finding("overfull");
  ASSERT_TRUE(finding);
  EXPECT_EQ(std::get<Overfull>(finding->found).wanted, 1.5);
  EXPECT_TRUE(show::message(p.plan, *finding)
                  .starts_with("what is raised in a nursery bed wants 1.5 m2 at once where there "
                               "is 1: "));
}

// Larkspur pinned to its way in a frame grows only where there is one.
TEST(Shelter, WhatAFrameWouldAddIsReckoned) {
  const std::string crop = bed("crop = \"cornflower\"\nway = \"modules in a frame over winter\"\n");
  const auto frame_stems = [](const Planned& p) {
    const auto findings = advised(p.garden(), p, [&] { return p.sheets; });
    const auto found = std::ranges::find(findings, "shelter-assumed", &Finding::code);
    if (found == findings.end()) return std::optional<double>{};
    return std::get<ShelterAssumed>(found->found).frame_stems;
  };
  const Planned without = sheltered({}, crop),
                with = sheltered({.given = true, .frame_m2 = 1}, crop);
  ASSERT_TRUE(without.schedule.sowings.empty());
  ASSERT_FALSE(with.schedule.sowings.empty());
  ASSERT_TRUE(frame_stems(without));
  EXPECT_NEAR(*frame_stems(without), stems(with.schedule.sowings), 1e-6);
  EXPECT_FALSE(frame_stems(with));
  EXPECT_EQ(frame_stems(sheltered({}, statice(20))), 0);
}

}  // namespace
}  // namespace trug::ask
