// SPDX-License-Identifier: MIT
// Plans whose place names a daily record, through the whole program. The weather is made up.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <numbers>
#include <sstream>

#include "app/environment.h"
#include "base/files.h"
#include "plan_text.h"

namespace trug::app {
namespace {

using Json = nlohmann::json;

const std::string kPlan =
    head_text("") + "weather = \"daily.csv\"\n" + std::string(kShelterText) +
    bed_text("lane bed", "2.6", "0.9",
             {{"1.2", R"(crops = ["cornflower"])"}, {"0.9", R"(crops = ["zinnia"])"}});

// A maritime year's days, some years warmer than others, and from 2027 on warmer still by `extra`.
std::string record(Date from, Date until, double extra = 0) {
  std::string text = "date,tmin_c,tmax_c\n";
  for (Date day = from; day < until; day += Days{1}) {
    const double angle = 2 * std::numbers::pi * (day_of_year(day) - 20) / 365;
    const double mean =
        9.8 - 6.5 * std::cos(angle) + year_of(day) % 5 - 2 + (year_of(day) >= 2027 ? extra : 0);
    text += iso(day) + "," + std::to_string(mean - 4) + "," + std::to_string(mean + 4) + "\n";
  }
  return text;
}

struct Answer {
  int exit = 0;
  std::string out, err;
};

Answer run(std::vector<std::string> arguments, const std::string& daily,
           const std::string& today = "2027-06-15") {
  std::map<std::string, std::string> files{{"garden/plan.toml", kPlan}};
  if (!daily.empty()) files["garden/daily.csv"] = daily;
  const MemoryFiles memory(std::move(files));
  std::ostringstream out, err;
  arguments.insert(arguments.end(), {"--today", today});
  const int exit = app::run(
      arguments, {.files = memory, .out = out, .err = err, .today = parse_iso(today).value()});
  return {exit, out.str(), err.str()};
}

Json plantings(const std::string& daily, const std::string& today) {
  const Answer found = run({"jobs", "garden/plan.toml", "--json"}, daily, today);
  EXPECT_EQ(found.exit, kDone) << found.err;
  return Json::parse(found.out).at("plantings");
}

Date date(const Json& value) { return parse_iso(value.get<std::string>()).value(); }

TEST(Weather, MovesForecastsAndNoChoices) {
  const std::string warm = record(make_date(2006, 1, 1), make_date(2027, 6, 15), 3);
  const Json winter = plantings(warm, "2026-01-15");
  const Json summer = plantings(warm, "2027-06-15");
  ASSERT_EQ(winter.size(), 2U);
  ASSERT_EQ(summer.size(), 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    SCOPED_TRACE(winter[i].at("id").get<std::string>());
    EXPECT_EQ(winter[i].at("basis"), "heat");
    EXPECT_EQ(summer[i].at("basis"), "measured");
    for (const char* chosen : {"way", "start", "in_ground", "lift"}) {
      EXPECT_EQ(summer[i].at(chosen), winter[i].at(chosen)) << chosen;
    }
    EXPECT_LT(date(summer[i].at("first_cut").at("likely")),
              date(winter[i].at("first_cut").at("likely")));
    // Both from the same twenty years: not the usual thirteen days.
    const Json& cut = winter[i].at("first_cut");
    const std::pair spread(days_between(date(cut.at("early")), date(cut.at("likely"))),
                           days_between(date(cut.at("likely")), date(cut.at("late"))));
    EXPECT_NE(spread, std::pair(13, 13));
  }
}

TEST(Weather, WhySaysWhatWasMeasured) {
  const std::string daily = record(make_date(2006, 1, 1), make_date(2027, 3, 4));
  const Answer found = run({"why", "garden/plan.toml", "lane bed", "cornflower"}, daily);
  EXPECT_EQ(found.exit, kDone) << found.err;
  EXPECT_NE(
      found.out.find("weather           measured until 3 March 2027; averages from then on\n"),
      std::string::npos)
      << found.out;
  EXPECT_NE(found.out.find("spread by the weather of 2"), std::string::npos) << found.out;
}

// What lies after `today` is not yet known, whatever the file says.
TEST(Weather, EndsBeforeToday) {
  const std::string daily = record(make_date(2006, 1, 1), make_date(2027, 6, 15));
  const Answer found =
      run({"why", "garden/plan.toml", "lane bed", "cornflower", "--json"}, daily, "2027-02-02");
  EXPECT_EQ(Json::parse(found.out).at("measured_until"), "2027-02-01");
}

TEST(Weather, Refusals) {
  const Answer missing = run({"check", "garden/plan.toml"}, "");
  EXPECT_EQ(missing.exit, kBadInput);
  EXPECT_EQ(missing.err,
            "garden/daily.csv: error: there is no such file\n"
            "  hint: check the name and the folder\n");
  const Answer young =
      run({"check", "garden/plan.toml"}, record(make_date(2026, 1, 1), make_date(2027, 6, 15)));
  EXPECT_EQ(young.exit, kBadInput);
  EXPECT_EQ(young.err,
            "garden/daily.csv: error: no averages can be made of this record: of each month, "
            "twenty days with a minimum and a maximum before 1 January 2026 are needed\n"
            "  hint: write the place's monthly means into the plan: mean_c = [ ... ]\n");
}

}  // namespace
}  // namespace trug::app
