// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <optional>
#include <span>
#include <tuple>

#include "work/planned.h"

namespace trug::ground {
namespace {

std::string sunflowers(int sowings, const std::string& more = "") {
  return "[[bed]]\nname = \"b\"\nlength_m = 6\nwidth_m = 1\n[[bed.stretch]]\nlength_m = 4.8\n"
         "[[bed.stretch.crop]]\ncrop = \"sunflower\"\nsuccessions = " +
         std::to_string(sowings) + "\n" + more;
}

std::span<const Sowing> strips(const Planned& p) { return p.schedule.of(0); }

TEST(Successions, AreEqualInCuttingAndCloseUpInSowing) {
  const Planned p =
      planned("", sunflowers(5, "gap_weeks = 2\nway = \"sown in place in spring\"\n"));
  const auto sowings = strips(p);
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
  const Weighed& weighed = p.schedule.weighed[0];
  const auto worth = [&](const Stream& stream) {
    const auto sowing = [&](std::size_t i) -> const Candidate& {
      return weighed.candidates->list[stream.sowings[i]];
    };
    double weight = 1;
    for (std::size_t i = 0; i < stream.sowings.size(); ++i) {
      const WindowPlace place = sowing(i).place;
      weight = std::min(weight, place == WindowPlace::Middle   ? 1
                                : place == WindowPlace::Inside ? 0.95
                                                               : 0.8);
    }
    const double plants = sowing(0).stems_per_plant * weighed.layout.plants * kFitShare;
    std::map<Date, double> weeks;
    for (std::size_t day = 0; day < stream.shares.size(); ++day) {
      const Date date = sowing(0).timeline.first_cut.likely + Days{static_cast<int>(day)};
      weeks[monday_of(date)] += plants * weight * stream.shares[day];
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
  std::optional<double> chosen;
  const auto taken = strips(p);
  for (const Stream& stream : weighed.candidates->streams) {
    best = std::max(best, worth(stream));
    const bool same = std::ranges::equal(
        stream.sowings, taken, {},
        [&](std::size_t i) {
          const Candidate& c = weighed.candidates->list[i];
          return std::tuple(c.start, c.in_ground, c.way, c.group);
        },
        [](const Sowing& sowing) {
          return std::tuple(sowing.start, sowing.in_ground, sowing.way, sowing.group);
        });
    if (same) chosen = worth(stream);
  }
  ASSERT_TRUE(chosen);
  EXPECT_NEAR(*chosen, best, 0.011);  // whole hundredths of stems
}

TEST(Successions, NameTheStripsAndTheJobsOfEach) {
  const Planned p = planned("", sunflowers(4));
  const auto sown = p.of_kind(work::JobKind::Sow);
  ASSERT_EQ(sown.size(), 4u);
  for (std::size_t i = 0; i < sown.size(); ++i) {
    EXPECT_EQ(sown[i]->key.succession, static_cast<int>(i) + 1);
    EXPECT_EQ(sown[i]->at_cm, 120 * static_cast<int>(i));
    EXPECT_EQ(sown[i]->length_cm, 120);
  }
}

// ATTRA on single-stemmed kinds: a stem a plant, so batches add up to the plants that survive and
// N of them D days apart supply about N x D / 7 weeks, or one more.
TEST(Successions, AddUpToTheirPlantsAndTheirWeeks) {
  for (const int sowings : {3, 5}) {
    const Planned p = planned("", sunflowers(sowings, "gap_weeks = 1\n"));
    double total = 0;
    for (const Sowing& sowing : strips(p)) total += stems(sowing);
    EXPECT_NEAR(total, p.schedule.weighed[0].layout.plants * kFitShare, 1e-6);
    const auto supplied =
        std::ranges::count_if(p.weeks, [](const harvest::Week& week) { return week.stems > 0; });
    EXPECT_GE(supplied, sowings);
    EXPECT_LE(supplied, sowings + 1);
  }
}

}  // namespace
}  // namespace trug::ground
