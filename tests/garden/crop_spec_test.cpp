// SPDX-License-Identifier: MIT
#include "garden/crop_spec.h"

#include <gtest/gtest.h>

#include <vector>

namespace trug {
namespace {

FrostWindow window(double from, double to) { return {{from, Frost::Last}, {to, Frost::Last}}; }

Sheet sheet() {
  Sheet sheet;
  sheet.name = "leek";
  sheet.survives_c = -3;
  sheet.growth = Growth{.base_c = 4, .top_c = 24};
  sheet.cutting_weeks = {2, 4};
  sheet.stems_per_plant = {1, 3};
  sheet.ways = {Way{.name = "plain", .first_flower = window(1, 2)},
                Way{.name = "rich", .first_flower = window(3, 4), .stems_per_plant = Range{8, 8}}};
  sheet.groups = {Group{.name = "early",
                        .first_flower = window(-2, -1),
                        .growth = Growth{.base_c = 9, .top_c = 30},
                        .cutting_weeks = Range{1, 1},
                        .stems_per_plant = Range{5, 5}},
                  Group{.name = "plain"}};
  return sheet;
}

// What is asked of a crop, in the order below, as numbers.
std::vector<double> figures(const CropSpec& crop) {
  const Way& plain = crop.sheet().ways[0];
  const Way& rich = crop.sheet().ways[1];
  return {crop.growth()->base_c,
          crop.cutting_weeks().high,
          static_cast<double>(crop.cutting_days()),
          crop.stems_per_plant(plain).high,
          crop.stems_per_plant(rich).high,
          crop.first_flower(plain)->earliest.weeks,
          crop.first_flower(rich)->earliest.weeks};
}

TEST(CropSpec, AGroupsFiguresReplaceTheSheetsAndTheWays) {
  const Sheet leek = sheet();
  const std::vector<double> of_sheet = {4, 4, 21, 3, 8, 1, 3};
  EXPECT_EQ(figures(CropSpec(leek)), of_sheet);
  // A way's own stems stand before the group's.
  EXPECT_EQ(figures(CropSpec(leek, &leek.groups[0])), (std::vector<double>{9, 1, 7, 5, 8, -2, -2}));
  // A group that says nothing changes nothing.
  EXPECT_EQ(figures(CropSpec(leek, &leek.groups[1])), of_sheet);
}

TEST(CropSpec, IsNamedWithItsGroup) {
  const Sheet leek = sheet();
  EXPECT_EQ(CropSpec(leek).name(), "leek");
  EXPECT_EQ(CropSpec(leek, &leek.groups[0]).name(), "leek (early)");
  EXPECT_EQ(CropSpec(leek).frost_class(), FrostClass::HalfHardy);
}

// All years of some sheets, to beyond the full one.
TEST(CutShare, RisesFromTheFirstYearToTheFull) {
  struct Case {
    int first, full;
    std::vector<double> shares;  // by year
  };
  const Case cases[] = {{1, 1, {1, 1}},
                        {1, 2, {0.5, 1, 1}},
                        {3, 4, {0, 0, 0.5, 1, 1}},
                        {2, 4, {0, 1.0 / 3, 2.0 / 3, 1, 1}}};
  for (const Case& c : cases) {
    Sheet sheet;
    sheet.first_cut_year = c.first;
    sheet.full_cut_year = c.full;
    for (std::size_t i = 0; i < c.shares.size(); ++i) {
      EXPECT_DOUBLE_EQ(cut_share(sheet, static_cast<int>(i) + 1), c.shares[i])
          << c.first << " " << c.full << " " << i + 1;
    }
  }
}

}  // namespace
}  // namespace trug
