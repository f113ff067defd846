// SPDX-License-Identifier: MIT
// Pages, JSON and the plan's block of made-up records whose figures can be worked out by hand.
#include "show/frost_page.h"

#include <gtest/gtest.h>

#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "app/environment.h"
#include "base/files.h"
#include "show/frost_json.h"

namespace trug::show {
namespace {

using Json = nlohmann::json;

Date day(const std::string& text) { return parse_iso(text).value(); }

// Days of 5 to 15 degrees from 24 July 2000 on (south: 24 January); in each winter a night of -1 on
// two days of autumn and of spring in turn.
DailyRecord hill(int winters, bool southern = false) {
  const std::string start = southern ? "-01-24" : "-07-24";
  const Date from = day("2000" + start);
  const Date until = day(std::to_string(2000 + winters) + start);
  DailyRecord record{from, {}};
  record.days.resize(static_cast<std::size_t>(days_between(from, until)), {5.0, 15.0});
  const auto frost = [&](int year, const char* on) {
    const int at = days_between(from, day(std::to_string(year) + on));
    record.days[static_cast<std::size_t>(at)].min_c = -1;
  };
  for (int year = 2000; year < 2000 + winters; ++year) {
    const bool early = year % 2 == 0;
    if (southern) {
      frost(year, early ? "-05-01" : "-05-11");
      frost(year, early ? "-09-10" : "-09-20");
    } else {
      frost(year, early ? "-11-01" : "-11-11");
      frost(year + 1, early ? "-04-10" : "-04-20");
    }
  }
  return record;
}

FrostReport report(DailyRecord record, bool southern = false) {
  return frost_report("hill.csv", std::move(record), {0, -2.2}, southern);
}

// Six dates each, ten days apart: spread 5 x sqrt(12 / 11) = 5.2; the tables of the normal
// distribution give 1.2816 for nine in ten, so 6.7 days either side of the mean.
TEST(FrostPage, TwelveWinters) {
  EXPECT_EQ(frost_page(report(hill(12)), {}),
            "hill.csv: 24 July 2000 to 23 July 2012, 4383 days; every day has a minimum\n"
            "\n"
            "Last frost: over by this day in so many winters of 100\n"
            "  minimum up to  10       50        90        mean      spread  earliest and latest\n"
            "  0 degC         8 April  15 April  22 April  15 April  5 d     10 April to 20 April\n"
            "  -2.2 degC      -        -         -         -         -       -\n"
            "  -2.2 degC: no frost in 12 winters\n"
            "\n"
            "  Last frosts at 0 degC; a row is 7 days from its date, a mark 1 winter\n"
            "  10 April      |oooooo\n"
            "  17 April      |oooooo\n"
            "\n"
            "First frost: come by this day in so many winters of 100\n"
            "  minimum up to  10          50          90           mean        spread  earliest "
            "and latest\n"
            "  0 degC         30 October  6 November  13 November  6 November  5 d     1 November "
            "to 11 November\n"
            "  -2.2 degC      -           -           -            -           -       -\n"
            "  -2.2 degC: no frost in 12 winters\n"
            "\n"
            "  First frosts at 0 degC; a row is 7 days from its date, a mark 1 winter\n"
            "  1 November    |oooooo\n"
            "  8 November    |oooooo\n"
            "\n"
            "Garden frost, as plans count it\n"
            "  A minimum up to 2 degC: last 15 April, first 6 November on average. The plan's "
            "lines for this\n"
            "  place: trug frost hill.csv --place\n"
            "\n"
            "Temperatures, degC\n"
            "  month  maxima  means  minima\n"
            "  Jan      15.0   10.0     5.0\n"
            "  Feb      15.0   10.0     5.0\n"
            "  Mar      15.0   10.0     5.0\n"
            "  Apr      15.0    9.9     4.8\n"
            "  May      15.0   10.0     5.0\n"
            "  Jun      15.0   10.0     5.0\n"
            "  Jul      15.0   10.0     5.0\n"
            "  Aug      15.0   10.0     5.0\n"
            "  Sep      15.0   10.0     5.0\n"
            "  Oct      15.0   10.0     5.0\n"
            "  Nov      15.0    9.9     4.8\n"
            "  Dec      15.0   10.0     5.0\n"
            "  from March to October, a day's mean differs from its season's by 0.2 degC (standard "
            "deviation)\n"
            "\n"
            "Cold\n"
            "  a winter's coldest night: -1.0 degC on average\n"
            "  the coldest of all: -1.0 degC on 1 November 2000\n"
            "  Frost winters run from 24 July to 23 July; one with ten days missing where they "
            "matter is left\n"
            "  out.\n");
}

TEST(FrostPage, SaysWhatAShortRecordCannotTell) {
  struct Row {
    int winters;
    const char* line;
    const char* note;
  };
  for (const Row& row :
       {Row{3, "  0 degC         -   -   -   -     -       10 April to 20 April\n",
            "  0 degC: 3 winters with frost: no average under five\n"},
        Row{7, "  0 degC         -   -   -   14 April  5 d     10 April to 20 April\n",
            "  0 degC: 7 winters with frost: no levels under ten\n"}}) {
    SCOPED_TRACE(row.winters);
    const std::string page = frost_page(report(hill(row.winters)), {});
    EXPECT_NE(page.find(row.line), std::string::npos) << page;
    EXPECT_NE(page.find(row.note), std::string::npos) << page;
  }
}

TEST(FrostPage, SaysHowManyWintersHadNoFrost) {
  DailyRecord record = hill(12);
  for (std::size_t i = 0; i < 2 * 365; ++i) record.days[i].min_c = 5;
  const std::string page = frost_page(report(record), {});
  EXPECT_NE(page.find("  0 degC: 2 of 12 winters had none\n"), std::string::npos) << page;
  // Its share of winters with frost, 10 in 12, is under 90 in 100, so no first frost is that sure.
  const Json row = Json::parse(frost_json({}, report(record))).at("thresholds").at(0);
  EXPECT_EQ(row.at("frost_free_seasons"), 2);
  EXPECT_TRUE(row.at("first").at("q90").is_null());
  EXPECT_FALSE(row.at("first").at("q50").is_null());
}

TEST(FrostPage, PictureKeepsItsWidthWithManyWinters) {
  DailyRecord record = hill(120);
  const std::string page = frost_page(report(record), {});
  // 60 winters a row, at two a mark.
  EXPECT_NE(page.find("a mark 2 winters\n  10 April      |" + std::string(30, 'o') + "\n"),
            std::string::npos)
      << page;
}

TEST(FrostPage, NamesTheGaps) {
  DailyRecord record = hill(12);
  for (std::size_t i = 100; i < 112; ++i) record.days[i] = {};
  record.days[200] = {};
  const FrostReport found = report(record);
  EXPECT_EQ(found.gaps, (std::vector<Gap>{{day("2000-11-01"), 12}, {day("2001-02-09"), 1}}));
  EXPECT_NE(frost_page(found, {}).find("; 13 days without a minimum, most together 12 from 1 "
                                       "November 2000\n"),
            std::string::npos);
  // Twelve days are missing before the first frost of the first winter: it is not told.
  const Json row = Json::parse(frost_json({}, found)).at("thresholds").at(0);
  EXPECT_EQ(row.at("first").at("seasons"), 11);
  EXPECT_EQ(row.at("last").at("seasons"), 12);
}

TEST(FrostJson, HoldsTheFiguresOfThePage) {
  const DocumentHead head{"trug.frost/1", "trug 0", day("2027-02-03")};
  const Json found = Json::parse(frost_json(head, report(hill(12))));
  const Json last = {{"q10", "04-08"},    {"q50", "04-15"}, {"q90", "04-22"},
                     {"mean", "04-15"},   {"sd", 5.2},      {"earliest", "04-10"},
                     {"latest", "04-20"}, {"seasons", 12},  {"counted", false}};
  const Json first = {{"q10", "10-30"},    {"q50", "11-06"}, {"q90", "11-13"},
                      {"mean", "11-06"},   {"sd", 5.2},      {"earliest", "11-01"},
                      {"latest", "11-11"}, {"seasons", 12},  {"counted", false}};
  EXPECT_EQ(found.at("format"), "trug.frost/1");
  EXPECT_EQ(found.at("today"), "2027-02-03");
  for (const char* list : {"plans", "findings", "errors"}) {
    EXPECT_EQ(found.at(list), Json::array()) << list;
  }
  EXPECT_EQ(found.at("seasons"), 12);
  EXPECT_EQ(found.at("thresholds").at(0),
            (Json{{"celsius", 0.0}, {"last", last}, {"first", first}, {"frost_free_seasons", 0}}));
  EXPECT_EQ(found.at("thresholds").at(1).at("celsius"), -2.2);
  EXPECT_EQ(found.at("thresholds").at(1).at("frost_free_seasons"), 12);
  EXPECT_TRUE(found.at("thresholds").at(1).at("last").at("mean").is_null());
  EXPECT_EQ(found.at("mean_c").size(), 12U);
  EXPECT_EQ(found.at("mean_c").at(3), 9.9);
  EXPECT_EQ(found.at("mean_min_c").at(10), 4.8);
  EXPECT_EQ(found.at("usual_coldest_c"), -1.0);
}

TEST(FrostJson, SouthernDates) {
  const Json row = Json::parse(frost_json({}, report(hill(12, true), true))).at("thresholds").at(0);
  EXPECT_EQ(row.at("last").at("mean"), "09-15");
  EXPECT_EQ(row.at("first").at("mean"), "05-06");
}

constexpr const char* kBlock =
    "[place]\n"
    "# from hill.csv, 24 July 2000 to 23 July 2012\n"
    "latitude = 51.5\n"
    "last_frost = \"15 April\"\n"
    "first_frost = \"6 November\"\n"
    "frost_meaning = \"garden\"  # averages of minima up to 2 degC\n"
    "mean_max_c = [15.0, 15.0, 15.0, 15.0, 15.0, 15.0, 15.0, 15.0, 15.0, 15.0, 15.0, 15.0]\n"
    "mean_min_c = [5.0, 5.0, 5.0, 4.8, 5.0, 5.0, 5.0, 5.0, 5.0, 5.0, 4.8, 5.0]\n"
    "coldest_c = -1.0\n";

TEST(PlaceBlock, OfTwelveWinters) { EXPECT_EQ(place_block(report(hill(12)), 51.5), kBlock); }

TEST(PlaceBlock, LeavesOutWhatAShortRecordCannotTell) {
  DailyRecord record = hill(3);
  for (DailyWeather& weather : record.days) weather.max_c.reset();
  EXPECT_EQ(place_block(report(record), std::nullopt),
            "[place]\n"
            "# from hill.csv, 24 July 2000 to 23 July 2003\n"
            "# latitude = 52.4  (put yours; degrees, south negative)\n"
            "# last_frost: 3 winters with frost: no average under five\n"
            "# first_frost: 3 winters with frost: no average under five\n"
            "# mean_max_c, mean_min_c: each month needs twenty days with both\n"
            "coldest_c = -1.0\n");
}

std::string csv(const DailyRecord& record) {
  std::string text = "date,tmin_c,tmax_c\n";
  for (std::size_t i = 0; i < record.days.size(); ++i) {
    text += iso(record.first + Days{static_cast<int>(i)}) + "," +
            std::to_string(record.days[i].min_c.value()) + "," +
            std::to_string(record.days[i].max_c.value()) + "\n";
  }
  return text;
}

struct Answer {
  int exit = 0;
  std::string out, err;
};

Answer run(const std::vector<std::string>& arguments, std::map<std::string, std::string> files) {
  const MemoryFiles memory(std::move(files));
  std::ostringstream out, err;
  const app::Environment environment{
      .files = memory, .out = out, .err = err, .today = day("2027-02-03")};
  const int exit = app::run(arguments, environment);
  return {exit, out.str(), err.str()};
}

TEST(FrostCommand, ItsBlockIsAPlansPlace) {
  const Answer block =
      run({"frost", "hill.csv", "--place", "--latitude", "51.5"}, {{"hill.csv", csv(hill(12))}});
  EXPECT_EQ(block.exit, app::kDone) << block.err;
  EXPECT_EQ(block.out, kBlock);
  const Answer check =
      run({"check", "plan.toml"},
          {{"plan.toml", "flowering_year = 2027\n" + block.out +
                             "[[bed]]\nname = \"wall\"\nlength_m = 2\nwidth_m = 1\n"
                             "[[bed.stretch]]\nlength_m = 2\ncrops = "
                             "[\"cornflower\"]\n"}});
  EXPECT_EQ(check.exit, app::kDone) << check.err;
}

// A hundred and forty years are more than the mebibyte a plan may have; thirty are looked at.
TEST(FrostCommand, ReadsLongRecordsAndShowsTheLastThirtyYears) {
  const std::map<std::string, std::string> files{{"hill.csv", csv(hill(140))}};
  ASSERT_GT(files.at("hill.csv").size(), 1024U * 1024U);
  const Json thirty = Json::parse(run({"frost", "hill.csv", "--json"}, files).out);
  EXPECT_EQ(thirty.at("from"), "2110-07-24");
  EXPECT_EQ(thirty.at("seasons"), 30);
  const Json all = Json::parse(run({"frost", "hill.csv", "--json", "--years", "0"}, files).out);
  EXPECT_EQ(all.at("seasons"), 140);
}

TEST(FrostCommand, TakesFurtherThresholds) {
  const Json found = Json::parse(run({"frost", "--threshold", "-5", "--threshold", "4",
                                      "--threshold", "0", "hill.csv", "--json"},
                                     {{"hill.csv", csv(hill(12))}})
                                     .out);
  std::vector<double> thresholds;
  for (const Json& row : found.at("thresholds")) thresholds.push_back(row.at("celsius"));
  EXPECT_EQ(thresholds, (std::vector<double>{4, 0, -2.2, -5}));
}

TEST(FrostCommand, Refusals) {
  struct Row {
    std::vector<std::string> arguments;
    const char* err;
  };
  for (const Row& row : {Row{{"frost", "none.csv"},
                             "none.csv: error: there is no such file\n"
                             "  hint: check the name and the folder\n"},
                         Row{{"frost", "hill.csv", "--unit", "k"},
                             "error: --unit: 'k' must be c, f or tenths\n"
                             "  hint: trug frost --help tells what it takes\n"}}) {
    SCOPED_TRACE(row.arguments.back());
    const Answer found = run(row.arguments, {{"hill.csv", csv(hill(1))}});
    EXPECT_EQ(found.exit, app::kBadInput);
    EXPECT_EQ(found.err, row.err);
    EXPECT_EQ(found.out, "");
  }
}

}  // namespace
}  // namespace trug::show
