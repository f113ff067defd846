// SPDX-License-Identifier: MIT
// The colours a planting is drawn in.
#include <gtest/gtest.h>

#include <regex>
#include <set>
#include <string>
#include <vector>

#include "chart_garden.h"
#include "show/chart_block.h"
#include "show/chart_facts.h"

namespace trug::show::chart_tests {
namespace {

struct ColourRow {
  std::string name;
  std::vector<std::string> of_entry, of_wish, expected;
};

TEST(ChartColours, ThePlansThenTheWishsThenTheSheets) {
  const std::vector<ColourRow> rows{
      {"the entry's", {"plum", "white"}, {"blue"}, {"plum", "white"}},
      {"the wish's that the sheet has", {}, {"plum", "pink", "blue"}, {"pink", "blue"}},
      {"not the paper's own, which the plan wishes of all", {}, {"white", "pink"}, {"pink"}},
      {"nor where it wishes no other", {}, {"white"}, {"blue"}},
      {"the sheet's first that shows", {}, {"plum"}, {"blue"}},
      {"no wish", {}, {}, {"blue"}},
      {"white where the plan says so", {"white"}, {}, {"white"}},
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
  EXPECT_TRUE(fills.insert(kPaper).second) << "a colour looks like empty paper";
  EXPECT_TRUE(fills.insert(kSoil).second) << "a colour looks like bare ground";
}

TEST(ChartColours, ACropThatIsOnlyWhiteIsDrawnWhite) {
  Sheet white = cornflower();
  white.colours = {"white"};
  EXPECT_EQ(drawn_colours(Plan{}, CropEntry{}, white), std::vector<std::string>{"white"});
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

}  // namespace
}  // namespace trug::show::chart_tests
