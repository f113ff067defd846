// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <span>
#include <string>
#include <variant>

#include "work/planned.h"

namespace trug::ground {
namespace {

std::string sunflowers(const std::string& sowings, const std::string& more = "") {
  return "[[bed]]\nname = \"b\"\nlength_m = 6\nwidth_m = 1\n[[bed.stretch]]\nlength_m = 4.8\n"
         "[[bed.stretch.crop]]\ncrop = \"sunflower\"\nsuccessions = " +
         sowings + "\n" + more;
}

std::span<const Sowing> strips(const Planned& p) { return p.schedule.of(0); }

TEST(Successions, AreEqualInCuttingAndCloseUpInSowing) {
  const Planned p =
      planned("", sunflowers("5", "gap_weeks = 2\nway = \"sown in place in spring\"\n"));
  const auto sowings = strips(p);
  ASSERT_EQ(sowings.size(), 5u);
  int gap_before = 1000;
  for (std::size_t i = 1; i < sowings.size(); ++i) {
    const int gap = days_between(sowings[i - 1].start, sowings[i].start);
    EXPECT_GE(gap, 5);
    EXPECT_LE(gap, gap_before) << "sowing " << i;
    gap_before = gap;
    const int apart = days_between(sowings[i - 1].timeline.first_cut.likely,
                                   sowings[i].timeline.first_cut.likely);
    EXPECT_GE(apart, 12);
    EXPECT_LE(apart, 14);
  }
}

// With a wish from July on they begin in the week before it.
TEST(Successions, BeginAsEarlyAsTheWishWants) {
  const Planned p = planned(
      "[wish]\nvases_per_week = 1\nstems_per_vase = 6\nfrom = \"20 July\"\n"
      "to = \"30 September\"\n",
      sunflowers("3", "way = \"sown in place in spring\"\ngroup = \"day-neutral\"\n"));
  ASSERT_EQ(strips(p).size(), 3u);
  const Date first = strips(p)[0].timeline.first_cut.likely;
  EXPECT_GE(first, make_date(2027, 7, 13));
  EXPECT_LE(first, make_date(2027, 7, 27));
}

// Asked for more than the year has use for: as many as are useful, and it is said.
TEST(Successions, NoMoreThanAreUseful) {
  const Planned all = planned("", sunflowers("\"all season\""));
  const Planned many = planned("", sunflowers("30"));
  EXPECT_EQ(strips(all).size(), strips(many).size());
  EXPECT_FALSE(all.finding(ask::FewerSowings::kCode));
  const ask::Finding* finding = many.finding(ask::FewerSowings::kCode);
  ASSERT_TRUE(finding);
  const auto& found = std::get<ask::FewerSowings>(finding->found);
  EXPECT_EQ(found.useful, static_cast<int>(strips(many).size()));
  EXPECT_EQ(found.asked, 30);
  const Planned few = planned("", sunflowers("3"));
  EXPECT_FALSE(few.finding(ask::FewerSowings::kCode));
}

TEST(Successions, NameTheStripsAndTheJobsOfEach) {
  const Planned p = planned("", sunflowers("4"));
  const auto sown = p.of_kind(work::JobKind::Sow);
  ASSERT_EQ(sown.size(), 4u);
  for (std::size_t i = 0; i < sown.size(); ++i) {
    EXPECT_EQ(sown[i]->key.succession, static_cast<int>(i) + 1);
    EXPECT_EQ(sown[i]->at_cm, 120 * static_cast<int>(i));
    EXPECT_EQ(sown[i]->length_cm, 120);
  }
}

// Whole centimetres, of strips that have none: each ends where the next begins, the last where the
// stretch does.
TEST(Successions, StripsMeetWhateverTheirLength) {
  const Planned p = planned("", sunflowers("7"));
  const auto sown = p.of_kind(work::JobKind::Sow);
  ASSERT_GT(sown.size(), 2u);
  int at = 0;
  for (const work::Job* job : sown) {
    EXPECT_EQ(job->at_cm, at);
    at += job->length_cm;
  }
  EXPECT_EQ(at, 480);
}

// ATTRA on single-stemmed kinds: a stem a plant, so batches add up to the plants that survive and
// N of them D days apart supply about N x D / 7 weeks, or one more.
TEST(Successions, AddUpToTheirPlantsAndTheirWeeks) {
  for (const int sowings : {3, 5}) {
    const Planned p = planned("", sunflowers(std::to_string(sowings), "gap_weeks = 1\n"));
    double total = 0;
    for (const Sowing& sowing : strips(p)) total += stems(sowing);
    EXPECT_NEAR(total, p.schedule.weighed[0].layout.plants * kFitShare, 1e-6);
    const auto supplied = std::ranges::count_if(
        p.weeks, [](const harvest::Week& week) { return week.stems.likely > 0; });
    EXPECT_GE(supplied, sowings);
    EXPECT_LE(supplied, sowings + 1);
  }
}

}  // namespace
}  // namespace trug::ground
