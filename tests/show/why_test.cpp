// SPDX-License-Identifier: MIT
// The reckoning behind one planting, as it is shown.
#include "show/why.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "work/planned.h"

namespace trug::show {
namespace {

const std::string kBed =
    "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.2\n";

const std::vector<JobRow> kNoRows;

Reckoned shown(const Planned& p) { return {p.plan, p.schedule, p.findings, kNoRows}; }

std::string page(const Planned& p) { return why_page(shown(p), 0, *p.climate, Style{}); }

bool says(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

TEST(Why, AStartBeforeTheWindowIsNotAfterIt) {
  const auto cornflower = [](const std::string& start_on) {
    return page(planned("", kBed +
                                "[[bed.stretch.crop]]\ncrop = \"cornflower\"\n"
                                "way = \"sown in place in spring\"\nstart_on = " +
                                start_on + "\n"));
  };
  EXPECT_TRUE(says(cornflower("2027-02-10"), " days before it")) << cornflower("2027-02-10");
  EXPECT_TRUE(says(cornflower("2027-06-20"), " days after it")) << cornflower("2027-06-20");
  EXPECT_TRUE(says(cornflower("2027-04-28"), ": inside it"));
}

TEST(Why, WaysUnderCoverGoByTheTradesWindows) {
  const std::string text =
      page(planned("",
                   "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\ncover = \"tunnel\"\n"
                   "[[bed.stretch]]\nlength_m = 2.2\n[[bed.stretch.crop]]\ncrop = \"anemone\"\n"
                   "way = \"corms in autumn under cover\"\n"));
  EXPECT_TRUE(says(text, "the trade's windows, since its heat is known in the open only")) << text;
}

TEST(Why, WhatStandsIsNotSaidToBeRaisedAnew) {
  for (const std::string crop : {"dahlia", "peony"}) {
    const std::string text =
        page(planned("", kBed + "[[bed.stretch.crop]]\ncrop = \"" + crop + "\"\nsince = 2024\n"));
    EXPECT_TRUE(says(text, "b/" + crop + ": stands there\n")) << text;
  }
}

Planned sunflowers() {
  return planned("", kBed + "[[bed.stretch.crop]]\ncrop = \"sunflower\"\nsuccessions = 3\n");
}

TEST(Why, ShowsEverySowingOfASuccessionWithItsOwnDates) {
  const Planned p = sunflowers();
  const auto sowings = p.schedule.of(0);
  ASSERT_EQ(sowings.size(), 3u);
  const std::string text = page(p);
  std::size_t at = 0;
  for (const ground::Sowing& sowing : sowings) {
    for (const std::string& words :
         {"Sowing " + std::to_string(sowing.number) + " of 3", long_day(sowing.start),
          "first cut         " + long_day(sowing.timeline.first_cut.likely),
          "cleared           " + long_day(sowing.lift)}) {
      at = text.find(words, at);
      ASSERT_NE(at, std::string::npos) << words << " in its order in\n" << text;
    }
  }
}

// What the jobs say and what was reckoned agree, and where your days moved one it is said.
TEST(Why, TellsEachJobsDayAndWhichYourDaysMoved) {
  const Planned p =
      planned("[work]\ndays = [\"Tue\"]\n", kBed + "[[bed.stretch.crop]]\ncrop = \"cosmos\"\n");
  const auto rows = job_rows(p.plan, p.schedule, p.jobs, {});
  const std::string text = why_page({p.plan, p.schedule, p.findings, rows}, 0, *p.climate, Style{});
  int moved = 0, told = 0;
  for (const JobRow& row : rows) {
    if (row.told_with) continue;
    ++told;
    const std::string line = row.title + ": " + long_day(row.day);
    EXPECT_NE(text.find(line), std::string::npos) << line << " in\n" << text;
    const Date cut = p.schedule.of(0)[0].timeline.first_cut.likely;
    if (row.key.kind != work::JobKind::FirstCut || cut == row.day) continue;
    ++moved;
    EXPECT_NE(text.find(line + ", the nearest of your days to " + short_day(cut)),
              std::string::npos);
  }
  EXPECT_GT(told, 4);
  EXPECT_EQ(moved, 1);
}

TEST(Why, TheDocumentHasARowForEverySowing) {
  const Planned p = sunflowers();
  const auto json = nlohmann::json::parse(why_json({}, shown(p), 0, *p.climate));
  ASSERT_EQ(json.at("plantings").size(), 3u);
  std::set<int> with_stages;
  for (const auto& stage : json.at("stages")) with_stages.insert(stage.at("succession").get<int>());
  EXPECT_EQ(with_stages, (std::set{1, 2, 3}));
  for (std::size_t i = 0; i < 3; ++i) {
    const auto& row = json.at("plantings").at(i);
    EXPECT_EQ(row.at("succession"), i + 1);
    EXPECT_EQ(row.at("start"), iso(p.schedule.of(0)[i].start));
    EXPECT_EQ(row.at("lift"), iso(p.schedule.of(0)[i].lift));
  }
}

TEST(Why, SaysWhatWasRecorded) {
  const Planned p = planned(
      "", kBed + "crops = [\"zinnia\"]\n" +
              "[[happened]]\nplanting = \"b/zinnia\"\nwhat = \"sown\"\non = 2027-05-24\n"
              "[[happened]]\nplanting = \"b/zinnia\"\nwhat = \"first-cut\"\non = 2027-08-19\n");
  EXPECT_TRUE(says(page(p), "sown              Mon 24 May 2027, recorded,")) << page(p);
  EXPECT_TRUE(says(page(p), "first cut         Thu 19 August 2027, recorded\n")) << page(p);
  const auto json = nlohmann::json::parse(why_json({}, shown(p), 0, *p.climate));
  EXPECT_EQ(json.at("plantings").at(0).at("basis"), "recorded");
  EXPECT_EQ(json.at("plantings").at(0).at("first_cut").at("early"), "2027-08-19");
}

TEST(Why, ASowingThatIsNoSuccessionHasNoNumber) {
  const Planned p = planned("", kBed + "crops = [\"sunflower\"]\n");
  EXPECT_FALSE(says(page(p), "Sowing 1"));
  const auto json = nlohmann::json::parse(why_json({}, shown(p), 0, *p.climate));
  EXPECT_TRUE(json.at("plantings").at(0).at("succession").is_null());
}

}  // namespace
}  // namespace trug::show
