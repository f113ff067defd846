// SPDX-License-Identifier: MIT
// A calendar written twice, with something changed in between: why its jobs moved. Through the
// whole program, with calendars on disk; plan, sheets and weather are made up and in memory.
#include <gtest/gtest.h>
#include <stdlib.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <numbers>
#include <set>
#include <sstream>

#include "app/environment.h"
#include "app/version.h"
#include "base/files.h"
#include "plan_text.h"

namespace trug::app {
namespace {

using Json = nlohmann::json;

const std::string kPlan = head_text(R"(title = "Lane vases"
garden = "0f6f3f0e-58c1-4a0b-9a35-7c1d0e8b4f62"
)") + R"(mean_c = [4.5, 4.8, 6.8, 9.0, 12.2, 15.2, 17.0, 16.8, 14.3, 10.9, 7.2, 4.9]

[shelter]
nursery_m2 = 4

[work]
days = ["Sat", "Sun"]
)" +
                          bed_text(
                              "lane bed", "2.8", "0.9",
                              {{"1.1", R"(crops = ["cornflower"])"},
                               {"0.8",
                                "[[bed.stretch.crop]]\ncrop = \"zinnia\"\nway = \"bought plants\"\n"
                                "id = \"lane zinnia\""},
                               {"0.6", "[[bed.stretch.crop]]\ncrop = \"achillea\"\nsince = 2024"}});

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

// The sheet that is compiled in.
std::string sheet(const std::string& crop) {
  std::ifstream file(std::string(TRUG_SOURCE_DIR) + "/crops/" + crop + ".toml");
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

// A maritime year's days, `warmer` degrees above those of the plan.
std::string record(Date until, double warmer) {
  std::string text = "date,tmin_c,tmax_c\n";
  for (Date day = make_date(2014, 1, 1); day < until; day += Days{1}) {
    const double angle = 2 * std::numbers::pi * (day_of_year(day) - 20) / 365;
    const double mean = 10.3 - 6.3 * std::cos(angle) + warmer;
    text += iso(day) + "," + std::to_string(mean - 4) + "," + std::to_string(mean + 4) + "\n";
  }
  return text;
}

using Files = std::map<std::string, std::string>;
Files files(std::string plan) { return {{"garden/plan.toml", std::move(plan)}}; }

struct Answer {
  int exit = 0;
  std::string out, err;
};

class Versions : public testing::Test {
 protected:
  void SetUp() override {
    std::string folder = testing::TempDir() + "reasons-XXXXXX";
    ASSERT_NE(::mkdtemp(folder.data()), nullptr);
    folder_ = folder;
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  std::string path() const { return folder_ + "/lane.ics"; }
  std::string bytes() const {
    std::ifstream file(path(), std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
  }
  void write(const std::string& text) const { std::ofstream(path(), std::ios::binary) << text; }

  Answer run(const Files& given, const std::string& today,
             const std::vector<std::string>& more = {}) const {
    const MemoryFiles memory(given);
    std::ostringstream out, err;
    std::vector<std::string> arguments{"calendar", "garden/plan.toml", "-o",
                                       path(),     "--today",          today};
    arguments.insert(arguments.end(), more.begin(), more.end());
    const int exit = app::run(
        arguments, {.files = memory, .out = out, .err = err, .today = parse_iso(today).value()});
    EXPECT_EQ(exit, kDone) << err.str();
    return {exit, out.str(), err.str()};
  }
  Json json(const Files& given, const std::string& today) const {
    return Json::parse(run(given, today, {"--json", "--dry-run"}).out).at("files").at(0);
  }

  std::string folder_;
};

std::vector<std::string> texts(const Json& reasons) {
  std::vector<std::string> result;
  for (const Json& reason : reasons) result.push_back(reason.at("text"));
  return result;
}

// The reasons of each job that moved.
std::map<std::string, std::vector<std::string>> moved(const Json& file) {
  std::map<std::string, std::vector<std::string>> result;
  for (const Json& change : file.at("changes")) {
    if (change.at("kind") == "moved") {
      result[change.at("summary")] = texts(change.at("reasons"));
    } else if (change.at("kind") != "changed") {
      EXPECT_EQ(change.at("reasons"), Json::array());
    }
  }
  return result;
}

using Texts = std::vector<std::string>;

// One thing changed between two versions.
struct Row {
  const char* name;
  Files before;
  Files after;
  Texts of_plan;
  // Jobs that move and their reasons.
  std::map<std::string, Texts> of_jobs;
  const char* today = "2026-05-01";
};

std::string warmer_months() {
  return replaced(kPlan,
                  "mean_c = [4.5, 4.8, 6.8, 9.0, 12.2, 15.2, 17.0, 16.8, 14.3, 10.9, 7.2, 4.9]",
                  "mean_c = [5.5, 5.8, 7.8, 10.0, 13.2, 16.2, 18.0, 17.8, 15.3, 11.9, 8.2, 5.9]");
}

std::string without_months() { return replaced(kPlan, "mean_c", "# mean_c"); }

std::string with_two_numbers() {
  return replaced(kPlan, "mean_c", "year_mean_c = 10.3\nwarmest_month_c = 17\n# mean_c");
}

std::string wishing(const std::string& to) {
  return replaced(kPlan, "[[bed]]",
                  "[wish]\nvases_per_week = 1\nstems_per_vase = 5\nfrom = \"1 June\"\nto = \"" +
                      to + "\"\n\n[[bed]]");
}

Files with_weather(Date until, double warmer) {
  Files result = files(replaced(kPlan, "[shelter]", "weather = \"daily.csv\"\n[shelter]"));
  result["garden/daily.csv"] = record(until, warmer);
  return result;
}

Files with_sheet(const std::string& crop, const std::string& text) {
  Files result = files(kPlan);
  result["garden/crops/" + crop + ".toml"] = text;
  return result;
}

Files with(const std::string& from, const std::string& to) {
  return files(replaced(kPlan, from, to));
}

std::vector<Row> frost_rows() {
  const Files plan = files(kPlan);
  return {
      {"last frost",
       plan,
       with("10 May", "26 May"),
       {"last frost 16 days later"},
       {{"Plant out lane zinnia", {"last frost 16 days later"}},
        {"Divide achillea", {"last frost 16 days later"}}}},
      {"first frost",
       plan,
       with("12 October", "22 September"),
       {"first frost 20 days earlier"},
       {{"Clear lane zinnia", {"first frost 20 days earlier"}},
        {"Sow cornflowers", {"first frost 20 days earlier"}}}},
      {"a choice against the frost",
       plan,
       with("12 October", "11 November"),
       {"first frost 30 days later"},
       {{"Thin cornflowers", {"first frost 30 days later", "chosen otherwise"}}}},
      {"too little is gained for a choice that stands to move",
       plan,
       with("12 October", "22 October"),
       {"first frost 10 days later"},
       {}},
      {"each job names its own frost",
       plan,
       files(replaced(replaced(kPlan, "10 May", "24 May"), "12 October", "30 November")),
       {"last frost 14 days later", "first frost 49 days later"},
       {{"Plant out lane zinnia", {"last frost 14 days later"}},
        {"Sow cornflowers", {"first frost 49 days later"}}}},
      {"what the frosts mean",
       plan,
       with("\"garden\"\nmean", "\"air\"\nmean"),
       {"frost_meaning is now \"air\", before \"garden\""},
       {{"Divide achillea", {"frost_meaning is now \"air\", before \"garden\""}}}},
  };
}

std::vector<Row> weather_rows() {
  const Files plan = files(kPlan);
  const Date may = make_date(2026, 5, 1), march = make_date(2027, 3, 1);
  const char* spring = "2027-03-20";
  const std::string grew = "weather measured up to 19 March 2027, before up to 28 February 2027";
  return {
      {"warmer months",
       plan,
       files(warmer_months()),
       {"monthly temperatures changed"},
       {{"Cut cornflowers", {"monthly temperatures changed"}}}},
      {"temperatures gone",
       plan,
       files(without_months()),
       {"temperatures no longer given"},
       {{"Cut cornflowers", {"temperatures no longer given"}}}},
      {"temperatures come",
       files(without_months()),
       plan,
       {"temperatures given now, none before"},
       {{"Cut cornflowers", {"temperatures given now, none before"}}}},
      {"two numbers for twelve",
       plan,
       files(with_two_numbers()),
       {"temperatures changed"},
       {{"Support achillea", {"temperatures changed"}}}},
      {"a record comes before anything has begun: what was chosen stands, forecasts move",
       plan,
       with_weather(may, 0),
       {"now counts from measured weather, up to 30 April 2026"},
       {{"Cut cornflowers", {"now counts from measured weather, up to 30 April 2026"}}}},
      {"a record comes",
       plan,
       with_weather(march, 4),
       {"now counts from measured weather, up to 28 February 2027"},
       {{"Cut cornflowers", {"now counts from measured weather, up to 28 February 2027"}}},
       spring},
      {"a record grows: forecasts move, nothing else",
       with_weather(march, 5),
       with_weather(make_date(2027, 3, 20), 5),
       {grew},
       {{"Cut cornflowers", {grew}}},
       spring},
      {"a record corrected",
       with_weather(march, 4),
       with_weather(march, 1),
       {"measured weather changed"},
       {{"Cut cornflowers", {"measured weather changed"}}},
       spring},
      {"a record goes",
       with_weather(march, 4),
       plan,
       {"no longer counts from measured weather"},
       {{"Cut cornflowers", {"no longer counts from measured weather"}}},
       spring},
  };
}

// The same figures, written otherwise.
std::string remarked(const std::string& sheet) {
  std::string text = "# A remark.\n";
  std::istringstream lines(sheet);
  for (std::string line; std::getline(lines, line);) text += line + "  # Another.\n\n";
  return text + "[[source]]\nkind = \"memory\"\ncovers = [\"depth_mm\"]\n";
}

std::string slow_cornflower() {
  return replaced(sheet("cornflower"), "\nheat_to_first_flower_kd",
                  "\nheat_to_first_flower_kd = 900  #");
}

std::vector<Row> place_rows() {
  const Files plan = files(kPlan);
  return {
      {"latitude",
       plan,
       with("52.5", "42.5"),
       {"other lines of [place] changed"},
       {{"Clear cornflowers", {"other lines of [place] changed"}}}},
      {"snow",
       plan,
       with("frost_meaning", "snow = false\nfrost_meaning"),
       {"other lines of [place] changed"},
       {}},
  };
}

std::vector<Row> other_rows() {
  const Files plan = files(kPlan);
  const std::string wish = wishing("30 September");
  const std::string in_spring = replaced(wish, "crops = [\"cornflower\"]",
                                         "[[bed.stretch.crop]]\ncrop = \"cornflower\"\n"
                                         "way = \"sown in place in spring\"");
  const auto pinned = [](const std::string& text, const std::string& day) {
    return files(replaced(text, "id = \"lane zinnia\"", "id = \"lane zinnia\"\nplant_on = " + day));
  };
  return {
      {"work days",
       plan,
       with("\"Sat\", \"Sun\"", "\"Wed\""),
       {"[work] changed"},
       {{"Divide achillea", {"[work] changed"}}, {"Sow cornflowers", {"[work] changed"}}}},
      {"wish", files(wish), files(wishing("1 August")), {"wish changed"}, {}},
      {"length of a stretch, no day moves",
       plan,
       with("length_m = 0.6", "length_m = 0.9"),
       {"bed or crops changed"},
       {}},
      {"pin",
       plan,
       pinned(kPlan, "2027-06-09"),
       {"bed or crops changed"},
       {{"Plant out lane zinnia", {"bed or crops changed"}}}},
      {"pin in one stretch: what was chosen in another stands",
       files(in_spring),
       pinned(in_spring, "2027-07-10"),
       {"bed or crops changed"},
       {{"Plant out lane zinnia", {"bed or crops changed"}}}},
      {"sheet",
       plan,
       with_sheet("cornflower", slow_cornflower()),
       {"sheet of cornflower changed"},
       {{"Cut cornflowers", {"sheet of cornflower changed"}}}},
      {"remarks, blanks and sources in a sheet, no figure",
       plan,
       with_sheet("cornflower", remarked(sheet("cornflower"))),
       {},
       {}},
      {"crop of another stretch gone",
       plan,
       with("crop = \"achillea\"", "crop = \"alchemilla\""),
       {"bed or crops changed"},
       {}},
      {"title, person, reminders",
       plan,
       files(replaced(replaced(kPlan, "Lane vases", "Vases"), "[work]\n",
                      "[work]\nremind = \"all\"\n")),
       {},
       {}},
  };
}

TEST_F(Versions, EachFactAloneIsTheReason) {
  std::vector<Row> rows = frost_rows();
  for (const auto& more : {weather_rows(), place_rows(), other_rows()}) {
    rows.insert(rows.end(), more.begin(), more.end());
  }
  for (const Row& row : rows) {
    SCOPED_TRACE(row.name);
    std::filesystem::remove(path());
    run(row.before, row.today);
    const Json file = json(row.after, row.today);
    EXPECT_EQ(texts(file.at("what_changed")), row.of_plan);
    const auto found = moved(file);
    for (const auto& [job, reasons] : row.of_jobs) {
      SCOPED_TRACE(job);
      ASSERT_TRUE(found.contains(job)) << file.dump(1);
      EXPECT_EQ(found.at(job), reasons);
    }
    EXPECT_EQ(found.empty(), row.of_jobs.empty()) << file.dump(1);
    // Whatever moved, something is named for it.
    for (const auto& [job, reasons] : found) EXPECT_FALSE(reasons.empty()) << job;
  }
}

constexpr const char* kMoved =
    "  moved      Plant out lane zinnia: 29 May 2027 to 6 June 2027, 8 days later{}\n"
    "  moved      Support lane zinnia: 12 June 2027 to 20 June 2027, 8 days later{}\n"
    "  moved      Cut lane zinnia: 31 July 2027 to 1 August 2027, 1 day later{}\n";

constexpr const char* kMovedPlantings =
    "  moved      lane bed/lane zinnia: Plant out 29 May to 6 June 2027, 8 days later and 2 "
    "more{}\n";

std::string each_with(const std::string& reason, std::string text = kMoved) {
  for (std::size_t at = text.find("{}"); at != std::string::npos; at = text.find("{}")) {
    text.replace(at, 2, reason);
  }
  return text;
}

TEST_F(Versions, ThePageSaysWhatChangedOnceAndWhyForEachPlanting) {
  run(files(kPlan), "2027-05-03");
  const Files later = with("10 May", "26 May");
  const std::string why = " (last frost 16 days later)";
  const std::string each = each_with(why);
  const std::string first =
      "  since then: last frost 16 days later\n" + each_with(why, kMovedPlantings);
  EXPECT_EQ(run(later, "2027-05-03", {"--dry-run"}).out,
            path() + " would hold 15 events: 3 moved\n" + first);
  EXPECT_EQ(run(later, "2027-05-03", {"--dry-run", "--verbose"}).out,
            path() + " would hold 15 events: 3 moved\n" + first + each);
  EXPECT_EQ(run(later, "2027-05-03").out, path() + " holds 15 events: 3 moved\n" + first);
  EXPECT_EQ(run(later, "2027-05-03").out, path() + " holds 15 events: nothing changed\n");
}

TEST_F(Versions, JsonHasTheSameReasons) {
  run(files(kPlan), "2027-05-03");
  const Json file = json(with("10 May", "26 May"), "2027-05-03");
  const Json reason{{"code", "last-frost"}, {"text", "last frost 16 days later"}};
  EXPECT_EQ(file.at("what_changed"), Json::array({reason}));
  const Json& moved = file.at("changes").at(0);
  EXPECT_EQ(moved.at("summary"), "Plant out lane zinnia");
  EXPECT_EQ(moved.at("reasons"), Json::array({reason}));
}

// A net that was to be up in April is up, whatever a cold May would have said.
TEST_F(Versions, PastJobsStayOnTheirDaysWithoutAWord) {
  run(files(kPlan), "2027-05-03");
  const Json file = json(with("12.2, 15.2", "10.2, 12.8"), "2027-05-03");
  EXPECT_TRUE(file.at("overtaken").empty()) << file.at("overtaken").dump(1);
  for (const Json& change : file.at("changes")) {
    EXPECT_GE(change.at("to").get<std::string>(), "2027-05-03") << change.dump(1);
  }
}

// All but the head: the events.
std::string events_of(const std::string& file) { return file.substr(file.find("BEGIN:VEVENT")); }

TEST_F(Versions, FactsAloneTouchNoEvent) {
  run(files(kPlan), "2026-05-01");
  const std::string first = bytes();
  // Nothing here is raised in warmth.
  const Files warmer = with("[shelter]", "[shelter]\nheated_c = 18");
  EXPECT_EQ(texts(json(warmer, "2026-05-02").at("what_changed")),
            Texts{"other lines of [place] changed"});
  EXPECT_EQ(run(files(kPlan), "2026-05-02").out, path() + " holds 15 events: nothing changed\n");
  EXPECT_EQ(bytes(), first);
  for (int again = 0; again < 2; ++again) {
    EXPECT_EQ(run(warmer, "2026-05-02").out, path() + " holds 15 events: nothing changed\n");
    EXPECT_EQ(events_of(bytes()), events_of(first));
  }
  EXPECT_EQ(texts(json(warmer, "2026-05-02").at("what_changed")), Texts{});
}

TEST_F(Versions, AnOlderFileTellsNoReason) {
  run(files(kPlan), "2027-05-03");
  std::string older = bytes();
  const std::size_t from = older.find("X-TRUG-FACTS"), until = older.find("BEGIN:VEVENT");
  ASSERT_LT(from, until);
  write(older.erase(from, until - from));
  EXPECT_EQ(json(files(kPlan), "2027-05-03").at("what_changed"), nullptr);
  const Json file = json(with("10 May", "26 May"), "2027-05-03");
  EXPECT_FALSE(moved(file).empty());
  EXPECT_NE(run(with("10 May", "26 May"), "2027-05-03", {"--dry-run"})
                .out.find("why is not known: the earlier file does not say what its days hung on"),
            std::string::npos);
  EXPECT_EQ(run(files(kPlan), "2027-05-03").out, path() + " holds 15 events: nothing changed\n");
  EXPECT_EQ(events_of(bytes()), events_of(older));
  EXPECT_NE(bytes().find("X-TRUG-FACTS:1 "), std::string::npos);
}

TEST_F(Versions, AnotherVersionOfTheProgramIsNamed) {
  run(files(kPlan), "2026-05-01");
  write(replaced(bytes(), std::string("NONSGML trug ") + kVersion, "NONSGML trug 0.0.1"));
  const Texts reasons{std::string("reckoned by trug ") + kVersion + ", before by trug 0.0.1"};
  EXPECT_EQ(texts(json(files(kPlan), "2026-05-02").at("what_changed")), reasons);
  const auto found = moved(json(with("10 May", "26 May"), "2026-05-02"));
  EXPECT_EQ(found.at("Divide achillea"), (Texts{"last frost 16 days later", reasons.front()}));
  EXPECT_EQ(run(files(kPlan), "2026-05-02").out, path() + " holds 15 events: nothing changed\n");
}

// The words of the X-TRUG-FACTS line.
std::vector<std::string> facts(std::string text) {
  for (std::size_t at = text.find("\r\n "); at != std::string::npos; at = text.find("\r\n ")) {
    text.erase(at, 3);
  }
  const std::size_t from = text.find("X-TRUG-FACTS:");
  std::istringstream line(text.substr(from, text.find("\r\n", from) - from));
  std::vector<std::string> words;
  for (std::string word; line >> word;) words.push_back(word);
  return words;
}

TEST_F(Versions, FactsGiveNothingAway) {
  run(files(kPlan), "2026-05-01");
  const std::vector<std::string> mine = facts(bytes());
  EXPECT_EQ(bytes().find("0f6f3f0e"), std::string::npos) << "the garden's UUID is a key";
  std::filesystem::remove(path());
  run(with("0f6f3f0e", "1f6f3f0e"), "2026-05-01");
  // Another garden of the same plan: no digest in common, so none can be found out by trying.
  const std::vector<std::string> theirs = facts(bytes());
  std::set<std::string> common;
  for (const std::string& word : mine) {
    if (std::ranges::find(theirs, word) != theirs.end()) common.insert(word);
  }
  EXPECT_EQ(common,
            (std::set<std::string>{"X-TRUG-FACTS:1", "first-frost=10-12", "frost-meaning=garden",
                                   "last-frost=05-10", std::string("program=") + kVersion,
                                   "weather=none", "wish=none", "year=2027"}));
  EXPECT_EQ(mine.size(), theirs.size());
  EXPECT_EQ(mine.size(), common.size() + 10);  // three plantings, three sheets, four of the place
}

TEST_F(Versions, AnotherOrderOfTheStretchesKeepsEveryUid) {
  run(files(kPlan), "2026-05-01");
  std::string turned =
      replaced(kPlan, "length_m = 1.1\ncrops = [\"cornflower\"]\n\n[[bed.stretch]]\n", "");
  turned += "\n[[bed.stretch]]\nlength_m = 1.1\ncrops = [\"cornflower\"]\n";
  const Json file = json(files(turned), "2026-05-02");
  EXPECT_FALSE(file.at("changes").empty());  // other places along the bed
  for (const Json& change : file.at("changes")) EXPECT_EQ(change.at("kind"), "reworded");
}

}  // namespace
}  // namespace trug::app
