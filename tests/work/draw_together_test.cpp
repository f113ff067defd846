// SPDX-License-Identifier: MIT
#include "work/draw_together.h"

#include <gtest/gtest.h>

#include <string>

namespace trug::work {
namespace {

using enum JobKind;

Job job(JobKind kind, const std::string& bed, const std::string& day, const std::string& first) {
  Job result;
  result.key.kind = kind;
  result.key.bed = bed;
  result.day = parse_iso(day).value();
  result.first = parse_iso(first).value();
  result.last = result.day + Days{14};
  return result;
}

std::string days_of(const std::vector<Job>& jobs) {
  std::string text;
  for (const Job& one : jobs) text += iso(one.day).substr(5) + " ";
  return text;
}

const Date kToday = make_date(2027, 1, 1);

TEST(DrawTogether, WhatIsDoneInTheBedWithinAWeekAnyway) {
  std::vector<Job> jobs = {job(PotOn, "yard", "2027-04-08", "2027-04-01"),
                           job(PotOn, "yard", "2027-04-03", "2027-03-30"),
                           job(PotOn, "yard", "2027-04-11", "2027-04-01"),  // eight days later
                           job(PotOn, "lane", "2027-04-05", "2027-04-01"),  // another bed
                           job(Thin, "yard", "2027-04-05", "2027-04-01")};  // another kind
  draw_together(kToday, jobs);
  EXPECT_EQ(days_of(jobs), "04-03 04-03 04-11 04-05 04-05 ");
}

TEST(DrawTogether, KeepsEachInItsWindowAndAfterWhatItWaitsFor) {
  std::vector<Job> jobs = {job(PotOn, "yard", "2027-04-03", "2027-03-30"),
                           job(PotOn, "yard", "2027-04-06", "2027-04-04"),
                           job(PrickOut, "yard", "2027-04-07", "2027-04-07"),
                           job(PotOn, "yard", "2027-04-09", "2027-04-01")};
  jobs[3].after = {2};
  draw_together(kToday, jobs);
  EXPECT_EQ(days_of(jobs), "04-03 04-06 04-07 04-09 ");
}

TEST(DrawTogether, LeavesWhatStandsOrIsToldWithAnother) {
  std::vector<Job> jobs = {job(PotOn, "yard", "2027-04-03", "2027-03-30"),
                           job(PotOn, "yard", "2027-04-05", "2027-04-01"),
                           job(PotOn, "yard", "2027-04-06", "2027-04-01"),
                           job(Sow, "yard", "2027-04-03", "2027-04-01"),
                           job(Sow, "yard", "2027-04-05", "2027-04-01"),
                           job(FirstCut, "yard", "2027-04-03", "2027-04-01"),
                           job(FirstCut, "yard", "2027-04-05", "2027-04-01")};
  jobs[1].state = Job::State::Recorded;
  jobs[2].told_with = 0;
  draw_together(kToday, jobs);
  EXPECT_EQ(days_of(jobs), "04-03 04-05 04-06 04-03 04-05 04-03 04-05 ");
  jobs[1].state = Job::State::Due;
  draw_together(make_date(2027, 4, 4), jobs);
  EXPECT_EQ(days_of(jobs), "04-03 04-05 04-06 04-03 04-05 04-03 04-05 ") << "no day that is past";
}

}  // namespace
}  // namespace trug::work
