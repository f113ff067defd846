// SPDX-License-Identifier: MIT
#include "work/jobs.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <stdexcept>
#include <string_view>

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
  std::set<std::string_view> words, people;
  for (const JobTrait& kind : kTraits) {
    EXPECT_TRUE(words.insert(kind.word).second) << kind.word;
    EXPECT_TRUE(people.insert(kind.words).second) << kind.words;
    EXPECT_EQ(parse_job_kind(kind.word), kind.kind);
    EXPECT_EQ(to_string(kind.kind), kind.word);
  }
  EXPECT_FALSE(parse_job_kind("dig"));
}

TEST(JobKinds, AnotherIsADefectThatIsTold) {
  EXPECT_THROW(trait(static_cast<JobKind>(kTraits.size())), std::out_of_range);
}

TEST(JobKinds, HaveAPlaceEachInTheOrderOfTheGround) {
  using enum JobKind;
  for (const auto& [first, then] : {std::pair{FirstCut, Lift},
                                    {Lift, ClearAndFeed},
                                    {ClearAndFeed, Sow},
                                    {ClearAndFeed, Plant},
                                    {ClearAndFeed, PlantOut},
                                    {HardenOff, PlantOut},
                                    {PlantOut, WatchForFrost}}) {
    EXPECT_LT(trait(first).place_in_day, trait(then).place_in_day) << to_string(first);
  }
}

TEST(Jobs, LieInsideTheirWindowsAndOnTheGardenersDays) {
  const Planned p = planned("", kBeds);
  ASSERT_GT(p.jobs.size(), 30u);
  for (const Job& job : p.jobs) {
    SCOPED_TRACE(job.planting_name + " " + std::string(to_string(job.key.kind)) + " " +
                 iso(job.day));
    EXPECT_LE(job.first, job.day);
    EXPECT_LE(job.day, job.last);
    const unsigned weekday = std::chrono::weekday{job.day}.iso_encoding();
    bool room = false;  // is there a weekend in the window at all?
    for (Date day = job.first; day <= job.last; day += Days{1}) {
      room = room || std::chrono::weekday{day}.iso_encoding() >= 6;
    }
    EXPECT_TRUE(weekday >= 6 || !room);
  }
}

TEST(Jobs, ComeAfterWhatTheyNeed) {
  const Planned p = planned("", kBeds);
  for (const Job& job : p.jobs) {
    for (const std::size_t before : job.after) {
      EXPECT_LE(p.jobs[before].day, job.day)
          << to_string(p.jobs[before].key.kind) << " before "
          << std::string(to_string(job.key.kind)) << ", " << job.planting_name;
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
          !job.told_with &&
          (remind == "all" || (remind == "must" && cannot_wait(job.key.kind, follows)));
      EXPECT_EQ(job.reminder, expected) << remind << " " << std::string(to_string(job.key.kind));
    }
  }
}

// The day on which the tulips go is the day their ground is cleared, and one event.
TEST(Jobs, ClearingIsToldWithTheLifting) {
  const Planned p = planned("", kBeds);
  const auto cleared = p.of_kind(JobKind::ClearAndFeed);
  ASSERT_FALSE(cleared.empty());
  for (const Job* job : cleared) {
    ASSERT_TRUE(job->told_with);
    const Job& with = p.jobs[*job->told_with];
    EXPECT_EQ(with.key.kind, JobKind::Lift);
    EXPECT_EQ(with.planting, job->planting);
    EXPECT_EQ(with.day, job->day);
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

TEST(JobKinds, EachGroupHasSome) {
  std::size_t all = 0;
  for (const auto& group : kJobGroups) {
    const auto kinds = kinds_in_group(group.word);
    EXPECT_GE(kinds.size(), 3u) << group.word;
    all += kinds.size();
  }
  EXPECT_EQ(all, kTraits.size());
  EXPECT_TRUE(kinds_in_group("sow").empty());
}

}  // namespace
}  // namespace trug::work
