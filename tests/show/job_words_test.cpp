// SPDX-License-Identifier: MIT
#include "show/job_words.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>
#include <set>
#include <string>

#include "plan_text.h"
#include "work/orders.h"
#include "work/planned.h"

namespace trug::show {
namespace {

using work::JobKind;

std::vector<JobRow> rows(const Planned& p) { return job_rows(p.plan, p.schedule, p.jobs, {}); }

Planned garden() {
  return planned(
      "",
      "[work]\ncare = true\n" +
          bed_text("long bed", "5.6", "1.2",
                   {{"0.9", R"(crops = ["tulip", "cosmos"])"},
                    {"1.1", R"(crops = ["foxglove"])"},
                    {"0.7", R"(crops = ["cornflower"])"},
                    {"1.3", R"(crops = ["dahlia"])"},
                    {"0.8", "[[bed.stretch.crop]]\ncrop = \"achillea\"\nid = \"old achillea\""}}));
}

TEST(JobWords, AreWholeSentences) {
  const Planned p = garden();
  ASSERT_GT(rows(p).size(), 50u);
  for (const JobRow& row : rows(p)) {
    SCOPED_TRACE(row.title + ": " + row.text);
    EXPECT_TRUE(row.text.ends_with('.'));
    EXPECT_EQ(row.text.find("  "), std::string::npos);
    EXPECT_EQ(row.text.find(".."), std::string::npos);
    EXPECT_EQ(row.crop_words, row.crop == "achillea" ? "old achillea" : row.crop);
  }
}

TEST(JobWords, OfHarmfulPlantsCarryTheirCautionWhereverTheyAreHandled) {
  int handled = 0;
  const Planned p = garden();
  for (const JobRow& row : rows(p)) {
    if (row.crop != "foxglove") continue;
    const bool hands_on = work::trait(row.key.kind).hands_on;
    EXPECT_EQ(row.cautions.empty(), !hands_on) << row.title;
    if (hands_on) ++handled;
  }
  EXPECT_GT(handled, 5);
}

// Whole where it is handled first and cut first; elsewhere it says where that stands.
TEST(JobWords, SayAllOfACautionTwiceAYear) {
  const Planned p = garden();
  std::map<std::string, std::string> first;  // by the crop, the title of what handles it first
  int short_ones = 0;
  for (const JobRow& row : rows(p)) {
    if (row.cautions.empty() || row.told_with) continue;
    if (work::trait(row.key.kind).group == work::JobGroup::Buying) continue;
    SCOPED_TRACE(row.title);
    const auto& all = row.cautions_of.at(row.crop);
    const auto& said = row.cautions.at(row.crop);
    const bool fresh = first.try_emplace(row.crop, row.title).second;
    if (fresh || row.key.kind == JobKind::FirstCut) {
      EXPECT_EQ(said, all);
      continue;
    }
    ASSERT_EQ(said.size(), 1u);
    EXPECT_TRUE(said[0].ends_with(": what to do stands at \"" + first[row.crop] + "\"."))
        << said[0];
    EXPECT_EQ(said[0].substr(0, 3), all[0].substr(0, 3)) << "the harm itself is named";
    ++short_ones;
  }
  EXPECT_GT(short_ones, 8);
}

// Who buys it asks first whether it may be grown; of poison the name is enough here.
TEST(JobWords, AnOrderSaysAllOfWhatSpreads) {
  const Planned p = planned(
      "", bed_text("long bed", "1.7", "1.2",
                   {{"0.9", R"(crops = ["euphorbia"])"}, {"0.8", R"(crops = ["foxglove"])"}}));
  const auto orders = work::with_joint_orders(p.plan, p.schedule, p.jobs, make_date(2026, 1, 1));
  int told = 0;
  for (const JobRow& row : job_rows(p.plan, p.schedule, orders, {})) {
    if (row.parts.empty()) continue;
    for (const std::string& line : caution_lines(row)) {
      told += line.starts_with("euphorbia: Spreads where it should not: ") && line.size() > 80;
      told += line == "euphorbia: Irritant and poisonous.";
      told += line == "foxglove: Poisonous.";
    }
  }
  EXPECT_EQ(told, 3);
}

TEST(JobWords, NameTheBedWhereACropStandsInTwo) {
  const Planned p = planned(
      "", bed_text("gate", "1.3", "1.1", {{"0.9", R"(crops = ["tulip"])"}}) +
              bed_text("wall", "2.3", "1.1",
                       {{"0.9", R"(crops = ["tulip"])"}, {"1.1", R"(crops = ["cosmos"])"}}));
  std::set<std::string> titles;
  for (const JobRow& row : rows(p)) titles.insert(row.title);
  for (const char* title : {"Plant tulips, gate", "Plant tulips, wall", "Cut tulips, wall",
                            "Sow cosmos", "Clear cosmos", "Lift tulips, gate"}) {
    EXPECT_TRUE(titles.contains(title)) << title;
  }
}

TEST(JobWords, ATitleGivesItsCropBack) {
  EXPECT_EQ(name_in_title(JobKind::LetDieDown, "Let daffodils die down, gate"), "daffodils");
  EXPECT_EQ(name_in_title(JobKind::Lift, "Clear cosmos (2)"), "cosmos (2)");
  EXPECT_EQ(name_in_title(JobKind::Lift, "Lift tulips"), "tulips");
  EXPECT_EQ(name_in_title(JobKind::FirstCut, "First cut: cosmos 2"), "cosmos 2") << "of before";
  EXPECT_EQ(name_in_title(JobKind::Sow, "Hoe cosmos"), "Hoe cosmos");
}

TEST(JobWords, AMajorJobTellsOfTheMinorOnesWithIt) {
  const Planned p = garden();
  const std::vector<JobRow> all = rows(p);
  int minor = 0;
  for (const JobRow& row : all) {
    if (!row.told_with) continue;
    ++minor;
    const std::string& with = all[*row.told_with].text;
    EXPECT_NE(with.find(row.text.substr(0, row.text.find(" Still right"))), std::string::npos)
        << row.title << ": " << row.text << "\n"
        << with;
  }
  EXPECT_GT(minor, 10);
}

// What the trade tells with the bulbs: which side up.
TEST(JobWords, TellHowItGoesIntoTheGround) {
  const Planned p = garden();
  for (const JobRow& row : rows(p)) {
    if (row.key.kind != JobKind::Plant || row.crop != "tulip") continue;
    EXPECT_NE(row.text.find("Points up."), std::string::npos) << row.text;
  }
}

// Honesty is grown for its pods, which are ripe in July, ten weeks after its flowers (memory).
TEST(JobWords, HonestyStaysUntilItsPodsAreRipe) {
  for (const bool pods : {true, false}) {
    const std::string honesty =
        std::string("[[bed.stretch.crop]]\ncrop = \"honesty\"") + (pods ? "" : "\npods = false");
    const Planned p = planned("", bed_text("long bed", "1.4", "1.2", {{"0.9", honesty}}));
    const ground::Sowing& sowing = p.schedule.sowings.at(0);
    const Date ripe = sowing.timeline.first_cut.likely + Days{70};
    EXPECT_EQ(sowing.lift >= ripe, pods) << iso(sowing.lift);
    for (const JobRow& row : rows(p)) {
      if (row.key.kind != JobKind::Lift) continue;
      EXPECT_EQ(row.text.starts_with("Cut the ripe pods."), pods) << row.text;
    }
  }
}

// Common practice: hardy annuals are sown warm and grown cool; half-hardy ones stay warm.
TEST(JobWords, HardyAnnualsSownInWarmthAreGrownOnCool) {
  for (const auto& [crop, cool] : {std::pair("cornflower", true), std::pair("cosmos", false)}) {
    const std::string in_warmth = fmt::format(
        "[[bed.stretch.crop]]\ncrop = \"{}\"\nway = \"raised in warmth in spring\"", crop);
    const Planned p = planned("", bed_text("long bed", "1.4", "1.2", {{"0.9", in_warmth}}));
    int sown = 0;
    for (const JobRow& row : rows(p)) {
      if (row.key.kind != JobKind::Sow) continue;
      ++sown;
      EXPECT_EQ(row.text.find("grow them on cool") != std::string::npos, cool) << crop;
    }
    EXPECT_EQ(sown, 1) << crop;
  }
}

}  // namespace
}  // namespace trug::show
