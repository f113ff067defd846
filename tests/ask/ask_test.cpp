// SPDX-License-Identifier: MIT
// What one change of a plan makes of it.
#include "ask/ask.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "work/planned.h"

namespace trug::ask {
namespace {

// Sweet rocket then sunflower on one stretch, statice beside them.
Planned lane() {
  return planned("",
                 "[[bed]]\nname = \"lane\"\nlength_m = 4.6\nwidth_m = 0.9\n"
                 "[[bed.stretch]]\nlength_m = 2.2\ncrops = [\"sweet rocket\", \"sunflower\"]\n"
                 "[[bed.stretch]]\nlength_m = 1.3\ncrops = [\"statice\"]\n");
}

TEST(Ask, ChangesOneThingOfACopy) {
  const Planned p = lane();
  const Date day = make_date(2027, 5, 3);
  const auto asked = [](const ChangedPlan& changed, std::size_t i) {
    return changed.plan.plantings[i].asked;
  };
  EXPECT_EQ(asked(changed(p.plan, LiftOn{0, day}), 0).pins.lift_on, day);
  EXPECT_EQ(asked(changed(p.plan, StartAfter{1, day}), 1).pins.not_before, day);
  EXPECT_EQ(asked(changed(p.plan, Plants{2, 7}), 2).plants, 7);
  EXPECT_EQ(asked(changed(p.plan, Sowings{2, 3}), 2).successions, 3);
  EXPECT_EQ(changed(p.plan, Year{2028}).plan.flowering_year, 2028);
  EXPECT_EQ(p.plan.plantings[0].asked, lane().plan.plantings[0].asked);
}

TEST(Ask, APlaceOrARiskOfItsOwn) {
  const Planned p = lane();
  const MonthDay last{std::chrono::May / 30}, first{std::chrono::October / 1};
  const Plan later = changed(p.plan, Frost{last, first}).plan;
  EXPECT_EQ(later.place.last_frost, last);
  EXPECT_EQ(later.place.first_frost, first);
  EXPECT_EQ(changed(p.plan, Risk{0.05}).plan.place.risk, 0.05);
  const Garden garden = p.garden();
  const Outcome before = reckon(garden);
  const Difference asked = ask(garden, before, Frost{last, first});
  EXPECT_GT(asked.after.schedule.of(2).front().in_ground, before.schedule.of(2).front().in_ground);
}

TEST(Ask, ACropMoreStandsInItsPlaceAndTheOthersFollow) {
  const Planned p = lane();
  const auto crops = [](const Plan& plan) {
    std::vector<std::string> names;
    for (const Planting& planting : plan.plantings) {
      const auto before = planting.follows ? plan.plantings[*planting.follows].asked.crop : "";
      names.push_back(before + ">" + planting.asked.crop);
    }
    return names;
  };
  using Names = std::vector<std::string>;
  const CropEntry dill{.crop = "dill"};
  const ChangedPlan first = changed(p.plan, AddCrop{0, 0, {}, dill});
  EXPECT_EQ(crops(first.plan),
            (Names{">dill", "dill>sweet rocket", "sweet rocket>sunflower", ">statice"}));
  EXPECT_EQ(first.place, (std::vector<std::optional<std::size_t>>{1, 2, 3}));
  EXPECT_EQ(first.added, 0u);
  const ChangedPlan between = changed(p.plan, AddCrop{0, 0, 0, dill});
  EXPECT_EQ(crops(between.plan),
            (Names{">sweet rocket", "sweet rocket>dill", "dill>sunflower", ">statice"}));
  EXPECT_EQ(between.place, (std::vector<std::optional<std::size_t>>{0, 2, 3}));
  const ChangedPlan last = changed(p.plan, AddCrop{0, 1, 2, dill});
  EXPECT_EQ(crops(last.plan),
            (Names{">sweet rocket", "sweet rocket>sunflower", ">statice", "statice>dill"}));
  const ChangedPlan instead = changed(p.plan, Instead{1, dill});
  EXPECT_EQ(crops(instead.plan), (Names{">sweet rocket", "sweet rocket>dill", ">statice"}));
  EXPECT_EQ(instead.plan.plantings[1].name, "lane/dill");
}

TEST(Ask, WhatIsLeftOutIsGoneAndTheOthersAreFoundAgain) {
  const ChangedPlan without = changed(lane().plan, LeaveOut{0});
  ASSERT_EQ(without.plan.plantings.size(), 2u);
  EXPECT_EQ(without.place, (std::vector<std::optional<std::size_t>>{std::nullopt, 0, 1}));
  EXPECT_EQ(without.plan.plantings[0].asked.crop, "sunflower");
  EXPECT_FALSE(without.plan.plantings[0].follows);
}

TEST(Ask, TheDifferenceIsWhatTheChangedPlanGives) {
  const Planned p = lane();
  const Garden garden = p.garden();
  const Outcome before = reckon(garden);
  const Difference without = ask(garden, before, LeaveOut{2});
  EXPECT_NEAR(without.stems, -stems(before.schedule.of(2)), 1e-6);
  EXPECT_EQ(without.jobs_moved, 0);
  for (const Finding& fresh : without.fresh) EXPECT_EQ(fresh.code(), "bare-ground");
  EXPECT_EQ(without.after.schedule.of(0).front().start, before.schedule.of(0).front().start);
}

TEST(Ask, FindingsAreFreshOrClearedWhereverTheirPlantingWent) {
  const Planned p = planned("",
                            "[[bed]]\nname = \"lane\"\nlength_m = 4.6\nwidth_m = 0.9\n"
                            "[[bed.stretch]]\nlength_m = 1.3\ncrops = [\"statice\"]\n"
                            "[[bed.stretch]]\nlength_m = 2.2\n[[bed.stretch.crop]]\n"
                            "crop = \"dahlia\"\nplants = 300\n");
  const Garden garden = p.garden();
  const Outcome before = reckon(garden);
  const auto has = [](const std::vector<Finding>& list, std::string_view code) {
    return std::ranges::find(list, code, &Finding::code) != list.end();
  };
  const Difference fewer = ask(garden, before, Plants{1, 6});
  EXPECT_TRUE(has(fewer.cleared, "too-many-plants"));
  const Difference without = ask(garden, before, LeaveOut{0});
  EXPECT_FALSE(has(without.cleared, "too-many-plants"));
  EXPECT_FALSE(has(without.fresh, "too-many-plants"));
  const Difference more = ask(garden, before, Plants{0, 300});
  EXPECT_TRUE(has(more.fresh, "too-many-plants"));
}

TEST(Ask, AJobThatKeepsItsDayIsNotMoved) {
  const Planned p = lane();
  const Garden garden = p.garden();
  const Outcome before = reckon(garden);
  const Date start = before.schedule.of(1).front().start;
  const Difference later = ask(garden, before, StartAfter{1, start + Days{14}});
  EXPECT_GT(later.jobs_moved, 0);
  const auto of = [](const Outcome& outcome, std::size_t planting) {
    std::vector<Date> days;
    for (const work::Job& job : outcome.jobs) {
      if (job.planting == planting) days.push_back(job.day);
    }
    return days;
  };
  EXPECT_NE(of(later.after, 1), of(before, 1));
  EXPECT_EQ(of(later.after, 2), of(before, 2));
}

}  // namespace
}  // namespace trug::ask
