// SPDX-License-Identifier: MIT
#include "show/crop_page.h"

#include <gtest/gtest.h>

namespace trug::show {
namespace {

Sheet made_up() {
  Sheet sheet;
  sheet.name = "moon daisy";
  sheet.ways = {{.name = "sown in place", .method = Method::Seed}};
  return sheet;
}

bool says(const Sheet& sheet, const std::string& line) {
  const std::string page = crop_page(sheet, Style{.width = 100});
  return page.find("  " + line + "\n") != std::string::npos;
}

// Common practice in the trade: plants a square metre on a square grid. 23 cm is the sunflower
// spacing of ATTRA and Cornell; 25 cm, 16 plants, the china aster's of Moles Seeds.
TEST(CropPage, CountsPlantsOfASquareMetre) {
  const std::pair<double, std::string> rows[] = {
      {15, "44.4"}, {20, "25"}, {23, "18.9"}, {25, "16"}, {30, "11.1"}, {45, "4.9"}, {60, "2.8"}};
  for (const auto& [cm, plants] : rows) {
    Sheet sheet = made_up();
    sheet.spacing_cm = {cm, cm};
    const std::string spacing = std::to_string(static_cast<int>(cm));
    EXPECT_TRUE(says(
        sheet, "spacing               " + spacing + " cm (" + plants + " plants a square metre)"))
        << crop_page(sheet, Style{.width = 100});
  }
}

TEST(CropPage, SaysHowDeepAndWhenToPinch) {
  Sheet sheet = made_up();
  EXPECT_TRUE(says(sheet, "depth                 on the surface"));
  EXPECT_TRUE(says(sheet, "pinch                 no"));
  sheet.depth_mm = 12;
  sheet.pinch = {Pinch::Advice::Yes, Range{20, 30}, {7, 14}};
  EXPECT_TRUE(says(sheet, "depth                 12 mm"));
  EXPECT_TRUE(says(sheet, "pinch                 yes, at 20 to 30 cm; flowers 7 to 14 days later"));
  sheet.depth_mm = 130;
  EXPECT_TRUE(says(sheet, "depth                 13 cm"));
  sheet.depth_mm.reset();
  sheet.ways.front().method = Method::BoughtPlants;
  EXPECT_FALSE(says(sheet, "depth                 on the surface"));
}

TEST(CropPage, SaysThatNoHeatIsKnownOnlyWhereNoneIs) {
  const auto knows_none = [](const Sheet& sheet) {
    return crop_page(sheet, Style{.width = 100}).find("No heat constants") != std::string::npos;
  };
  Sheet sheet = made_up();
  EXPECT_TRUE(knows_none(sheet));
  sheet.groups = {{.name = "early", .growth = Growth{}}};
  EXPECT_FALSE(knows_none(sheet));
  sheet.groups.clear();
  sheet.growth = Growth{};
  EXPECT_FALSE(knows_none(sheet));
}

}  // namespace
}  // namespace trug::show
