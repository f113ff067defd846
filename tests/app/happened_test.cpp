// SPDX-License-Identifier: MIT
// What happened, on the day of a run, and in the calendar.
#include "plan_text.h"
#include "program.h"

namespace trug::app {
namespace {

std::string plan(const std::string& records) {
  return head_text("garden = \"3a1f7c52-1f0e-4b53-9a52-6d0c5a3f8e17\"") +
         std::string(kShelterText) +
         bed_text("lane", "2.3", "0.9", {{"2.2", "crops = [\"cornflower\"]"}}) + records;
}

std::string record(const std::string& what, const std::string& on, const std::string& more = "") {
  return "[[happened]]\nplanting = \"lane/cornflower\"\nwhat = \"" + what + "\"\non = " + on +
         "\n" + more;
}

class HappenedRun : public Program {};

TEST_F(HappenedRun, WhatIsStillToComeHasNotHappened) {
  now_ = {make_date(2027, 4, 10), make_date(2027, 4, 10) + std::chrono::hours{9}};
  write("plan.toml", plan(record("sown", "2027-04-11")));
  const Answer answer = run({"jobs", "@plan.toml"});
  EXPECT_EQ(answer.exit, 2);
  EXPECT_NE(answer.err.find("error: 11 April 2027 is still to come"), std::string::npos)
      << answer.err;
  const Answer earlier = run({"jobs", "@plan.toml", "--today", "2027-04-10"});
  EXPECT_EQ(earlier.exit, 0) << earlier.err;
  EXPECT_NE(earlier.err.find("note: 1 line of [[happened]] after 10 April 2027 left out"),
            std::string::npos)
      << earlier.err;
}

TEST_F(HappenedRun, AJobThatThereIsNotIsAnError) {
  write("plan.toml", plan(record("not-done", "2026-08-01", "job = \"hoe\"\n")));
  const Answer answer = run({"jobs", "@plan.toml"});
  EXPECT_EQ(answer.exit, 2);
  EXPECT_NE(answer.err.find("there is no job 'hoe'"), std::string::npos) << answer.err;
  write("plan.toml", plan(record("not-done", "2026-08-01", "job = \"order\"\n")));
  EXPECT_NE(run({"jobs", "@plan.toml"})
                .err.find("write job = \"order-seed\", \"order-bulbs\", \"order-tubers\" or "
                          "\"order-plants\""),
            std::string::npos);
}

// The bed has another name since, and its old one as id; and a crop alone names its planting.
TEST_F(HappenedRun, ARecordNamesItsBedByItsIdToo) {
  now_ = {make_date(2027, 6, 10), make_date(2027, 6, 10) + std::chrono::hours{9}};
  std::string text = plan(record("sown", "2027-04-11"));
  text.replace(text.find("name = \"lane\""), 13, "name = \"path\"\nid = \"lane\"");
  write("plan.toml", text);
  EXPECT_EQ(run({"jobs", "@plan.toml"}).exit, 0);
  text = plan(record("sown", "2027-04-11"));
  text.replace(text.find("\"lane/cornflower\""), 17, "\"cornflower\"");
  write("plan.toml", text);
  const Answer answer = run({"jobs", "@plan.toml"});
  EXPECT_EQ(answer.exit, 2);
  EXPECT_NE(answer.err.find("write lane/cornflower"), std::string::npos) << answer.err;
}

// A past event moves to the day on which it was really done, and says so once.
TEST_F(HappenedRun, TheCalendarFollowsWhatHappened) {
  now_ = {make_date(2027, 1, 4), make_date(2027, 1, 4) + std::chrono::hours{9}};
  write("plan.toml", plan(""));
  ASSERT_EQ(run({"calendar", "@plan.toml", "-o", "@garden.ics"}).exit, 0);
  now_ = {make_date(2027, 6, 1), make_date(2027, 6, 1) + std::chrono::hours{9}};
  write("plan.toml", plan(record("sown", "2027-04-23", "note = \"after the rain\"\n")));
  const Answer answer = run({"calendar", "@plan.toml", "-o", "@garden.ics"});
  EXPECT_EQ(answer.exit, 0) << answer.err;
  EXPECT_NE(answer.out.find("what happened was recorded"), std::string::npos) << answer.out;
  const std::string file = read("garden.ics");
  EXPECT_NE(file.find("DTSTART;VALUE=DATE:20270423"), std::string::npos);
  EXPECT_NE(file.find("after the rain"), std::string::npos);
  run({"calendar", "@plan.toml", "-o", "@garden.ics"});
  EXPECT_EQ(read("garden.ics"), file);
}

// A calendar's start that was not done is told once for a later day and counts as done on that, on
// whichever day it was recorded: on the one it was due, before its event lies behind, or after.
TEST_F(HappenedRun, WhatWasNotDoneIsToldOnceForALaterDay) {
  const auto dates = [](const std::string& file) {
    std::vector<std::string> result;
    for (std::size_t at = 0; (at = file.find("DTSTART;VALUE=DATE:", at)) != std::string::npos;) {
      at += 19;
      result.push_back(file.substr(at, 8));
    }
    return result;
  };
  const std::string calendar = "calendar = \"garden.ics\"\n";
  for (const int days_late : {0, 1, 9}) {
    write("plan.toml", calendar + plan(""));
    std::remove(path("garden.ics").c_str());
    const auto run_on = [&](const std::string& day) {
      return run({"calendar", "@plan.toml", "--today", day});
    };
    ASSERT_EQ(run_on("2027-01-04").exit, 0);
    const auto sown =
        run({"jobs", "@plan.toml", "--only", "sow", "--csv", "--today", "2027-01-04"});
    const auto at = sown.out.find(",sow,") + 5;
    const Date due = *parse_iso(sown.out.substr(at, 10));
    const Date said = due + Days{days_late};
    write("plan.toml", calendar + plan(record("not-done", iso(said), "job = \"sow\"\n")));
    const Answer moved = run_on(iso(said));
    EXPECT_NE(moved.out.find("Sow"), std::string::npos) << moved.out;
    const std::vector<std::string> told = dates(read("garden.ics"));
    const Date again = said + Days{1};
    std::string day = iso(again);
    std::erase(day, '-');
    EXPECT_EQ(std::ranges::count(told, day), 1) << days_late;
    for (const int later : {1, 8, 20}) {
      run_on(iso(again + Days{later}));
      EXPECT_EQ(dates(read("garden.ics")), told) << days_late << " " << later;
    }
  }
}

}  // namespace
}  // namespace trug::app
