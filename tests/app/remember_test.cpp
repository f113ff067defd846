// SPDX-License-Identifier: MIT
// The plan's calendar as its memory, command by command.
#include <map>
#include <regex>
#include <string>

#include "calendar/memory.h"
#include "plan_text.h"
#include "program.h"

namespace trug::app {
namespace {

constexpr const char* kKeys =
    "garden = \"3a1f7c52-1f0e-4b53-9a52-6d0c5a3f8e17\"\ncalendar = \"garden.ics\"";

std::string plan(const std::string& crop = "crops = [\"cornflower\"]",
                 const std::string& last_frost = "10 May") {
  std::string text = head_text(kKeys) + std::string(kShelterText) +
                     bed_text("lane", "2.3", "0.9", {{"2.2", crop}});
  return text.replace(text.find("10 May"), 6, last_frost);
}

std::string pinned(const std::string& pin) {
  return "[[bed.stretch.crop]]\ncrop = \"cornflower\"\n" + pin;
}

class Remembering : public Program {
 protected:
  void on(const std::string& day) {
    now_ = {*parse_iso(day), *parse_iso(day) + std::chrono::hours{9}};
  }
  calendar::Memory memory(const std::string& name = "garden.ics") const {
    const calendar::ReadMemory read = calendar::read_memory(this->read(name));
    EXPECT_EQ(read.refused, "");
    return read.memory;
  }
  ToldStart start() const {
    const auto lines = memory().plantings;
    EXPECT_EQ(lines.size(), 1U);
    return lines.empty() ? ToldStart{} : lines.front().start;
  }
  // The plan's first calendar, half a year before it flowers, and what it chose.
  ToldStart first() {
    on("2026-08-03");
    write("plan.toml", plan());
    EXPECT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
    return start();
  }
  // What the next calendar chooses a week after that start.
  ToldStart a_week_on(const ToldStart& before, const std::string& text) {
    on(iso(before.start + Days{7}));
    write("plan.toml", text);
    const Answer answer = run({"calendar", "@plan.toml"});
    EXPECT_EQ(answer.exit, 0) << answer.err;
    return start();
  }
};

TEST_F(Remembering, ThePlansCalendarIsWrittenWhereNoFileIsNamed) {
  first();
  EXPECT_EQ(names(), (std::vector<std::string>{"garden.ics", "plan.toml"}));
  write("sub/plan.toml", plan());
  EXPECT_EQ(run({"calendar", "@sub/plan.toml"}).exit, 0);
  EXPECT_NE(read("sub/garden.ics"), "");
}

TEST_F(Remembering, WithoutAFileThereIsNothingToWriteTo) {
  std::string text = plan();
  text.erase(text.find("calendar = "), std::string("calendar = \"garden.ics\"\n").size());
  write("plan.toml", text);
  const Answer answer = run({"calendar", "@plan.toml"});
  EXPECT_EQ(answer.exit, 2);
  EXPECT_NE(answer.err.find("the calendar needs a file"), std::string::npos) << answer.err;
}

TEST_F(Remembering, SomeKindsOfJobAreNoMemory) {
  first();
  const std::string before = read("garden.ics");
  EXPECT_EQ(run({"calendar", "@plan.toml", "--only", "sow"}).exit, 2);
  EXPECT_EQ(run({"calendar", "@plan.toml", "--only", "sow", "-o", "@sow.ics"}).exit, 0);
  EXPECT_EQ(read("garden.ics"), before);
  EXPECT_TRUE(memory("sow.ics").plantings.empty());
}

TEST_F(Remembering, APlanThatIsSplitKeepsItsWholeCalendarToo) {
  write("plan.toml", plan());
  EXPECT_EQ(run({"calendar", "@plan.toml", "--split", "bed"}).exit, 0);
  EXPECT_EQ(names(), (std::vector<std::string>{"garden-lane.ics", "garden.ics", "plan.toml"}));
  EXPECT_TRUE(memory("garden-lane.ics").plantings.empty());
  EXPECT_EQ(memory().plantings.size(), 1U);
}

TEST_F(Remembering, WhatWasSownStaysWhateverTheFrostDates) {
  const ToldStart told = first();
  for (const char* frost : {"24 April", "10 May", "30 May"}) {
    const ToldStart now = a_week_on(told, plan("crops = [\"cornflower\"]", frost));
    EXPECT_EQ(now.way, told.way) << frost;
    EXPECT_EQ(iso(now.start), iso(told.start)) << frost;
    EXPECT_EQ(iso(now.in_ground), iso(told.in_ground)) << frost;
    EXPECT_EQ(now.plants, told.plants) << frost;
  }
}

// Every command takes what the calendar told as done; without the calendar it is a new plan.
TEST_F(Remembering, EveryCommandReadsIt) {
  const ToldStart told = first();
  on(iso(told.start + Days{7}));
  write("plan.toml", plan("crops = [\"cornflower\"]", "30 May"));
  const Answer why = run({"why", "@plan.toml", "lane", "cornflower"});
  EXPECT_NE(why.out.find(long_day(told.start) + ", as it was told"), std::string::npos) << why.out;
  EXPECT_NE(run({"jobs", "@plan.toml", "--json"}).out.find(iso(told.start)), std::string::npos);
}

TEST_F(Remembering, APinOrARecordChangesWhatWasTold) {
  const ToldStart told = first();
  const Date later = told.start + Days{9};
  const ToldStart now = a_week_on(told, plan(pinned("start_on = " + iso(later))));
  EXPECT_EQ(iso(now.start), iso(later));

  on(iso(told.start + Days{12}));
  const Date sown = told.start + Days{4};
  write("plan.toml", plan() +
                         "\n[[happened]]\nplanting = \"lane/cornflower\"\nwhat = \"sown\"\non = " +
                         iso(sown) + "\n");
  EXPECT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  EXPECT_EQ(iso(start().start), iso(sown));
}

// What was ordered is sown or planted, and nothing else is bought for it.
TEST_F(Remembering, WhatIsBoughtStaysTheKindOfThingItIs) {
  on("2027-01-04");
  write("plan.toml", plan("crops = [\"zinnia\"]"));
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  ASSERT_EQ(start().method, Method::Seed);
  on(iso(start().start - Days{1}));  // the seed was ordered
  for (const char* frost : {"20 April", "4 June"}) {
    write("plan.toml", plan("crops = [\"zinnia\"]", frost));
    ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
    EXPECT_EQ(start().method, Method::Seed) << frost;
  }
}

// Files from before the plantings had lines of their own: the days are found by the events.
TEST_F(Remembering, AnOlderFileTellsByItsJobs) {
  const ToldStart told = first();
  std::string old = std::regex_replace(read("garden.ics"),
                                       std::regex("X-TRUG-PLANTING:[^\r]*\r\n( [^\r]*\r\n)*"), "");
  old = std::regex_replace(old, std::regex("X-TRUG-MEMORY:2"), "X-TRUG-MEMORY:1");
  write("garden.ics", old);
  ASSERT_TRUE(memory().plantings.empty());
  const ToldStart now = a_week_on(told, plan("crops = [\"cornflower\"]", "30 May"));
  EXPECT_EQ(now.way, told.way);
  EXPECT_EQ(iso(now.start), iso(told.start));
}

TEST_F(Remembering, AnotherFileInItsPlaceIsSaidAndLeftAlone) {
  write("plan.toml", plan());
  write("garden.ics", "Shopping: twine, labels\n");
  const Answer check = run({"check", "@plan.toml"});
  EXPECT_EQ(check.exit, 1);
  EXPECT_NE(check.out.find("tells nothing of what"), std::string::npos) << check.out;
  for (const std::string output : {"@garden.ics", "@other.ics"}) {
    EXPECT_EQ(run({"calendar", "@plan.toml", "-o", output}).exit, 3);
  }
  EXPECT_EQ(read("garden.ics"), "Shopping: twine, labels\n");
}

}  // namespace
}  // namespace trug::app
