// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>

#include "work/planned.h"

namespace trug::ground {
namespace {

std::string sunflowers(int sowings, const std::string& more = "") {
  return "[[bed]]\nname = \"b\"\nlength_m = 6\nwidth_m = 1\n[[bed.stretch]]\nlength_m = 4\n"
         "[[bed.stretch.crop]]\ncrop = \"sunflower\"\nsuccessions = " +
         std::to_string(sowings) + "\n" + more;
}

const std::vector<Candidate>& strips(const Planned& p) {
  return p.choice.plantings[0].chosen->candidate.strips;
}

TEST(Successions, AreEqualInCuttingAndCloseUpInSowing) {
  const Planned p =
      planned("", sunflowers(5, "gap_weeks = 2\nway = \"sown in place in spring\"\n"));
  ASSERT_TRUE(p.choice.plantings[0].chosen);
  const auto& sowings = strips(p);
  ASSERT_EQ(sowings.size(), 5u);
  int gap_before = 1000;
  for (std::size_t i = 1; i < sowings.size(); ++i) {
    const int gap = days_between(sowings[i - 1].start, sowings[i].start);
    EXPECT_LE(gap, gap_before) << "sowing " << i;
    gap_before = gap;
    const Date wanted = sowings[0].timeline.first_cut.likely + Days{14 * static_cast<int>(i)};
    const int early = days_between(sowings[i].timeline.first_cut.likely, wanted);
    EXPECT_GE(early, 0);
    EXPECT_LE(early, 2);
  }
}

// Every family of sowings there is, by trying: no first sowing gives more stems' worth.
TEST(Successions, AreTheBestOfTheirFamily) {
  const Planned p = planned(
      "[wish]\nvases_per_week = 1\nstems_per_vase = 6\nfrom = \"1 July\"\n"
      "to = \"30 September\"\n",
      sunflowers(3));
  const Chosen& chosen = *p.choice.plantings[0].chosen;
  const auto worth = [&](const Candidate& c) {
    const double plants = c.stems_per_plant * p.choice.plantings[0].layout.plants * kFitShare;
    const double weight = c.place == WindowPlace::Middle   ? 1
                          : c.place == WindowPlace::Inside ? 0.95
                                                           : 0.8;
    std::map<Date, double> weeks;
    for (std::size_t day = 0; day < c.timeline.shares.size(); ++day) {
      const Date date = c.timeline.first_cut.likely + Days{static_cast<int>(day)};
      weeks[monday_of(date)] += plants * weight * c.timeline.shares[day];
    }
    double total = 0;
    for (const auto& [monday, stems] : weeks) {
      const bool wished =
          monday + Days{6} >= make_date(2027, 7, 1) && monday <= make_date(2027, 9, 30);
      const double full = wished ? std::min(stems, 6.0) : 0;
      total += full + 0.05 * (stems - full);
    }
    return total;
  };
  double best = 0;
  for (const Candidate& family : p.choice.plantings[0].candidates->list) {
    best = std::max(best, worth(family));
  }
  EXPECT_NEAR(worth(chosen.candidate), best, 0.011);  // whole hundredths of stems
}

TEST(Successions, NameTheStripsAndTheJobsOfEach) {
  const Planned p = planned("", sunflowers(4));
  const auto sown = p.of_kind(work::JobKind::Sow);
  ASSERT_EQ(sown.size(), 4u);
  for (std::size_t i = 0; i < sown.size(); ++i) {
    EXPECT_EQ(sown[i]->key.succession, static_cast<int>(i) + 1);
    EXPECT_EQ(sown[i]->at_cm, 100 * static_cast<int>(i));
    EXPECT_EQ(sown[i]->length_cm, 100);
  }
}

// ATTRA on single-stemmed kinds: a stem a plant, so batches add up to the plants that survive and
// N of them D days apart supply about N x D / 7 weeks, or one more.
TEST(Successions, AddUpToTheirPlantsAndTheirWeeks) {
  for (const int sowings : {3, 5}) {
    const Planned p = planned("", sunflowers(sowings, "gap_weeks = 1\n"));
    double total = 0;
    for (const double s : stems_by_day(p.choice.plantings[0])) total += s;
    EXPECT_NEAR(total, p.choice.plantings[0].layout.plants * kFitShare, 1e-6);
    const auto supplied =
        std::ranges::count_if(p.choice.weeks, [](const Week& week) { return week.stems > 0; });
    EXPECT_GE(supplied, sowings);
    EXPECT_LE(supplied, sowings + 1);
  }
}

}  // namespace
}  // namespace trug::ground
