// SPDX-License-Identifier: MIT
// The plan's calendar as its memory, command by command.
#include <algorithm>
#include <filesystem>
#include <map>
#include <regex>
#include <string>

#include "calendar/event.h"
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
  EXPECT_EQ(names(), (std::vector<std::string>{"garden-lane.ics", "garden-orders.ics", "garden.ics",
                                               "plan.toml"}));
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
TEST_F(Remembering, NothingIsBegunBeforeThePlanBegins) {
  on("2027-02-01");
  std::string text = plan("crops = [\"zinnia\"]");
  text.replace(text.find("2025-06-01"), 10, "2027-08-20");  // too late for them
  write("plan.toml", text);
  EXPECT_EQ(run({"calendar", "@plan.toml"}).out, "@garden.ics holds 1 event: 1 new\n");
  EXPECT_EQ(run({"calendar", "@plan.toml"}).out, "@garden.ics holds 1 event: nothing changed\n");
}

// Whichever way of the sheet it was put there by, once.
TEST_F(Remembering, WhatStandsIsToldAndStandsAgain) {
  on("2027-03-20");
  write("plan.toml", plan("[[bed.stretch.crop]]\ncrop = \"acidanthera\"\nsince = 2024\n"));
  EXPECT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  EXPECT_EQ(count_of("SUMMARY:Cut acidanthera", read("garden.ics")), 1);
  const Answer again = run({"calendar", "@plan.toml"});
  EXPECT_EQ(again.out, "@garden.ics holds 4 events: nothing changed\n");
  const Answer jobs = run({"jobs", "@plan.toml"});
  EXPECT_NE(jobs.out.find("acidanthera"), std::string::npos) << jobs.out << jobs.err;
}

// Fewer sowings than asked for share the ground: each keeps its strip and its plants once one of
// them is sown.
TEST_F(Remembering, BegunStreamsKeepTheirStrips) {
  on("2026-11-25");
  write("plan.toml", plan("[[bed.stretch.crop]]\ncrop = \"sunflower\"\nsuccessions = 14\n"));
  EXPECT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  const auto told = memory().plantings;
  ASSERT_GT(told.size(), 2u);
  ASSERT_LT(told.size(), 14u);
  Date first = told.front().start.start;
  for (const auto& line : told) first = std::min(first, line.start.start);
  for (const int days : {1, 15, 30}) {
    on(iso(first + Days{days}));
    EXPECT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
    std::map<Uuid, ToldStart> now;
    for (const auto& line : memory().plantings) now[line.id] = line.start;
    EXPECT_EQ(now.size(), told.size());
    for (const auto& line : told) {
      EXPECT_EQ(now[line.id].plants, line.start.plants) << days;
      EXPECT_EQ(now[line.id].length, line.start.length) << days;
      EXPECT_EQ(now[line.id].at, line.start.at) << days;
    }
  }
}

// Taken out of the plan a week after it was begun, and put back a week later.
TEST_F(Remembering, WhatWasBegunAndTakenOutComesBackAsItWasBegun) {
  const ToldStart told = first();
  on(iso(told.start + Days{7}));
  write("plan.toml", plan("crops = [\"nigella\"]"));
  EXPECT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  const Uuid nigella = memory().plantings.front().id;
  on(iso(told.start + Days{14}));
  write("plan.toml", plan());
  EXPECT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  ToldStart back;
  for (const auto& line : memory().plantings) {
    if (line.id != nigella) back = line.start;
  }
  EXPECT_EQ(back.way, told.way);
  EXPECT_EQ(iso(back.start), iso(told.start));
  EXPECT_EQ(iso(back.in_ground), iso(told.in_ground));
  EXPECT_EQ(back.plants, told.plants);
  const Answer check = run({"check", "@plan.toml"});
  EXPECT_NE(check.out.find("1 of 1 plantings fit"), std::string::npos) << check.out;
}

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
// Fewer plants than were sown, another variety: the plan's word is taken, and told.
TEST_F(Remembering, AWordAgainstWhatHasBegunIsTold) {
  on("2026-08-03");
  write("plan.toml", plan(pinned("variety = \"Dusk\"\nplants = 24")));
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  const Date began = start().start;
  on(iso(began - Days{7}));
  const std::string edited = plan(pinned("variety = \"Dawn\"\nplants = 12"));
  write("plan.toml", edited);
  EXPECT_EQ(run({"check", "@plan.toml"}).out.find("since then"), std::string::npos);
  write("plan.toml", plan(pinned("variety = \"Dusk\"\nplants = 24")));
  a_week_on(start(), plan(pinned("variety = \"Dusk\"\nplants = 24")));
  write("plan.toml", edited);
  const std::string page =
      std::regex_replace(run({"check", "@plan.toml"}).out, std::regex("\\s+"), " ");
  EXPECT_NE(page.find("lane/cornflower began on " + plain_day(began) +
                      "; since then the plan says variety Dawn in the place of Dusk and plants 12 "
                      "in the place of 24, and that is taken"),
            std::string::npos)
      << page;
}

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

// ---- what is told of an edit

std::string wished(const std::string& crops, const std::string& bed = "lane",
                   const std::string& more = "") {
  return head_text(kKeys) + std::string(kShelterText) +
         bed_text(bed, "2.3", "0.9", {{"2.2", crops}}) + more;
}

std::string cornflowers(const std::string& more) {
  return "[[bed.stretch.crop]]\ncrop = \"cornflower\"\n" + more;
}

// What alters number, variety or group is told as what to buy, and nothing of it as other words.
TEST_F(Remembering, WhatIsToBeBoughtIsToldFirst) {
  struct Row {
    const char *crop, *before, *after, *told;
  };
  for (const Row& row :
       {Row{"cornflower", "plants = 40", "plants = 52",
            "buy        lane/cornflower: seed for 52 plants instead of 40"},
        Row{"cornflower", "plants = 40", "plants = 31",
            "buy        lane/cornflower: seed for 31 plants instead of 40"},
        Row{"cornflower", "variety = \"Dusk\"", "variety = \"Dawn\"",
            "buy        lane/cornflower: 'Dawn' instead of 'Dusk'"},
        Row{"tulip", "group = \"mid\"", "group = \"late\"",
            "buy        lane/tulip: late instead of mid"},
        Row{"cornflower", "way = \"sown in place in autumn\"", "way = \"sown in place in spring\"",
            "way        lane/cornflower: \"sown in place in spring\" instead of "
            "\"sown in place in autumn\""}}) {
    SCOPED_TRACE(row.told);
    const std::string crop = std::string("[[bed.stretch.crop]]\ncrop = \"") + row.crop + "\"\n";
    on("2026-08-03");
    std::filesystem::remove(path("garden.ics"));
    write("plan.toml", wished(crop + row.before));
    ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
    write("plan.toml", wished(crop + row.after));
    const Answer answer = run({"calendar", "@plan.toml", "--verbose"});
    ASSERT_EQ(answer.exit, 0) << answer.err;
    EXPECT_NE(answer.out.find(row.told), std::string::npos) << answer.out;
    EXPECT_EQ(answer.out.find("reworded"), std::string::npos) << answer.out;
  }
}

TEST_F(Remembering, MoreThanWasOrderedIsSaid) {
  on("2026-08-03");
  write("plan.toml", wished(cornflowers("plants = 40")));
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  on(iso(start().start - Days{1}));
  write("plan.toml", wished(cornflowers("plants = 52")));
  const Answer answer = run({"calendar", "@plan.toml"});
  EXPECT_NE(answer.out.find("seed for 52 plants instead of 40, 12 more than were ordered"),
            std::string::npos)
      << answer.out;
}

TEST_F(Remembering, ABedWithAnotherNameIsAskedAbout) {
  const std::string crops = "crops = [\"cornflower\", \"zinnia\"]";
  const std::string question = "renamed?   bed \"lane\" is gone, and \"long lane\" has its crops";
  on("2026-08-03");
  write("plan.toml", wished(crops));
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  const auto asked = [&](const std::string& text) {
    write("plan.toml", text);
    return run({"calendar", "@plan.toml", "--dry-run"}).out;
  };
  const std::string told = asked(wished(crops, "long lane"));
  EXPECT_NE(told.find(question), std::string::npos) << told;
  EXPECT_NE(told.find("\n    id = \"lane\"\n"), std::string::npos) << told;
  // As asked: not an event changes its identity.
  const std::string pasted = asked(wished(crops, "long lane\"\nid = \"lane"));
  EXPECT_EQ(pasted.find("renamed?"), std::string::npos) << pasted;
  EXPECT_EQ(pasted.find(" new"), std::string::npos) << pasted;
  // Other crops, or the old bed still there: no question.
  EXPECT_EQ(asked(wished("crops = [\"cornflower\", \"cosmos\"]", "long lane")).find("renamed?"),
            std::string::npos);
  EXPECT_EQ(asked(wished(crops, "long lane",
                         bed_text("lane", "1.3", "0.9", {{"1.2", "crops = [\"dill\"]"}})))
                .find("renamed?"),
            std::string::npos);
}

// What was chosen in one bed does not move because another is edited.
TEST_F(Remembering, AnEditTouchesItsOwnGround) {
  const auto text = [](const std::string& last) {
    return wished("crops = [\"cornflower\"]", "lane",
                  "\n[[bed.stretch]]\nlength_m = 0.1\ncrops = [\"larkspur\"]\n") +
           bed_text("shed", "1.4", "0.7", {{"1.3", last}}) +
           "\n[wish]\nvases_per_week = 2\nstems_per_vase = 9\nfrom = \"1 May\"\nto = \"1 "
           "October\"\n";
  };
  on("2026-08-03");
  write("plan.toml", text("crops = [\"zinnia\"]"));
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  const auto before = memory().plantings;
  write("plan.toml", text("crops = [\"cosmos\"]"));
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  const auto now = memory().plantings;
  EXPECT_EQ(now.size(), before.size());
  int same = 0;
  for (const auto& line : before) same += std::ranges::count(now, line) > 0 ? 1 : 0;
  EXPECT_EQ(same, 2);
}

// As many sowings as are useful: those that have begun keep their numbers, days and ground.
TEST_F(Remembering, TheSowingsOfASeasonKeepTheirNumbers) {
  const auto text = [](const std::string& last_frost) {
    std::string result =
        wished("[[bed.stretch.crop]]\ncrop = \"sunflower\"\nsuccessions = \"all season\"");
    return result.replace(result.find("10 May"), 6, last_frost);
  };
  on("2027-01-04");
  write("plan.toml", text("10 May"));
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  const auto before = memory().plantings;
  ASSERT_GE(before.size(), 3U);
  on(iso(before[1].start.start + Days{1}));
  for (const char* frost : {"10 May", "4 May", "24 May"}) {
    write("plan.toml", text(frost));
    ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
    const auto now = memory().plantings;
    for (const auto& line : before) {
      if (line.start.start >= now_.today) continue;
      const auto same = std::ranges::find(now, line.id, &calendar::PlantingLine::id);
      ASSERT_NE(same, now.end()) << frost;
      EXPECT_EQ(iso(same->start.start), iso(line.start.start)) << frost;
      EXPECT_EQ(same->start.at, line.start.at) << frost;
      EXPECT_EQ(same->start.plants, line.start.plants) << frost;
    }
  }
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

// ---- orders, of several plantings together

// The events of that kind that are not cancelled, by day.
std::vector<calendar::StoredEvent> live(const calendar::Memory& memory, const std::string& kind) {
  std::vector<calendar::StoredEvent> result;
  for (const calendar::StoredEvent& stored : memory.events) {
    if (stored.event.category == kind && !stored.event.cancelled) result.push_back(stored);
  }
  return result;
}

TEST_F(Remembering, AnOrderChangesWithItsList) {
  on("2026-12-07");
  write("plan.toml", wished("crops = [\"zinnia\"]"));
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  const auto first = live(memory(), "order-seed");
  ASSERT_EQ(first.size(), 1U);
  ASSERT_TRUE(first[0].event.order);
  ASSERT_EQ(first[0].event.order->plants.size(), 1U);
  // A crop more, a crop less, another bed: the same event.
  const struct {
    std::string plan;
    std::size_t parts;
  } cases[] = {{wished("crops = [\"zinnia\"]", "lane",
                       bed_text("wall", "2.6", "0.9", {{"1.1", "crops = [\"statice\"]"}})),
                2},
               {wished("crops = [\"zinnia\"]", "wall"), 1},
               {wished("crops = [\"statice\"]"), 1}};
  for (const auto& one : cases) {
    write("plan.toml", one.plan);
    ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
    const auto now = live(memory(), "order-seed");
    ASSERT_EQ(now.size(), 1U);
    EXPECT_EQ(now[0].event.uid, first[0].event.uid);
    EXPECT_EQ(now[0].event.order->plants.size(), one.parts);
    EXPECT_GT(now[0].revision.sequence, first[0].revision.sequence);
  }
}

TEST_F(Remembering, APastOrderStaysAndWhatIsNewIsOrderedNext) {
  on("2026-12-07");
  write("plan.toml", wished("crops = [\"zinnia\"]"));
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  const auto first = live(memory(), "order-seed").at(0);
  on(iso(first.event.start + Days{3}));
  write("plan.toml", wished("crops = [\"zinnia\", \"statice\"]"));
  for (int twice = 0; twice < 2; ++twice) {
    const Answer answer = run({"calendar", "@plan.toml"});
    ASSERT_EQ(answer.exit, 0) << answer.err;
    const auto now = live(memory(), "order-seed");
    ASSERT_EQ(now.size(), 2U);
    EXPECT_EQ(now[0].bytes, first.bytes);
    EXPECT_EQ(now[1].event.order->plants.size(), 1U);
    EXPECT_EQ(now[1].event.order->repeat, 1);
    EXPECT_GE(now[1].event.start, now_.today);
  }
  // Both lie behind: nothing is ordered again, and the days stand.
  on(iso(live(memory(), "order-seed").at(1).event.start + Days{2}));
  EXPECT_NE(run({"calendar", "@plan.toml"}).out.find("nothing changed"), std::string::npos);
  EXPECT_EQ(run({"order", "@plan.toml"}).out.find("Seed,"), std::string::npos);
}

// What is said not to have been ordered is in the next order, and told once.
TEST_F(Remembering, AnOrderThatWasNotMadeIsMadeLater) {
  on("2026-12-07");
  write("plan.toml", wished("crops = [\"zinnia\", \"statice\"]"));
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  const Date told = live(memory(), "order-seed").at(0).event.start;
  on(iso(told + Days{4}));
  write("plan.toml", wished("crops = [\"zinnia\", \"statice\"]", "lane",
                            "[[happened]]\nplanting = \"lane/statice\"\nwhat = \"not-done\"\njob = "
                            "\"order-seed\"\non = " +
                                iso(told + Days{3}) + "\n"));
  for (const int days : {4, 5, 9, 20}) {
    on(iso(told + Days{days}));
    ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
    const auto now = live(memory(), "order-seed");
    ASSERT_EQ(now.size(), 2U) << days;
    EXPECT_EQ(now[0].event.start, told);
    EXPECT_EQ(now[1].event.start, told + Days{4}) << days;
    EXPECT_EQ(now[1].event.order->plants.size(), 1U);
  }
}

// A calendar from before orders were made together.
TEST_F(Remembering, AnOlderFilesOrdersAreTakenOver) {
  for (const bool behind : {false, true}) {
    SCOPED_TRACE(behind);
    on("2026-12-07");
    std::filesystem::remove(path("garden.ics"));
    write("plan.toml", wished("crops = [\"zinnia\"]"));
    ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
    const auto joint = live(memory(), "order-seed").at(0);
    const std::string alone = calendar::job_uid(memory().space, {.flowering_year = 2027,
                                                                 .bed = "lane",
                                                                 .crop = "zinnia",
                                                                 .planting = "1",
                                                                 .kind = work::JobKind::OrderSeed});
    std::string old = read("garden.ics");
    old = std::regex_replace(old, std::regex(joint.event.uid), alone);
    old = std::regex_replace(
        old, std::regex("(X-TRUG-JOB:2027 [0-9]+) order-seed[^\r]*\r\n( [^\r]*\r\n)*"), "$1\r\n");
    write("garden.ics", old);
    ASSERT_FALSE(live(memory(), "order-seed").at(0).event.order);
    on(iso(joint.event.start + Days{behind ? 2 : -2}));
    ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
    const auto now = live(memory(), "order-seed");
    ASSERT_EQ(now.size(), 1U);
    EXPECT_EQ(now[0].event.uid, behind ? alone : joint.event.uid);
    EXPECT_EQ(now[0].event.start, joint.event.start);
  }
}

}  // namespace
}  // namespace trug::app
