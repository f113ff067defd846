// SPDX-License-Identifier: MIT
// The picture measured: what it shows against the plan and the dates it was given.
#include "show/chart.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "chart_garden.h"

namespace trug::show::chart_tests {
namespace {

// Every element closed in order, no stray '<' or '&', quotes paired within tags.
bool well_formed(const std::string& svg) {
  std::vector<std::string> open;
  for (std::size_t at = svg.find("<svg"); at < svg.size(); ++at) {
    if (svg[at] == '&') {
      const std::string entity = svg.substr(at, svg.find(';', at) - at + 1);
      const std::set<std::string> known{"&amp;", "&lt;", "&gt;", "&quot;", "&#39;"};
      if (!known.contains(entity)) return false;
    }
    if (svg[at] != '<') continue;
    const std::size_t end = svg.find('>', at);
    if (end == std::string::npos) return false;
    const std::string tag = svg.substr(at + 1, end - at - 1);
    if (tag.find('<') != std::string::npos) return false;
    const std::string name = tag.substr(0, tag.find(' '));
    if (name[0] == '/') {
      if (open.empty() || open.back() != name.substr(1)) return false;
      open.pop_back();
    } else if (tag.back() != '/') {
      open.push_back(name);
    }
    at = end;
  }
  return open.empty();
}

TEST(Chart, EveryPlantingHasOneBlockWithItsDatesInWords) {
  const auto blocks = groups(two_beds().svg(), "planting");
  ASSERT_EQ(blocks.size(), 3U);
  EXPECT_EQ(blocks[0].title,
            "cornflower, sown in place: in the ground from 19 September 2026; first cut about "
            "28 May 2027 (20 May to 6 June), last cut 20 July 2027; cleared 20 July 2027; blue; "
            "12 plants, 0 to 150 cm along the bed");
  EXPECT_EQ(blocks[1].title,
            "cornflower, sown in place: in the ground from 10 April 2027; first cut about "
            "1 July 2027 (23 June to 10 July), last cut 10 August 2027; cleared 10 August 2027; "
            "blue; 12 plants, 150 to 200 cm along the bed");
  EXPECT_EQ(blocks[2].title,
            "achillea, sown in place: stands for years; first cut about 15 June 2027 (7 June to "
            "24 June), last cut 1 September 2027; stays in the ground; blue; 12 plants, 0 to "
            "100 cm along the bed");
  for (const Group& block : blocks) EXPECT_EQ(block.rects("leaf").size(), 1U) << block.title;
}

TEST(Chart, EveryGroupOfMarksHasATitle) {
  const std::string svg = two_beds().svg();
  std::size_t count = 0;
  std::size_t at = svg.find("<g ", svg.find("</defs>"));
  for (; at != std::string::npos; at = svg.find("<g ", at + 1)) {
    if (svg.compare(at, 15, "<g font-family=") == 0) continue;  // the picture itself
    ++count;
    const std::size_t end = svg.find('>', at);
    EXPECT_EQ(svg.compare(end + 1, 8, "\n<title>"), 0) << svg.substr(at, 60);
  }
  // On two pages: six in a legend; two beds; three blocks; four grounds bare in summer, each of
  // the seven with its label; three frosts on the first page and two on the second.
  EXPECT_EQ(count, 2 * 6U + 2 + 3 + 7 + 5);
}

TEST(Chart, LengthsAreToScale) {
  const auto svg = two_beds().svg();
  const auto blocks = groups(svg, "planting");
  const auto beds = groups(svg, "bed");
  ASSERT_EQ(blocks.size(), 3U);
  ASSERT_EQ(beds.size(), 2U);
  const Box quay = beds[0].rects("soil").at(0), wall = beds[1].rects("soil").at(0);
  const double metre = quay.width / 4.5;
  EXPECT_NEAR(blocks[0].rects("leaf")[0].width, 1.5 * metre, 0.02);
  EXPECT_NEAR(blocks[1].rects("leaf")[0].width, 0.5 * metre, 0.02);
  EXPECT_NEAR(blocks[2].rects("leaf")[0].width, wall.width / 2.7, 0.02);
  EXPECT_NEAR(blocks[0].rects("leaf")[0].x, quay.x, 0.02);
  EXPECT_NEAR(blocks[1].rects("leaf")[0].x, quay.x + 1.5 * metre, 0.02);
  EXPECT_NEAR(blocks[2].rects("leaf")[0].x, wall.x, 0.02);
}

TEST(Chart, HeightsAreInProportionToDays) {
  const auto svg = two_beds().svg();
  const auto blocks = groups(svg, "planting");
  const Box quay = groups(svg, "bed").at(0).rects("soil").at(0);
  // From 1 September 2026 to 31 October 2027.
  const double per_day = quay.height / 426;
  const auto y = [&](const std::string& text) {
    return quay.y + per_day * days_between(day("2026-09-01"), day(text));
  };
  const Box autumn = blocks.at(0).rects("leaf").at(0);
  EXPECT_NEAR(autumn.y, y("2026-09-19"), 0.02);
  EXPECT_NEAR(autumn.height, 304 * per_day, 0.02);  // 19 September to 20 July
  const Box flowers = blocks.at(0).rects("flower").at(0);
  EXPECT_NEAR(flowers.y, y("2027-05-28"), 0.02);
  EXPECT_NEAR(flowers.bottom(), autumn.bottom(), 0.02);
  const Box spring = blocks.at(1).rects("leaf").at(0);
  EXPECT_NEAR(spring.height, 122 * per_day, 0.02);  // 10 April to 10 August
  // The flowers end with the plants, although they could be cut until 20 August.
  EXPECT_NEAR(blocks.at(1).rects("flower").at(0).bottom(), y("2027-08-10"), 0.02);
}

TEST(Chart, WhatStaysFillsTheYearAndIsOpenAtBothEnds) {
  const auto svg = two_beds().svg();
  const auto blocks = groups(svg, "planting");
  const Box wall = groups(svg, "bed").at(1).rects("soil").at(0);
  const Box leaf = blocks.at(2).rects("leaf").at(0);
  EXPECT_NEAR(leaf.y, wall.y, 0.02);
  EXPECT_NEAR(leaf.height, wall.height, 0.02);
  const Box flowers = blocks.at(2).rects("flower").at(0);
  // From 1 January to 31 October; 15 June to 1 September, that day too.
  EXPECT_NEAR(flowers.height, wall.height / 304 * 79, 0.02);
  // No line across: the edge that starts at the upper left goes down only.
  EXPECT_EQ(blocks.at(2).body.find("V" + mm(leaf.bottom()) + "M" + mm(leaf.x) + " "),
            std::string::npos);
  EXPECT_NE(blocks.at(0).body.find("M" + mm(blocks.at(0).rects("leaf").at(0).x) + " " +
                                   mm(blocks.at(0).rects("leaf").at(0).bottom()) + "h"),
            std::string::npos);
}

TEST(Chart, EachSuccessionIsABlockOfItsOwn) {
  Garden garden;
  garden.plan.beds = {bed("quay bed", 4500)};
  garden.add_stretch(3600).successions = 2;
  garden.choose(cornflower(), {"2027-04-10", "2027-07-01", "2027-08-01", "2027-08-01"});
  garden.choose(cornflower(), {"2027-05-10", "2027-07-21", "2027-08-20", "2027-09-10"});
  for (ground::Sowing& sowing : garden.schedule.sowings) sowing.length = Millimetres{1800};
  garden.schedule.sowings[1].offset = Millimetres{1800};
  const auto svg = garden.svg();
  const auto blocks = groups(svg, "planting");
  ASSERT_EQ(blocks.size(), 2U);
  const Box quay = groups(svg, "bed").at(0).rects("soil").at(0);
  EXPECT_NEAR(blocks[1].rects("leaf").at(0).x, quay.x + quay.width * 1.8 / 4.5, 0.02);
  EXPECT_NEAR(blocks[1].rects("leaf").at(0).width, quay.width * 1.8 / 4.5, 0.02);
  EXPECT_NEAR(blocks[0].rects("leaf").at(0).height / blocks[1].rects("leaf").at(0).height,
              113.0 / 123, 0.002);
}

TEST(Chart, ANameCannotBreakThePicture) {
  Garden garden = two_beds();
  const Sheet odd = sheet("<&\"'>", LifeCycle::HardyAnnual, Method::Seed);
  garden.plan.title = "Beds </title><script>alert(1)</script> & more";
  garden.plan.beds[0].name = "quay <&\"'> bed\xEF\xBF\xBF";
  garden.plan.beds[1].person = "\"Ines\" & <Jo>";
  garden.schedule.sowings[0].sheet = &odd;
  garden.plan.plantings[0].asked.variety = "\x01<svg onload=\"x\">";
  const std::string svg = garden.svg();
  EXPECT_TRUE(well_formed(svg));
  EXPECT_EQ(svg.find("<script"), std::string::npos);
  EXPECT_EQ(svg.find("<svg onload"), std::string::npos);
  EXPECT_NE(
      svg.find(
          "<title>&lt;&amp;&quot;&#39;&gt; &#39; &lt;svg onload=&quot;x&quot;&gt;&#39;, sown in "
          "place"),
      std::string::npos);
  EXPECT_NE(svg.find("quay &lt;&amp;&quot;&#39;&gt; bed\xEF\xBF\xBD"), std::string::npos);
  EXPECT_EQ(svg.find('\x01'), std::string::npos);
}

TEST(Chart, TheSameInputGivesTheSameBytes) {
  const std::string svg = two_beds().svg();
  EXPECT_EQ(svg, two_beds().svg());
  EXPECT_TRUE(well_formed(svg));
  EXPECT_TRUE(is_chart(svg));
  EXPECT_FALSE(is_chart("<svg xmlns=\"http://www.w3.org/2000/svg\"/>"));
  EXPECT_FALSE(is_chart(""));
}

TEST(Chart, SaysWhatItIsToWhoCannotSeeIt) {
  const std::string svg = two_beds().svg();
  EXPECT_NE(svg.find("role=\"img\" aria-labelledby=\"title description\""), std::string::npos);
  EXPECT_NE(svg.find("<title id=\"title\">Kitchen beds, flowering 2027</title>"),
            std::string::npos);
  const std::size_t at = svg.find("<desc id=\"description\">");
  ASSERT_NE(at, std::string::npos);
  const std::string description = svg.substr(at, svg.find("</desc>") - at);
  EXPECT_NE(description.find("the year down, from September 2026 to October 2027. quay bed, 4.5 m "
                             "long and 1.2 m wide. cornflower, sown in place: in the ground from "
                             "19 September 2026;"),
            std::string::npos);
  for (const Group& block : groups(svg, "planting")) {
    EXPECT_NE(description.find(block.title), std::string::npos) << block.title;
  }
}

TEST(Chart, WhatFoundNoPlaceIsNamed) {
  Garden garden = two_beds();
  garden.add_stretch(1000, "zinnia");
  const std::string svg = garden.svg();
  EXPECT_EQ(groups(svg, "planting").size(), 3U);
  EXPECT_NE(svg.find(">Found no place, see trug check: wall bed/zinnia.<"), std::string::npos);
}

// Snellen's chart: an eye of full acuity reads letters of five minutes of arc. Capitals of DejaVu
// Sans are 0.729 of the type size (its OS/2 table).
TEST(Chart, EverythingIsReadFromTwoMetresOnA3) {
  const std::string svg = two_beds().svg(Paper::A3);
  EXPECT_NE(svg.find(" width=\"296.98mm\" height=\"840.04mm\" viewBox=\"0 0 210 594\""),
            std::string::npos)
      << svg.substr(0, 300);
  const double five_minutes = 2000 * std::tan(5.0 / 60 * std::numbers::pi / 180);
  const std::regex pattern("font-size=\"([.0-9]+)\"");
  int texts = 0;
  for (std::sregex_iterator it(svg.begin(), svg.end(), pattern), end; it != end; ++it, ++texts) {
    EXPECT_GE(std::stod((*it)[1]) * std::numbers::sqrt2 * 0.729, five_minutes * 1.4);
  }
  EXPECT_GT(texts, 40);
}

TEST(Chart, TheYearEndsWithTheSouthernFrost) {
  Garden garden;
  garden.plan.place.latitude = -38;
  garden.plan.place.last_frost = {std::chrono::October, std::chrono::day{20}};
  garden.plan.place.first_frost = {std::chrono::April, std::chrono::day{25}};
  garden.plan.beds = {bed("quay bed", 4500)};
  garden.add_stretch(1000);
  garden.choose(cornflower(), {"2026-03-20", "2026-11-01", "2026-12-20", "2026-12-20"});
  EXPECT_NE(garden.svg().find("from March 2026 to April 2027"), std::string::npos);
}

}  // namespace
}  // namespace trug::show::chart_tests
