// SPDX-License-Identifier: MIT
// What a calendar told, beside what is reckoned now: on the days before, between and after.
#include "ground/told.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <optional>
#include <string>

#include "ask/reckon.h"
#include "work/planned.h"

namespace trug::work {
namespace {

constexpr const char* kCosmos =
    "[[bed]]\nname = \"b\"\nlength_m = 2.2\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.1\n"
    "[[bed.stretch.crop]]\ncrop = \"cosmos\"\nway = \"raised in warmth in spring\"\n";

// As a calendar holds it that was written for these jobs.
Told told_of(const Planned& p, Date today) {
  const ground::Sowing& sowing = p.schedule.sowings.front();
  Told told{.degree = sowing.start < today ? Degree::Started : Degree::Chosen,
            .start = ground::told_start(p.plan.plantings.front(), sowing)};
  for (const Job& job : p.jobs) told.jobs[std::string(to_string(job.key.kind))] = job.day;
  return told;
}

// A calendar told everything for a last frost on 15 May; on `today` the plan's is three weeks
// later.
struct Later {
  Planned p = planned("", kCosmos);
  std::vector<Job> jobs;

  explicit Later(Date today) {
    remember(today);
    p.plan.place.last_frost = MonthDay{std::chrono::June, std::chrono::day{5}};
    jobs = ask::reckon(p.plan, p.sheets, {}, today).jobs;
  }
  void remember(Date today) {
    Planting& planting = p.plan.plantings.front();
    planting.told = {told_of(p, today)};
    planting.touched = true;
    p.plan.remembers = true;
    p.plan.began = make_date(2027, 1, 2);
  }
  const Job* now(JobKind kind) const {
    const auto job = std::ranges::find(jobs, kind, [](const Job& one) { return one.key.kind; });
    return job == jobs.end() ? nullptr : &*job;
  }
  Date before(JobKind kind) const { return p.of_kind(kind).at(0)->day; }
};

// A frost three weeks later, seen on any day after the sowing: nothing that is still to be done
// falls behind that day, and what is past stays on its own.
TEST(Told, NothingToDoFallsIntoThePast) {
  const Planned free = planned("", kCosmos);
  const Date sown = free.schedule.sowings.front().start;
  const Date out = free.schedule.sowings.front().in_ground;
  for (Date today = sown + Days{1}; today < out; today += Days{1}) {
    const Later later(today);
    for (const JobKind kind : {JobKind::PrickOut, JobKind::HardenOff, JobKind::Pinch}) {
      const Job* job = later.now(kind);
      if (job == nullptr) continue;
      SCOPED_TRACE(std::string(to_string(kind)) + " seen on " + iso(today));
      const Date before = later.before(kind);
      if (before < today) {
        EXPECT_EQ(job->day, before);
      } else {
        EXPECT_GE(job->day, today);
      }
    }
  }
}

// Once it was hardened off, a plant that goes out later waits where it is.
TEST(Told, WhatIsHardenedDoesNotGoBackIntoWarmth) {
  const Planned free = planned("", kCosmos);
  const Date hardened = free.of_kind(JobKind::HardenOff).at(0)->day;
  const Later later(hardened + Days{3});
  EXPECT_GT(later.now(JobKind::PlantOut)->day, later.before(JobKind::PlantOut));
  EXPECT_EQ(later.now(JobKind::HardenOff)->day, hardened);
  for (const Job& job : later.jobs) {
    const bool waits = job.day > hardened && job.day < later.now(JobKind::PlantOut)->day;
    if (waits && job.where) {
      EXPECT_EQ(*job.where, Raised::Frame) << to_string(job.key.kind);
    }
  }
  // Seen the day before, it is hardened off for the later day.
  EXPECT_GT(Later(hardened - Days{1}).now(JobKind::HardenOff)->day, hardened);
}

}  // namespace
}  // namespace trug::work
