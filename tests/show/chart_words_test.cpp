// SPDX-License-Identifier: MIT
// What the picture says beside its blocks: labels, rows, raising, bare ground, weeks.
#include <gtest/gtest.h>

#include <regex>
#include <string>
#include <vector>

#include "chart_garden.h"
#include "show/chart_facts.h"
#include "show/chart_label.h"
#include "show/chart_layout.h"

namespace trug::show::chart_tests {
namespace {

// All texts of a piece of the picture, a blank between them.
std::string texts(const std::string& svg) {
  const std::regex pattern("<text [^>]*>([^<]*)</text>");
  std::string result;
  for (std::sregex_iterator it(svg.begin(), svg.end(), pattern), end; it != end; ++it) {
    result += (*it)[1].str() + " ";
  }
  return result;
}

bool has(const std::string& text, const std::string& what) {
  return text.find(what) != std::string::npos;
}

bool meet(const Box& one, const Box& other) {
  return one.x + 0.02 < other.right() && other.x + 0.02 < one.right() &&
         one.y + 0.02 < other.bottom() && other.y + 0.02 < one.bottom();
}

// A bed of so many equal stretches, each with two crops one after the other; the second is raised
// in a frame while the first still stands.
Garden crowded(int length_mm, int stretches, const std::string& variety) {
  static const Sheet sown = sheet("larkspur", LifeCycle::HardyAnnual, Method::Seed);
  static const Sheet raised = [] {
    Sheet result = sheet("china aster", LifeCycle::HalfHardyAnnual, Method::Seed);
    result.ways.front().raised = Raised::Frame;
    result.ways.front().weeks_under_cover = Range{6, 8};
    return result;
  }();
  Garden garden;
  garden.plan.beds = {bed("long bed", length_mm)};
  for (int i = 0; i < stretches; ++i) {
    garden.add_stretch(length_mm / stretches).variety = variety;
    garden.choose(sown, {"2026-09-19", "2027-05-28", "2027-06-20", "2027-06-21"});
    add_planting(garden.plan, 0, garden.plan.beds[0].stretches.size() - 1, {.crop = "aster"});
    garden.choose(raised, {"2027-07-01", "2027-08-20", "2027-09-20", "2027-09-21"});
    garden.schedule.sowings.back().start = day("2027-05-10");
  }
  return garden;
}

// Every planting says all of it, on its block or below the bed; nothing that is said lies on
// anything else that is said, or off the page.
TEST(ChartWords, NoneIsCutOff) {
  for (const int length : {600, 1500, 3000, 6000, 12000}) {
    for (const int stretches : {1, 2, 4, 7, 12}) {
      for (const std::string variety : {"", "Blue Picotee of the Long Harbour"}) {
        SCOPED_TRACE(std::to_string(length) + " mm, " + std::to_string(stretches) + ", " + variety);
        const std::string svg = crowded(length, stretches, variety).svg();
        const std::string said = texts(svg);
        std::vector<Box> plates;
        int whole = 0;
        for (const Group& label : groups(svg, "label")) {
          plates.push_back(label.rects("plate").at(0));
          const std::string text = texts(label.body);
          EXPECT_FALSE(has(text, "…"));
          if (has(text, "12 plants")) ++whole;
        }
        int below = 0;
        const std::regex row("[0-9]+ (larkspur|china aster)[^:]*: 12 plants");
        for (std::sregex_iterator it(said.begin(), said.end(), row), end; it != end; ++it) ++below;
        int stalks_with_plants = 0;
        for (const Group& label : groups(svg, "label")) {
          if (has(texts(label.body), "frame, 12 plants") || has(texts(label.body), "frame 12 pl")) {
            ++stalks_with_plants;
          }
        }
        EXPECT_EQ(whole - stalks_with_plants + below, 2 * stretches);
        for (const Box& plate : plates) {
          EXPECT_GE(plate.x, 0);
          EXPECT_LE(plate.right(), kPageWidth);
        }
      }
    }
  }
}

TEST(ChartWords, LabelsKeepOffEachOther) {
  for (const int stretches : {1, 2, 4, 6}) {
    SCOPED_TRACE(stretches);
    const std::string svg = crowded(6000, stretches, "").svg();
    std::vector<Box> plates;
    for (const Group& label : groups(svg, "label")) plates.push_back(label.rects("plate").at(0));
    for (std::size_t i = 0; i < plates.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) EXPECT_FALSE(meet(plates[i], plates[j])) << i << " " << j;
    }
  }
}

TEST(ChartWords, AFitIsWithinItsAreaAndSaysAll) {
  const LabelWords words{"sweet william", {"12 plants", "out 5 Sep", "cut 13 Jun", "to 6 Jul"}};
  int upright = 0, turned = 0, none = 0;
  for (double width = 4; width <= 64; width += 4) {
    for (double height = 4; height <= 64; height += 4) {
      const Box area{10, 20, width, height};
      const auto label = fit(words, area);
      if (!label) {
        ++none;
        continue;
      }
      ++(label->downwards ? turned : upright);
      EXPECT_GE(label->box.x, area.x);
      EXPECT_LE(label->box.right(), area.right());
      EXPECT_LE(label->box.bottom(), area.bottom());
      std::string said;
      for (const LabelLine& line : label->lines) said += line.text + " ";
      for (const char* fact : {"12 plants", "out 5 Sep", "cut 13 Jun", "to 6 Jul"}) {
        EXPECT_TRUE(has(said, fact)) << said;
      }
    }
  }
  EXPECT_GT(upright, 0);
  EXPECT_GT(turned, 0);
  EXPECT_GT(none, 0);
}

TEST(ChartWords, TheRaisingStandsAboveItsBlock) {
  const std::string svg = crowded(3000, 2, "").svg();
  const auto stalks = groups(svg, "raising");
  ASSERT_EQ(stalks.size(), 2U);
  EXPECT_EQ(stalks[0].title, "china aster: 12 plants, frame from 10 May 2027 to 1 July 2027");
  const auto blocks = groups(svg, "planting");
  const Box aster = blocks.at(1).rects("leaf").at(0);
  EXPECT_TRUE(has(stalks[0].body, "V" + mm(aster.y) + "\"")) << stalks[0].body;
  const std::regex start("M([.0-9]+) ([.0-9]+)V");
  std::smatch match;
  ASSERT_TRUE(std::regex_search(stalks[0].body, match, start));
  EXPECT_GE(std::stod(match[1]), aster.x);
  EXPECT_LE(std::stod(match[1]), aster.right());
  EXPECT_LT(std::stod(match[2]), aster.y);
}

struct PlaceRow {
  Raised raised;
  bool given;
  std::string place;
};

TEST(ChartWords, WhereItIsRaised) {
  for (const PlaceRow& row : std::vector<PlaceRow>{{Raised::Heated, false, "windowsill"},
                                                   {Raised::Heated, true, "heated"},
                                                   {Raised::Frame, true, "frame"},
                                                   {Raised::NurseryBed, false, "nursery bed"},
                                                   {Raised::InPlace, false, ""}}) {
    SCOPED_TRACE(row.place);
    Sheet raised = sheet("zinnia", LifeCycle::TenderAnnual, Method::Seed);
    raised.ways.front().raised = row.raised;
    Garden garden;
    garden.plan.shelter.given = row.given;
    garden.plan.beds = {bed("quay bed", 4500)};
    garden.add_stretch(1500);
    garden.choose(raised, {"2027-06-01", "2027-08-01", "2027-09-20", "2027-09-21"});
    garden.schedule.sowings.back().start = day("2027-04-20");
    const auto facts =
        chart_facts(garden.plan, garden.schedule, climate::Climate::from(garden.plan.place));
    const auto& raising = facts.blocks.at(0).raising;
    EXPECT_EQ(raising ? raising->place : "", row.place);
  }
}

// 14 May to 11 October, where nothing stands for three weeks.
TEST(ChartWords, BareGroundOfSummerIsNamed) {
  Garden garden;
  garden.plan.beds = {bed("quay bed", 2900)};
  garden.add_stretch(1000);
  garden.choose(cornflower(), {"2026-09-19", "2027-05-28", "2027-07-20", "2027-07-21"});
  garden.add_stretch(1000);
  garden.choose(cornflower(), {"2027-06-04", "2027-07-28", "2027-09-20", "2027-09-21"});
  garden.plan.beds.push_back(bed("edge bed", 1190));  // 19 cm are left over
  garden.add_stretch(1000);
  garden.choose(cornflower(), {"2027-05-10", "2027-07-28", "2027-10-20", "2027-10-21"});
  const auto facts =
      chart_facts(garden.plan, garden.schedule, climate::Climate::from(garden.plan.place));
  ASSERT_EQ(facts.bare.size(), 4U);
  const auto is = [](const BareGround& bare, int at, int length, const char* from,
                     const char* until) {
    return bare.at_cm == at && bare.length_cm == length && bare.days.from == day(from) &&
           bare.days.until == day(until);
  };
  EXPECT_TRUE(is(facts.bare[0], 0, 100, "2027-07-21", "2027-10-12"));
  EXPECT_TRUE(is(facts.bare[1], 100, 100, "2027-05-14", "2027-06-04"));
  EXPECT_TRUE(is(facts.bare[2], 100, 100, "2027-09-21", "2027-10-12"));
  EXPECT_TRUE(is(facts.bare[3], 200, 90, "2027-05-14", "2027-10-12"));
  EXPECT_TRUE(has(texts(garden.svg()), "bare 21 Jul, to 11 Oct") ||
              has(texts(garden.svg()), "bare 21 Jul to 11 Oct"));
}

harvest::Week week(const std::string& monday, double usable) {
  harvest::Week week;
  week.monday = day(monday);
  week.wished = true;
  week.vase = {.wanted = 12, .usable = usable};
  if (usable < 12) week.vase.lacks = {harvest::Lack::Filler};
  return week;
}

TEST(ChartWords, WeeksAreToldApartByTheirFill) {
  Garden garden = two_beds();
  garden.plan.wish = Wish{};
  garden.plan.wish->from = {std::chrono::May, std::chrono::day{3}};
  garden.plan.wish->to = {std::chrono::May, std::chrono::day{23}};
  garden.weeks = {week("2027-05-03", 12), week("2027-05-10", 6), week("2027-05-17", 2)};
  const std::string svg = garden.svg();
  const auto boxes = groups(svg, "week");
  ASSERT_EQ(boxes.size(), 6U) << "three beside each bed";
  EXPECT_EQ(boxes[0].title, "week of 3 May: all the vases");
  EXPECT_EQ(boxes[1].title, "week of 10 May: half of the vases or more, wanting a filler");
  EXPECT_EQ(boxes[2].title, "week of 17 May: less than half of the vases, wanting a filler");
  const std::vector<double> filled{1, 0.5, 0};
  for (std::size_t i = 0; i < 3; ++i) {
    const auto fill = boxes[i].rects("vases");
    const Box edge = boxes[i].rects("edge").at(0);
    EXPECT_NEAR(fill.empty() ? 0 : fill[0].width / edge.width, filled[i], 0.01);
    EXPECT_EQ(has(boxes[i].body, "<path"), i == 2) << "struck through";
  }
  EXPECT_TRUE(has(svg, "Kitchen beds, flowering 2027: 1 of the 3 weeks has its vases<"));
  EXPECT_TRUE(groups(two_beds().svg(), "week").empty()) << "without a wish";
}

TEST(ChartWords, ABedAPage) {
  Garden garden = two_beds();
  for (int i = 0; i < 4; ++i) garden.plan.beds.push_back(bed("spare bed", 2000));
  const std::string svg = garden.svg();
  EXPECT_TRUE(has(svg, "viewBox=\"0 0 210 1782\""));
  const auto beds = groups(svg, "bed");
  ASSERT_EQ(beds.size(), 6U);
  for (std::size_t i = 0; i < beds.size(); ++i) {
    const Box ground = beds[i].rects("soil").at(0);
    const double top = static_cast<double>(i) * kPageHeight;
    EXPECT_GE(ground.y, top + kPageMargin);
    EXPECT_LE(ground.bottom(), top + kPageHeight - kPageMargin);
    EXPECT_GE(ground.x, kPageMargin);
    EXPECT_LE(ground.right(), kPageWidth - kPageMargin + 0.01);
  }
}

// A list that would leave the bed no room has pages of its own, with every row.
TEST(ChartWords, ALongListGoesOnAnotherPage) {
  const std::string svg = crowded(6000, 40, "").svg();
  const std::string said = texts(svg);
  EXPECT_TRUE(has(svg, "viewBox=\"0 0 210 891\"")) << svg.substr(0, 250);
  EXPECT_TRUE(has(said, " 80 china aster: 12 plants"));
  EXPECT_GE(groups(svg, "bed").at(0).rects("soil").at(0).height, 5.5 * 13);
}

}  // namespace
}  // namespace trug::show::chart_tests
