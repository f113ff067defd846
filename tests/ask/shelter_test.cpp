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

TEST(Shelter, WhatAFrameWouldAddIsReckoned) {
  const auto frame_stems = [](const Planned& p) {
    const auto findings = advised(p.garden(), p, [&] { return p.sheets; });
    const auto found = std::ranges::find(findings, "shelter-assumed", &Finding::code);
    if (found == findings.end()) return std::optional<double>{};
    return std::get<ShelterAssumed>(found->found).frame_stems;
  };
  double most = 0;
  for (const std::string name : {"cornflower", "iceland poppy", "larkspur"}) {
    const std::string crop = bed("crop = \"" + name + "\"\n");
    const Planned without = sheltered({}, crop),
                  with = sheltered({.given = true, .frame_m2 = 1}, crop);
    const double gain = stems(with.schedule.sowings) - stems(without.schedule.sowings);
    ASSERT_TRUE(frame_stems(without)) << name;
    EXPECT_NEAR(*frame_stems(without), std::max(0.0, gain), 1e-6) << name;
    EXPECT_FALSE(frame_stems(with)) << name;
    most = std::max(most, gain);
  }
  EXPECT_GT(most, 0);
  EXPECT_EQ(frame_stems(sheltered({}, statice(20))), 0);
}

Planned covered(const std::string& cover, const std::string& crop) {
  return planned("", "[[bed]]\nname = \"b\"\nlength_m = 2.2\nwidth_m = 0.9\ncover = \"" + cover +
                         "\"\n[[bed.stretch]]\nlength_m = 2.2\n[[bed.stretch.crop]]\n" + crop);
}

// Tender plants go out as much earlier as the cover keeps frost off, and are cut earlier by more
// than nothing and less than that, since the cover makes no light; they are cut longer in autumn.
TEST(Shelter, UnderACoverSpringComesEarlierAndAutumnLater) {
  const std::string crop = "crop = \"zinnia\"\nway = \"raised in warmth in spring\"\n";
  const auto first_out = [](const Planned& p) {
    const auto& list = p.schedule.weighed[0].candidates->list;
    return std::ranges::min_element(list, {}, &ground::Candidate::in_ground)->in_ground;
  };
  const auto last_cut = [](const Planned& p) { return p.schedule.of(0)[0].timeline.last_cut(); };
  const Planned open = covered("none", crop);
  // In the open the cool air keeps it in for a day longer than the frost does.
  for (const auto& [cover, days] : {std::pair("fleece", 15), std::pair("tunnel", 22)}) {
    SCOPED_TRACE(cover);
    const Planned under = covered(cover, crop);
    EXPECT_EQ(days_between(first_out(under), first_out(open)), days);
    const Date cut = under.schedule.of(0)[0].timeline.first_cut.likely;
    const Date cut_in_open = open.schedule.of(0)[0].timeline.first_cut.likely;
    EXPECT_LT(cut, cut_in_open);
    EXPECT_GT(last_cut(under), last_cut(open));
  }
}

// Whatever stands under a bed's fleece has it laid and taken off again before it flowers; what goes
// in after the frosts never sees it.
TEST(Shelter, ABedsFleeceIsLaidAndTakenOff) {
  struct Case {
    std::string crop;
    bool laid;
  };
  const Case cases[] = {{"crop = \"cornflower\"\nway = \"sown in place in autumn\"\n", true},
                        {"crop = \"zinnia\"\nway = \"raised in warmth in spring\"\n", true},
                        {"crop = \"peony\"\nsince = 2020\n", true},
                        {"crop = \"sunflower\"\nstart_on = 2027-06-26\n", false}};
  for (const Case& c : cases) {
    SCOPED_TRACE(c.crop);
    const Planned p = covered("fleece", c.crop);
    const auto laid = p.of_kind(work::JobKind::Protect);
    const auto off = p.of_kind(work::JobKind::Uncover);
    ASSERT_EQ(laid.size(), c.laid ? 1u : 0u);
    ASSERT_EQ(off.size(), laid.size());
    EXPECT_TRUE(covered("none", c.crop).of_kind(work::JobKind::Protect).empty());
    if (!c.laid) continue;
    EXPECT_LT(laid[0]->day, off[0]->day);
    EXPECT_TRUE(p.schedule.sowings[0].stands || laid[0]->last >= p.schedule.sowings[0].in_ground);
    EXPECT_LT(off[0]->day, p.schedule.sowings[0].timeline.first_flower.likely);
  }
}

// Anemones in autumn under cover are for beds that have one, and their dates are written for it: in
// the open they are grown another way, or told where the plan names that way.
TEST(Shelter, WhatWantsACoverIsNotChosenWithoutOneAndToldWhereItIsNamed) {
  const std::string any = "crop = \"anemone\"\n";
  const Planned free = covered("none", any);
  ASSERT_FALSE(free.schedule.sowings.empty());
  EXPECT_EQ(free.schedule.sowings[0].raised_by().needs, Needs::Nothing);
  const std::string crop = any + "way = \"corms in autumn under cover\"\n";
  const Planned open = covered("none", crop);
  ASSERT_FALSE(open.schedule.sowings.empty());
  const Finding* finding = open.finding("against-rule");
  ASSERT_TRUE(finding);
  EXPECT_NE(show::message(open.plan, *finding)
                .find("it is grown under a tunnel or fleece, and its bed has neither"),
            std::string::npos);
  const Planned fleece = covered("fleece", crop), tunnel = covered("tunnel", crop);
  ASSERT_FALSE(fleece.schedule.sowings.empty());
  ASSERT_FALSE(tunnel.schedule.sowings.empty());
  EXPECT_EQ(fleece.schedule.sowings[0].timeline.first_cut.likely,
            tunnel.schedule.sowings[0].timeline.first_cut.likely);
}

}  // namespace
}  // namespace trug::ask
