// SPDX-License-Identifier: MIT
// The invented allotment is what later tests count on: its size, and every life cycle in it.
#include <gtest/gtest.h>

#include <map>

#include "app/real_files.h"
#include "read/plan_reader.h"
#include "read/sheet_library.h"

namespace trug {
namespace {

constexpr int kLifeCycles = static_cast<int>(LifeCycle::Shrub) + 1;

TEST(Allotment, HasTwentyTwoPlantingsAndEveryLifeCycle) {
  const app::RealFiles files;
  const std::string path = std::string(TRUG_SOURCE_DIR) + "/tests/gardens/allotment.toml";
  read::SheetLibrary sheets;
  Diagnostics diagnostics;
  const std::optional<Plan> plan = read::read_plan(files, path, sheets, diagnostics);
  ASSERT_TRUE(plan);
  EXPECT_FALSE(diagnostics.has_errors());
  EXPECT_TRUE(plan->garden);
  EXPECT_EQ(plan->beds.size(), 6u);
  EXPECT_FALSE(std::holds_alternative<NoTemperatures>(plan->place.temperatures));

  std::map<LifeCycle, int> grown;
  for (const Planting& planting : plan->plantings) {
    const Sheet* sheet = sheets.find(planting.asked.crop, diagnostics);
    ASSERT_TRUE(sheet) << planting.asked.crop;
    ++grown[sheet->life_cycle];
  }
  EXPECT_EQ(plan->plantings.size(), 22u);
  EXPECT_EQ(static_cast<int>(grown.size()), kLifeCycles);
}

}  // namespace
}  // namespace trug
