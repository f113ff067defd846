// SPDX-License-Identifier: MIT
// What stands in pots while the plan moves it from ground to ground.
#include <filesystem>
#include <map>
#include <regex>
#include <string>

#include "base/day_text.h"
#include "calendar/event.h"
#include "calendar/memory.h"
#include "program.h"

namespace trug::app {
namespace {

// A bed in a southern spring: corms planted in early September, tubers potted in late October.
std::string plan(const std::string& first, const std::string& second,
                 const std::string& last_frost = "5 October") {
  return "flowering_year = 2027\ngarden = \"5a0f1c6e-9a55-4b7d-8f67-0a3a2a1d7c11\"\n"
         "began = 2026-02-20\ncalendar = \"front.ics\"\n[place]\nlatitude = -43.5\n"
         "last_frost = \"" +
         last_frost +
         "\"\nfirst_frost = \"5 May\"\nfrost_meaning = \"garden\"\n"
         "mean_c = [17.4, 17.2, 15.2, 12.3, 9.2, 6.7, 6.1, 7.4, 9.5, 11.5, 13.7, 16.0]\n"
         "[wish]\nvases_per_week = 1\nstems_per_vase = 10\nfrom = \"25 September\"\n"
         "to = \"30 April\"\n[shelter]\nheated_trays = 4\nframe_m2 = 1\n[[bed]]\nname = \"front\"\n"
         "length_m = 3.1\nwidth_m = 1\n[[bed.stretch]]\nlength_m = 1.5\ncrops = [" +
         first + "]\n[[bed.stretch]]\nlength_m = 1.5\ncrops = [" + second + "]\n";
}

const std::string kOneEach = plan("\"ranunculus\"", "\"cornflower\", \"dahlia\"");
const std::string kMoved = plan("\"ranunculus\", \"dahlia\"", "\"cornflower\"");
const std::string kMovedLateFrost =
    plan("\"ranunculus\", \"dahlia\"", "\"cornflower\"", "25 October");

std::string happened(const std::string& crop, const std::string& what, Date on) {
  return "[[happened]]\nplanting = \"front/" + crop + "\"\nwhat = \"" + what +
         "\"\non = " + iso(on) + "\n";
}

class Waiting : public Program {
 protected:
  void on(const std::string& day) {
    now_ = {*parse_iso(day), *parse_iso(day) + std::chrono::hours{9}};
  }
  // The calendar of both, told until the corms are in the ground and the tubers in their pots.
  void SetUp() override {
    Program::SetUp();
    write("plan.toml", kOneEach);
    for (const char* day : {"2026-02-20", "2026-04-20", "2026-08-20", "2026-11-01"}) {
      on(day);
      ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
    }
    ASSERT_LT(day_of("dahlia", "plant"), now_.today);
    ASSERT_GT(day_of("dahlia", "plant-out"), now_.today);
  }
  // Date::max(): there is no such job to come.
  Date day_of(const std::string& crop, const std::string& kind) const {
    for (const auto& stored : calendar::read_memory(read("front.ics")).memory.events) {
      const calendar::Event& event = stored.event;
      const bool is_such = !event.cancelled && event.category == kind &&
                           event.summary.find(crop) != std::string::npos;
      if (is_such) return event.start;
    }
    return Date::max();
  }
};

TEST_F(Waiting, ForGroundThatIsTaken) {
  const Date out = day_of("dahlia", "plant-out");
  write("plan.toml", kMoved);
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  EXPECT_GT(day_of("ranunculus", "lift"), day_of("ranunculus", "first-cut"));
  EXPECT_GE(day_of("dahlia", "plant-out"), day_of("ranunculus", "lift") + Days{7});
  EXPECT_GT(day_of("dahlia", "plant-out"), out);
}

// However often it is moved: neither is left out, and the corms are cut before they go.
TEST_F(Waiting, NeitherIsLostByMovingToAndFro) {
  for (const std::string& text :
       {kMoved, kOneEach, kMoved, kMovedLateFrost, kOneEach, kMovedLateFrost, kMoved}) {
    write("plan.toml", text);
    ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
    EXPECT_LT(day_of("dahlia", "plant-out"), Date::max());
    EXPECT_LT(day_of("ranunculus", "first-cut"), day_of("ranunculus", "lift"));
    const Answer now = run({"check", "@plan.toml"});
    EXPECT_NE(now.out.find("3 of 3 plantings fit"), std::string::npos) << now.out;
  }
}

// As many as were potted, however much room there is where they go.
TEST_F(Waiting, WhatIsPottedIsNoMoreOnWiderGround) {
  const auto plants = [&] {
    std::map<std::string, int> found;
    for (const auto& line : calendar::read_memory(read("front.ics")).memory.plantings) {
      found[line.start.way] = line.start.plants;
    }
    return found["tubers potted up in warmth"];
  };
  const int potted = plants();
  ASSERT_GT(potted, 0);
  for (const char* length : {"2.5", "0.9"}) {
    std::string text = kMoved;
    text.replace(text.find("length_m = 3.1"), 14, "length_m = 4.2");
    text.replace(text.find("1.5"), 3, length);
    write("plan.toml", text);
    ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
    EXPECT_EQ(plants(), potted) << length;
  }
}

// Left out of the plan and put back weeks later: it stood in its pots all the while.
TEST_F(Waiting, WhatWasTakenOutOfThePlanIsStillInItsPots) {
  const Date out = day_of("dahlia", "plant-out");
  write("plan.toml", plan("\"ranunculus\"", "\"cornflower\""));
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  on("2026-11-20");
  write("plan.toml", kOneEach);
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  EXPECT_GE(day_of("dahlia", "plant-out"), now_.today);
  EXPECT_LE(day_of("dahlia", "plant-out"), out + Days{28});
}

// Recorded with the word of its job, a potted tuber is in its pot; it is set out when it was told.
TEST_F(Waiting, PlantedIsPottedWhereTheCalendarPotsItUp) {
  const Date potted = day_of("dahlia", "plant"), out = day_of("dahlia", "plant-out");
  write("plan.toml", kOneEach + happened("dahlia", "planted", potted + Days{1}));
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  EXPECT_EQ(day_of("dahlia", "plant-out"), out);
  EXPECT_EQ(day_of("dahlia", "plant"), potted + Days{1});
}

// In the ground a day later than it was told, it stays in the plan, run after run.
TEST_F(Waiting, WhatWasPlantedADayLateStaysPlanted) {
  const Date planted = day_of("ranunculus", "plant");
  write("plan.toml", kOneEach + happened("ranunculus", "planted", planted + Days{1}));
  for (const char* day : {"2026-11-02", "2026-11-03", "2026-11-20"}) {
    on(day);
    const Answer answer = run({"calendar", "@plan.toml"});
    ASSERT_EQ(answer.exit, 0);
    if (std::string(day) != "2026-11-02") {
      EXPECT_NE(answer.out.find("nothing changed"), std::string::npos) << day << answer.out;
    }
    EXPECT_EQ(day_of("ranunculus", "plant"), planted + Days{1}) << day;
    EXPECT_LT(day_of("ranunculus", "first-cut"), Date::max()) << day;
  }
}

// All went as it was told: nothing moves.
TEST_F(Waiting, WhatWasPottedAsToldMovesNothing) {
  const Date out = day_of("dahlia", "plant-out");
  for (const char* word : {"planted", "sown"}) {
    write("plan.toml", kOneEach + happened("dahlia", word, day_of("dahlia", "plant")));
    ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
    EXPECT_EQ(day_of("dahlia", "plant-out"), out) << word;
  }
}

// The season is over: what is advised for the next lies ahead.
TEST_F(Waiting, TheNextYearsStartsAreNotPast) {
  const std::string year = "flowering_year = 2027";
  write("plan.toml", "flowering_year = 2026" + kOneEach.substr(year.size()));
  std::filesystem::remove(path("front.ics"));
  on("2026-02-20");
  ASSERT_EQ(run({"calendar", "@plan.toml"}).exit, 0);
  on("2026-09-25");
  const std::string said =
      std::regex_replace(run({"check", "@plan.toml"}).out, std::regex("\\s+"), " ");
  const std::regex start(
      "for flowers in 2027 (?:sow|plant) it (?:from|about) ([0-9]+ [A-Za-z]+ 2[0-9]{3})");
  int advised = 0;
  for (std::sregex_iterator it(said.begin(), said.end(), start), end; it != end; ++it, ++advised) {
    const auto day = read_written_day((*it)[1].str()).day;
    ASSERT_TRUE(day) << it->str();
    EXPECT_GE(on_or_after(*day, make_date(2020, 1, 1)), now_.today) << it->str();
  }
  EXPECT_EQ(advised, 3);
}

}  // namespace
}  // namespace trug::app
