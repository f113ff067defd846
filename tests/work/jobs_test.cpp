// SPDX-License-Identifier: MIT
#include "work/jobs.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "plan_text.h"
#include "work/planned.h"

namespace trug::work {
namespace {

const std::string kBeds =
    "[work]\ndays = [\"Sat\", \"Sun\"]\n" + bed_text("long bed", "6", "1.2",
                                                     {{"1.1", R"(crops = ["tulip", "cosmos"])"},
                                                      {"1.3", R"(crops = ["foxglove"])"},
                                                      {"0.9", R"(crops = ["cornflower"])"},
                                                      {"1.2", R"(crops = ["dahlia"])"},
                                                      {"0.8", R"(crops = ["achillea"])"}});

TEST(JobKinds, HaveOneWordEachThatReadsBack) {
  std::set<std::string> seen;
  for (const JobKind kind : all_job_kinds()) {
    EXPECT_TRUE(seen.insert(std::string(to_string(kind))).second);
    EXPECT_EQ(parse_job_kind(to_string(kind)), kind);
  }
  EXPECT_EQ(seen.size(), 27u);
  EXPECT_FALSE(parse_job_kind("dig"));
}

TEST(JobKinds, HaveAPlaceEachInTheOrderOfTheGround) {
  std::set<int> places;
  for (const JobKind kind : all_job_kinds()) places.insert(order_in_ground(kind));
  EXPECT_EQ(places.size(), all_job_kinds().size());
  EXPECT_EQ(*places.rbegin(), 26);
  using enum JobKind;
  for (const auto& [first, then] : {std::pair{FirstCut, Lift},
                                    {Lift, ClearAndFeed},
                                    {ClearAndFeed, Sow},
                                    {ClearAndFeed, Plant},
                                    {ClearAndFeed, PlantOut},
                                    {HardenOff, PlantOut},
                                    {PlantOut, WatchForFrost}}) {
    EXPECT_LT(order_in_ground(first), order_in_ground(then)) << words(first);
  }
}

TEST(Jobs, LieInsideTheirWindowsAndOnTheGardenersDays) {
  const Planned p = planned("", kBeds);
  ASSERT_GT(p.jobs.size(), 30u);
  for (const Job& job : p.jobs) {
    SCOPED_TRACE(job.planting_name + " " + words(job.key.kind) + " " + iso(job.day));
    EXPECT_LE(job.first, job.day);
    EXPECT_LE(job.day, job.last);
    const unsigned weekday = std::chrono::weekday{job.day}.iso_encoding();
    bool room = false;  // is there a weekend in the window at all?
    for (Date day = job.first; day <= job.last; day += Days{1}) {
      room = room || std::chrono::weekday{day}.iso_encoding() >= 6;
    }
    EXPECT_TRUE(weekday >= 6 || !room);
    EXPECT_FALSE(job.text.empty());
  }
}

TEST(Jobs, ComeAfterWhatTheyNeed) {
  const Planned p = planned("", kBeds);
  for (const Job& job : p.jobs) {
    for (const std::size_t before : job.after) {
      EXPECT_LE(p.jobs[before].day, job.day) << words(p.jobs[before].key.kind) << " before "
                                             << words(job.key.kind) << ", " << job.planting_name;
    }
  }
  // The cosmos waits for the ground the tulips leave.
  const auto planted = p.of_kind(JobKind::PlantOut);
  const auto cosmos = std::ranges::find(planted, "cosmos", [](const Job* j) { return j->crop; });
  ASSERT_NE(cosmos, planted.end());
  const auto waits = std::ranges::any_of((*cosmos)->after, [&](std::size_t i) {
    return p.jobs[i].crop == "tulip" && p.jobs[i].key.kind == JobKind::ClearAndFeed;
  });
  EXPECT_TRUE(waits);
}

TEST(Jobs, OfHarmfulPlantsCarryTheirCautionWhereverTheyAreHandled) {
  const Planned p = planned("", kBeds);
  int handled = 0;
  for (const Job& job : p.jobs) {
    if (job.crop != "foxglove") continue;
    const bool hands_off =
        job.key.kind == JobKind::WatchForFrost || job.key.kind == JobKind::Protect;
    EXPECT_EQ(job.cautions.empty(), hands_off) << words(job.key.kind);
    if (!hands_off) ++handled;
  }
  EXPECT_GT(handled, 5);
}

// Common practice: hardy annuals are sown warm and grown cool; half-hardy ones stay warm.
TEST(Jobs, HardyAnnualsSownInWarmthAreGrownOnCool) {
  for (const auto& [crop, cool] : {std::pair("cornflower", true), std::pair("cosmos", false)}) {
    const std::string in_warmth = fmt::format(
        "[[bed.stretch.crop]]\ncrop = \"{}\"\nway = \"raised in warmth in spring\"", crop);
    const Planned p = planned("", bed_text("long bed", "6", "1.2", {{"1.1", in_warmth}}));
    const auto sown = p.of_kind(JobKind::Sow);
    ASSERT_EQ(sown.size(), 1u) << crop;
    EXPECT_EQ(sown[0]->text.find("grow them on cool") != std::string::npos, cool) << crop;
  }
}

TEST(Jobs, TenderPlantsAreWatchedUntilOneYearInTwenty) {
  const Planned p = planned("", kBeds);
  const auto watched = p.of_kind(JobKind::WatchForFrost);
  ASSERT_FALSE(watched.empty());
  // 15 May + 1.645 x 13 days, rounded up.
  for (const Job* job : watched) EXPECT_EQ(iso(job->last), "2027-06-06");
}

// Society and press advice: dahlias are lifted when the first frost has blackened them, not before.
TEST(Jobs, DahliasAreLiftedAfterTheFirstFrost) {
  const Planned p = planned("", kBeds);
  const auto lifted = p.of_kind(JobKind::LiftAndStore);
  ASSERT_EQ(lifted.size(), 1u);
  EXPECT_EQ(iso(lifted[0]->first), "2027-10-15");
  EXPECT_EQ(iso(lifted[0]->last), "2027-11-05");
}

TEST(Jobs, OnlyThoseThatCannotWaitRemindUnlessAsked) {
  for (const std::string remind : {"must", "all", "none"}) {
    std::string beds = kBeds;
    beds.replace(beds.find("[work]"), 6, "[work]\nremind = \"" + remind + "\"");
    const Planned p = planned("", beds);
    for (const Job& job : p.jobs) {
      const bool follows = job.crop == "tulip";
      const bool expected =
          remind == "all" || (remind == "must" && cannot_wait(job.key.kind, follows));
      EXPECT_EQ(job.reminder, expected) << remind << " " << words(job.key.kind);
    }
  }
}

TEST(Jobs, SmallJobsComeOnlyWithCare) {
  EXPECT_TRUE(planned("", kBeds).of_kind(JobKind::Slugs).empty());
  std::string beds = kBeds;
  beds.replace(beds.find("[work]"), 6, "[work]\ncare = true");
  const Planned p = planned("", beds);
  EXPECT_FALSE(p.of_kind(JobKind::Slugs).empty());
  EXPECT_FALSE(p.of_kind(JobKind::Pick).empty());
}

TEST(Jobs, NothingIsAskedForBeforeThePlanBegan) {
  const Planned p = planned("began = 2026-08-15\n", kBeds);
  for (const Job& job : p.jobs) EXPECT_GE(iso(job.day), "2026-08-15");
}

}  // namespace
}  // namespace trug::work
