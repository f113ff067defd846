// SPDX-License-Identifier: MIT
// A calendar with an event a day: it remembers what one with an event a job does.
#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "calendar/memory.h"
#include "plan_text.h"
#include "program.h"

namespace trug::app {
namespace {

using Json = nlohmann::json;

std::string plan(const std::string& calendar, const std::string& crops,
                 const std::string& last_frost = "10 May") {
  std::string text =
      head_text("garden = \"3a1f7c52-1f0e-4b53-9a52-6d0c5a3f8e17\"\ncalendar = \"" + calendar +
                "\"") +
      std::string(kShelterText) +
      bed_text("lane", "4.5", "0.9", {{"2.2", crops}, {"2.2", "crops = [\"zinnia\"]"}}) +
      "\n[wish]\nvases_per_week = 1\nstems_per_vase = 9\nfrom = \"1 June\"\n"
      "to = \"1 October\"\n";
  return text.replace(text.find("10 May"), 6, last_frost);
}

class DayCalendar : public Program {
 protected:
  void on(const std::string& day) {
    now_ = {*parse_iso(day), *parse_iso(day) + std::chrono::hours{9}};
  }
  calendar::Memory memory(const std::string& name) const {
    return calendar::read_memory(read(name)).memory;
  }
  // What is to be done, whatever event tells of it.
  std::string jobs(const std::string& plan) const {
    Json document = Json::parse(run({"jobs", "@" + plan, "--all", "--json"}).out);
    for (Json& job : document["jobs"]) job.erase("event");
    return document["jobs"].dump();
  }
};

// A year of both side by side, with the edits of a year: frosts, a crop more, a record.
TEST_F(DayCalendar, RemembersWhatACalendarOfJobsDoes) {
  const std::string one = "crops = [\"cornflower\"]",
                    two = "crops = [\"cornflower\", \"china aster\"]";
  struct Day {
    std::string on, crops, last_frost, record;
  };
  const std::string sown =
      "[[happened]]\nplanting = \"lane/zinnia\"\nwhat = \"sown\"\non = 2027-05-02\n";
  const Day days[] = {{"2026-08-03", one, "10 May", ""},  {"2026-09-20", one, "10 May", ""},
                      {"2026-11-02", one, "18 May", ""},  {"2027-01-20", two, "18 May", ""},
                      {"2027-02-15", two, "6 May", ""},   {"2027-05-03", two, "6 May", sown},
                      {"2027-06-20", two, "6 May", sown}, {"2027-09-01", two, "6 May", sown}};
  for (const Day& day : days) {
    on(day.on);
    write("days.toml", plan("days.ics", day.crops, day.last_frost) + day.record);
    write("jobs.toml", plan("jobs.ics", day.crops, day.last_frost) + day.record);
    ASSERT_EQ(run({"calendar", "@days.toml", "--per", "day"}).exit, 0) << day.on;
    ASSERT_EQ(run({"calendar", "@jobs.toml"}).exit, 0) << day.on;
    EXPECT_EQ(jobs("days.toml"), jobs("jobs.toml")) << day.on;
    const std::string before = read("days.ics");
    ASSERT_EQ(run({"calendar", "@days.toml"}).exit, 0) << "as the file has it";
    EXPECT_EQ(read("days.ics"), before) << day.on;
  }
}

TEST_F(DayCalendar, HasAnEventForEachDayAndAllItsJobsInIt) {
  on("2026-08-03");
  write("plan.toml", plan("garden.ics", "crops = [\"cornflower\"]"));
  ASSERT_EQ(run({"calendar", "@plan.toml", "--per", "day"}).exit, 0);
  const Json document = Json::parse(run({"jobs", "@plan.toml", "--all", "--json"}).out);
  std::map<std::string, std::set<std::string>> told;  // by event: the jobs whose own it would be
  std::map<std::string, std::string> days;
  for (const Json& job : document["jobs"]) {
    const std::string event = job["event"];
    if (job["told_with"].is_null()) {
      told[event].insert(job["uid"].get<std::string>());
      days[event] = job["date"];
    }
  }
  const calendar::Memory memory = this->memory("garden.ics");
  EXPECT_TRUE(memory.per_day);
  EXPECT_EQ(memory.events.size(), told.size());
  std::set<Date> all;
  for (const auto& stored : memory.events) {
    const calendar::Event& event = stored.event;
    EXPECT_TRUE(all.insert(event.start).second) << "two events on " << iso(event.start);
    EXPECT_EQ(days[event.uid], iso(event.start));
    std::set<std::string> uids;
    for (const calendar::DayJob& job : event.jobs) uids.insert(job.uid);
    EXPECT_EQ(uids, told[event.uid]) << event.summary;
    EXPECT_TRUE(event.summary.starts_with("Garden: ")) << event.summary;
    EXPECT_EQ(event.uid, calendar::day_uid(memory.space, event.start, 2027));
  }
}

TEST_F(DayCalendar, StaysInItsShape) {
  on("2026-08-03");
  write("plan.toml", plan("garden.ics", "crops = [\"cornflower\"]"));
  for (const bool first_per_day : {true, false}) {
    std::filesystem::remove(path("garden.ics"));
    const std::string one = first_per_day ? "day" : "job", other = first_per_day ? "job" : "day";
    ASSERT_EQ(run({"calendar", "@plan.toml", "--per", one}).exit, 0);
    const std::string before = read("garden.ics");
    const Answer refused = run({"calendar", "@plan.toml", "--per", other});
    EXPECT_EQ(refused.exit, 3);
    EXPECT_NE(refused.err.find("it has an event a " + one), std::string::npos) << refused.err;
    EXPECT_NE(refused.err.find("--per " + one), std::string::npos) << refused.err;
    EXPECT_EQ(read("garden.ics"), before);
  }
}

// Cautions once, however many jobs of a day want them.
TEST_F(DayCalendar, SaysACautionOnceADay) {
  on("2026-08-03");
  write("plan.toml", plan("garden.ics", "crops = [\"cornflower\"]"));
  ASSERT_EQ(run({"calendar", "@plan.toml", "--per", "day"}).exit, 0);
  int said = 0;
  for (const auto& stored : memory("garden.ics").events) {
    const std::string& text = stored.event.description;
    const std::size_t first = text.find("Spreads where it should not");
    if (first == std::string::npos) continue;
    ++said;
    EXPECT_EQ(text.find("Spreads where it should not", first + 1), std::string::npos) << text;
  }
  EXPECT_GT(said, 1);
}

}  // namespace
}  // namespace trug::app
