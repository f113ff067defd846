// SPDX-License-Identifier: MIT
// The picture measured: what it shows against the plan and the dates it was given.
#include "show/chart.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <regex>
#include <set>

#include "show/chart_block.h"
#include "show/chart_layout.h"

namespace trug::show {
namespace {

Date day(const std::string& text) { return parse_iso(text).value(); }

Bed bed(const std::string& name, int length_mm) {
  Bed bed;
  bed.name = name;
  bed.length = Millimetres{length_mm};
  bed.width = Millimetres{1200};
  return bed;
}

Sheet sheet(const std::string& name, LifeCycle life_cycle, Method method) {
  Sheet sheet;
  sheet.name = name;
  sheet.life_cycle = life_cycle;
  sheet.colours = {"white", "blue", "pink"};
  Way way;
  way.name = "sown in place";
  way.method = method;
  sheet.ways = {way};
  return sheet;
}

// A made-up garden whose dates are given, not reckoned: what the chart is to show is known exactly.
class Garden {
 public:
  Garden() {
    plan.flowering_year = 2027;
    plan.title = "Kitchen beds";
    plan.place.latitude = 55;
    plan.place.last_frost = {std::chrono::May, std::chrono::day{14}};
    plan.place.first_frost = {std::chrono::October, std::chrono::day{12}};
  }

  struct Stay {
    std::string in_ground, first_cut, last_cut, lift;
  };

  CropEntry& add_stretch(int length_mm, const std::string& crop = "") {
    Bed& last = plan.beds.back();
    Stretch stretch;
    stretch.length = Millimetres{length_mm};
    for (const Stretch& before : last.stretches) stretch.offset += before.length;
    last.stretches.push_back(stretch);
    add_planting(plan, plan.beds.size() - 1, last.stretches.size() - 1, {.crop = crop});
    return plan.plantings.back().asked;
  }

  // The last stretch's crop, chosen with these dates.
  void choose(const Sheet& sheet, const Stay& stay) {
    const Planting& planting = plan.plantings.back();
    ground::Sowing sowing{candidate(stay)};
    sowing.planting = plan.plantings.size() - 1;
    sowing.sheet = &sheet;
    sowing.stands = sheet.ways.front().method == Method::Established;
    sowing.offset = planting.patch->offset;
    sowing.length = planting.patch->length;
    sowing.plants = 12;
    sowing.lift = day(stay.lift);
    schedule.sowings.push_back(sowing);
  }

  static ground::Candidate candidate(const Stay& stay) {
    ground::Candidate candidate;
    candidate.start = candidate.in_ground = day(stay.in_ground);
    const Date first = day(stay.first_cut);
    candidate.timeline.first_cut = {first - Days{8}, first, first + Days{9}};
    candidate.timeline.shares.assign(
        static_cast<std::size_t>(days_between(first, day(stay.last_cut)) + 1), 0.01);
    candidate.lift_from = candidate.lift_to = day(stay.lift);
    return candidate;
  }

  std::string svg() const { return chart_svg(plan, schedule, climate::Climate::from(plan.place)); }

  Plan plan;
  ground::Schedule schedule;
};

const Sheet& cornflower() {
  static const Sheet result = sheet("cornflower", LifeCycle::HardyAnnual, Method::Seed);
  return result;
}
const Sheet& achillea() {
  static const Sheet result = sheet("achillea", LifeCycle::Perennial, Method::Established);
  return result;
}

// Two beds: 1.5 m and 0.5 m taken in the first, a perennial on 1 m of the second.
Garden two_beds() {
  Garden garden;
  garden.plan.beds = {bed("quay bed", 4500)};
  garden.add_stretch(1500);
  garden.choose(cornflower(), {"2026-09-19", "2027-05-28", "2027-07-20", "2027-07-20"});
  garden.add_stretch(500);
  garden.choose(cornflower(), {"2027-04-10", "2027-07-01", "2027-08-20", "2027-08-10"});
  garden.plan.beds.push_back(bed("wall bed", 2700));
  garden.add_stretch(1000);
  garden.choose(achillea(), {"2027-01-01", "2027-06-15", "2027-09-01", "2027-12-31"});
  return garden;
}

struct Group {
  std::string title;
  std::string body;
  std::vector<Box> rects(const std::string& name) const {
    const std::regex pattern("<rect class=\"" + name +
                             "\" x=\"([-.0-9]+)\" y=\"([-.0-9]+)\" width=\"([-.0-9]+)\" "
                             "height=\"([-.0-9]+)\"");
    std::vector<Box> result;
    for (std::sregex_iterator it(body.begin(), body.end(), pattern), end; it != end; ++it) {
      result.push_back(
          {std::stod((*it)[1]), std::stod((*it)[2]), std::stod((*it)[3]), std::stod((*it)[4])});
    }
    return result;
  }
};

// The groups of that name; groups do not nest below the picture's one.
std::vector<Group> groups(const std::string& svg, const std::string& name) {
  const std::string open = "<g class=\"" + name + "\">\n<title>";
  std::vector<Group> result;
  for (std::size_t at = svg.find(open); at != std::string::npos; at = svg.find(open, at + 1)) {
    const std::size_t title = at + open.size();
    const std::size_t title_end = svg.find("</title>", title);
    result.push_back({svg.substr(title, title_end - title),
                      svg.substr(title_end, svg.find("</g>", title_end) - title_end)});
  }
  return result;
}

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
            "28 May 2027 (20 May to 6 June), last cut 20 July 2027; cleared 20 July 2027; white; "
            "12 plants, 0 to 150 cm along the bed");
  EXPECT_EQ(blocks[1].title,
            "cornflower, sown in place: in the ground from 10 April 2027; first cut about "
            "1 July 2027 (23 June to 10 July), last cut 10 August 2027; cleared 10 August 2027; "
            "white; 12 plants, 150 to 200 cm along the bed");
  EXPECT_EQ(blocks[2].title,
            "achillea, sown in place: stands for years; first cut about 15 June 2027 (7 June to "
            "24 June), last cut 1 September 2027; stays in the ground; white; 12 plants, 0 to "
            "100 cm along the bed");
  for (const Group& block : blocks) EXPECT_EQ(block.rects("leaf").size(), 1U) << block.title;
}

TEST(Chart, EveryGroupOfMarksHasATitle) {
  const std::string svg = two_beds().svg();
  std::size_t count = 0;
  for (std::size_t at = svg.find("<g "); at != std::string::npos; at = svg.find("<g ", at + 1)) {
    if (svg.compare(at, 15, "<g font-family=") == 0) continue;  // the picture itself
    ++count;
    const std::size_t end = svg.find('>', at);
    EXPECT_EQ(svg.compare(end + 1, 8, "\n<title>"), 0) << svg.substr(at, 60);
  }
  // 4 in the legend; 2 beds; 3 blocks and their labels; 3 frosts in each bed.
  EXPECT_EQ(count, 4U + 2 + 6 + 6);
}

TEST(Chart, LengthsAreToScale) {
  const auto svg = two_beds().svg();
  const auto blocks = groups(svg, "planting");
  const auto beds = groups(svg, "bed");
  ASSERT_EQ(blocks.size(), 3U);
  ASSERT_EQ(beds.size(), 2U);
  const Box quay = beds[0].rects("soil").at(0), wall = beds[1].rects("soil").at(0);
  const double metre = quay.width / 4.5;
  EXPECT_NEAR(wall.width, 2.7 * metre, 0.02);
  EXPECT_NEAR(blocks[0].rects("leaf")[0].width, 1.5 * metre, 0.02);
  EXPECT_NEAR(blocks[1].rects("leaf")[0].width, 0.5 * metre, 0.02);
  EXPECT_NEAR(blocks[2].rects("leaf")[0].width, metre, 0.02);
  EXPECT_NEAR(blocks[0].rects("leaf")[0].x, quay.x, 0.02);
  EXPECT_NEAR(blocks[1].rects("leaf")[0].x, quay.x + 1.5 * metre, 0.02);
  EXPECT_NEAR(blocks[2].rects("leaf")[0].x, wall.x, 0.02);
}

TEST(Chart, HeightsAreInProportionToDays) {
  const auto svg = two_beds().svg();
  const auto blocks = groups(svg, "planting");
  const Box quay = groups(svg, "bed").at(0).rects("soil").at(0);
  // From 1 September 2026 to 31 December 2027.
  const double per_day = quay.height / 487;
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
  EXPECT_NEAR(flowers.height, wall.height / 487 * 79,
              0.02);  // 15 June to 1 September, that day too
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
      svg.find("<title>&lt;&amp;&quot;&#39;&gt; &#39; &lt;svg onload=&quot;x&quot;&gt;&#39;, sown in "
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
  EXPECT_NE(description.find("the year down, from September 2026 to December 2027. quay bed, 4.5 m "
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

TEST(Chart, NothingIsWrittenSmallerThanSevenPoints) {
  const std::string svg = two_beds().svg();
  const std::regex pattern("font-size=\"([.0-9]+)\"");
  int texts = 0;
  for (std::sregex_iterator it(svg.begin(), svg.end(), pattern), end; it != end; ++it, ++texts) {
    EXPECT_GE(std::stod((*it)[1]) * 72 / 25.4, 7.0);
  }
  EXPECT_GT(texts, 40);
}

TEST(Chart, TheYearEndsWithTheSouthernSeasonInJune) {
  Garden garden;
  garden.plan.place.latitude = -38;
  garden.plan.place.last_frost = {std::chrono::October, std::chrono::day{20}};
  garden.plan.place.first_frost = {std::chrono::April, std::chrono::day{25}};
  garden.plan.beds = {bed("quay bed", 4500)};
  garden.add_stretch(1000);
  garden.choose(cornflower(), {"2026-03-20", "2026-11-01", "2026-12-20", "2026-12-20"});
  EXPECT_NE(garden.svg().find("from March 2026 to June 2027"), std::string::npos);
}

struct ColourRow {
  std::string name;
  std::vector<std::string> of_entry, of_wish, expected;
};

TEST(ChartColours, ThePlansThenTheWishsThenTheSheets) {
  const std::vector<ColourRow> rows{
      {"the entry's", {"plum", "white"}, {"blue"}, {"plum", "white"}},
      {"the wish's that the sheet has", {}, {"plum", "pink", "white"}, {"pink", "white"}},
      {"the sheet's first", {}, {"plum"}, {"white"}},
      {"no wish", {}, {}, {"white"}},
      {"at most three", {"red", "pink", "white", "blue"}, {}, {"red", "pink", "white"}},
  };
  for (const ColourRow& row : rows) {
    SCOPED_TRACE(row.name);
    Plan plan;
    if (!row.of_wish.empty()) plan.wish = Wish{.colours = row.of_wish};
    CropEntry entry;
    entry.colours = row.of_entry;
    EXPECT_EQ(drawn_colours(plan, entry, cornflower()), row.expected);
  }
}

TEST(ChartColours, EveryWordOfTheSheetsHasItsOwnFill) {
  std::set<std::string_view> fills{fill_of("no such colour")};
  const std::vector<std::string> words{
      "white", "cream",   "yellow", "gold",       "orange", "apricot",  "salmon", "pink",
      "red",   "crimson", "plum",   "purple",     "lilac",  "violet",   "blue",   "lime",
      "green", "bronze",  "brown",  "near-black", "silver", "grey-blue"};
  for (const std::string& word : words) EXPECT_TRUE(fills.insert(fill_of(word)).second) << word;
}

TEST(ChartColours, TwoColoursShareTheWidthEqually) {
  Garden garden = two_beds();
  garden.plan.plantings[0].asked.colours = {"blue", "plum"};
  const Group block = groups(garden.svg(), "planting").at(0);
  const Box flowers = block.rects("flower").at(0);
  const std::string fill(fill_of("plum"));
  const std::regex path("<path d=\"([^\"]*)\" fill=\"" + fill + "\"/>");
  std::smatch match;
  ASSERT_TRUE(std::regex_search(block.body, match, path));
  const std::string d = match[1];
  const std::regex stripe("h([.0-9]+)v");
  double width = 0;
  for (std::sregex_iterator it(d.begin(), d.end(), stripe), end; it != end; ++it) {
    width += std::stod((*it)[1]);
  }
  EXPECT_NEAR(width, flowers.width / 2, 0.1);
}

// Beds of `length_mm` each, over sixteen months.
ChartLayout layout_of(int beds, int length_mm) {
  Plan plan;
  for (int i = 0; i < beds; ++i) plan.beds.push_back(bed("bed", length_mm));
  return chart_layout(plan, {day("2026-09-01"), day("2028-01-01")}, 0);
}

TEST(ChartLayout, BedsStayOnThePaperAndApart) {
  struct Row {
    std::string name;
    int beds, length_mm;
  };
  for (const Row& row : std::vector<Row>{{"one", 1, 6000},
                                         {"two", 2, 6000},
                                         {"six", 6, 6000},
                                         {"twenty short", 20, 2400},
                                         {"one very long", 1, 60000},
                                         {"one tiny", 1, 300}}) {
    SCOPED_TRACE(row.name);
    const ChartLayout layout = layout_of(row.beds, row.length_mm);
    const double width = layout.per_metre * row.length_mm / 1000, height = layout.per_day * 487;
    for (std::size_t i = 0; i < layout.beds.size(); ++i) {
      const BedPlace& place = layout.beds[i];
      EXPECT_GE(place.x, kPageMargin + kMonthColumn);
      EXPECT_LE(place.x + width, kPageWidth - kPageMargin - kFrostColumn + 0.01);
      const double page_end = kPageHeight * std::ceil(place.y / kPageHeight);
      EXPECT_LE(place.y + height, page_end - kPageMargin + 0.01) << "crosses a fold";
      EXPECT_LE(place.y, kPageHeight * layout.pages);
      EXPECT_GE(layout.per_day * 30.4, 4.49);  // millimetres a month
      for (std::size_t j = 0; j < i; ++j) {
        const BedPlace& other = layout.beds[j];
        const bool apart = place.x >= other.x + width || place.y >= other.y + height + kBedHead;
        EXPECT_TRUE(apart) << i << " and " << j;
      }
    }
  }
}

TEST(ChartLayout, TwoLongBedsLieBelowEachOtherAndShortOnesSideBySide) {
  const ChartLayout longs = layout_of(2, 6000);
  EXPECT_EQ(longs.pages, 1);
  EXPECT_EQ(longs.beds[0].x, longs.beds[1].x);
  const ChartLayout shorts = layout_of(2, 2000);
  EXPECT_EQ(shorts.beds[0].y, shorts.beds[1].y);
  EXPECT_GT(shorts.beds[1].x, shorts.beds[0].x);
}

}  // namespace
}  // namespace trug::show
