// SPDX-License-Identifier: MIT
// When what stands begins its year, beside what is planted there anew.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <utility>

#include "crops/test_garden.h"
#include "growth/places.h"

namespace trug {
namespace {

// Tubers in the ground shoot as the soil warms (common practice): as soon as those that are planted
// in their place on the first day that frost and soil allow, and flower no later.
TEST(Standing, CormsAndTubersOfSpringWakeAsEarlyAsTheyCouldBePlanted) {
  const std::pair<const char*, const char*> ways[] = {{"dahlia", "tubers planted in place"},
                                                      {"acidanthera", "corms planted in place"},
                                                      {"gladiolus", "corms in spring"}};
  for (const auto& place : {maritime(), continental(), six_places().at("Los Angeles")}) {
    const TestGarden garden(place);
    for (const auto& [crop, way] : ways) {
      SCOPED_TRACE(std::string(crop) + " at " + std::to_string(place.latitude));
      const auto anew = garden.ask(crop, way).list;
      ASSERT_FALSE(anew.empty());
      const auto standing = garden.ask(crop, "", {.since = 2024}).list;
      ASSERT_EQ(standing.size(), 1u);
      const auto day = [](const ground::Candidate& c) { return c.in_ground; };
      const auto cut = [](const ground::Candidate& c) { return c.timeline.first_cut.likely; };
      EXPECT_EQ(iso(standing[0].in_ground), iso(std::ranges::min(anew, {}, day).in_ground));
      EXPECT_LE(cut(standing[0]), cut(std::ranges::min(anew, {}, cut)));
      EXPECT_EQ(standing[0].days_early(), 0) << "nobody plants it";
      EXPECT_FALSE(standing[0].against);
    }
  }
}

// Reckoned by the trade's windows it flowers in their middle.
TEST(Standing, WithoutTemperaturesTubersKeepTheTradesWindows) {
  Place place = maritime();
  place.temperatures = NoTemperatures{};
  const auto standing = TestGarden(place).ask("dahlia", "", {.since = 2024}).list;
  ASSERT_EQ(standing.size(), 1u);
  EXPECT_NEAR(days_between(day("2027-07-28"), standing[0].timeline.first_cut.likely), 0, 7);
}

}  // namespace
}  // namespace trug
