// SPDX-License-Identifier: MIT
#include "growth/winter.h"

#include <gtest/gtest.h>

#include "growth/places.h"

namespace trug::growth {
namespace {

Sheet needing(Chill chill) {
  Sheet sheet;
  sheet.chill = chill;
  return sheet;
}

double cold_days(const std::string& where, Chill chill, Date planted = make_date(2026, 1, 1)) {
  const auto climate = climate::Climate::from(six_places().at(where));
  const climate::Season season(climate, 2027);
  const Sheet sheet = needing(chill);
  return winter_cold(season, CropSpec(sheet))->since(planted).found;
}

// Sums of the same rule reckoned separately in Python from the same monthly figures; tolerance two
// days.
TEST(WinterCold, OfSixPlaces) {
  struct Row {
    const char* place;
    double bulbs, peony;
  };
  for (const Row& row : {Row{"Derby", 186, 156},
                         {"Kansas City", 165, 138},
                         {"Seattle", 177, 133},
                         {"Christchurch", 161, 94},
                         {"Los Angeles", 4, 0}}) {
    EXPECT_NEAR(cold_days(row.place, {100, 9, 15}), row.bulbs, 2) << row.place;
    EXPECT_NEAR(cold_days(row.place, {35, 6, 12}), row.peony, 2) << row.place;
  }
}

TEST(WinterCold, CountsFromPlanting) {
  const double all = cold_days("Derby", {100, 9, 15});
  EXPECT_LT(cold_days("Derby", {100, 9, 15}, make_date(2027, 1, 1)), all - 60);
  EXPECT_EQ(cold_days("Derby", {100, 9, 15}, make_date(2027, 4, 16)), 0);
}

TEST(WinterCold, IsAskedOnlyOfCropsThatNeedItWhereTemperaturesAreKnown) {
  const auto climate = climate::Climate::from(six_places().at("Derby"));
  const climate::Season season(climate, 2027);
  const Sheet none;
  EXPECT_FALSE(winter_cold(season, CropSpec(none)));
  const auto unknown = climate::Climate::from(Place{.latitude = 52});
  const climate::Season bare(unknown, 2027);
  const Sheet tulip = needing({100, 9, 15});
  EXPECT_FALSE(winter_cold(bare, CropSpec(tulip)));
}

// A biennial is chilled by the curve of its vernal days: plenty in England, a third in Los Angeles.
TEST(WinterCold, OfABiennialIsItsVernalDays) {
  Sheet sheet;
  sheet.growth = Growth{.base_c = 3, .top_c = 24, .vernal_days = 50};
  for (const auto& [place, low, high] :
       {std::tuple{"Derby", 2.0, 4.0}, {"Los Angeles", 0.2, 0.6}}) {
    const auto climate = climate::Climate::from(six_places().at(place));
    const climate::Season season(climate, 2027);
    const auto cold = winter_cold(season, CropSpec(sheet))->since(make_date(2026, 6, 22));
    EXPECT_GT(cold.share(), low) << place;
    EXPECT_LT(cold.share(), high) << place;
  }
}

// The normal curve by any table: 4 degrees above half dead is 1.33 deviations, nine in ten.
TEST(ShareAlive, FallsGentlyBelowWhatAPlantSurvives) {
  struct Row {
    double coldest, cover, survives, alive;
  };
  for (const Row& row : {Row{-21, 0, -21, 0.909},
                         {-21, 0, -17, 0.5},
                         {-21, 0, -14, 0.159},
                         {-21, 3, -14, 0.5},
                         {-7, 0, -5, 0.748},
                         {-7, 3, -5, 0.952},
                         {-15, 0, -5, 0.023},
                         {3, 0, -5, 1.0}}) {
    EXPECT_NEAR(share_alive(row.coldest, row.cover, row.survives), row.alive, 1e-3)
        << row.coldest << " " << row.survives;
  }
}

TEST(SnowCover, LiesWhereTheColdestMonthFreezes) {
  for (const auto& [warmest, snow] : {std::pair{25.0, 6.0}, {17.0, 0.0}}) {
    Place place{.latitude = 52};
    place.temperatures = TwoMeans{8, warmest};
    EXPECT_EQ(snow_cover_c(climate::Climate::from(place)), snow);
    for (const bool lies : {false, true}) {
      place.snow = lies;  // the plan's word stands
      EXPECT_EQ(snow_cover_c(climate::Climate::from(place)), lies ? 6 : 0);
    }
  }
}

TEST(Survival, OfABedCountsSnowAndMulchAndOfAFrameItsGlass) {
  Sheet sheet;
  sheet.survives_c = -14;
  sheet.mulch_gain_c = 3;
  const auto climate_of = [](double warmest) {
    Place place{.latitude = 52};
    place.temperatures = TwoMeans{8, warmest};
    return climate::Climate::from(place);
  };
  const Survival bare = in_bed(climate_of(17), sheet, -21);
  EXPECT_NEAR(bare.bare, 0.159, 1e-3);
  EXPECT_NEAR(bare.covered, 0.5, 1e-3);
  const Survival snow = in_bed(climate_of(25), sheet, -27);
  EXPECT_EQ(snow.coldest_c, -21);
  EXPECT_EQ(snow.covered, bare.covered);
  EXPECT_EQ(in_bed(climate_of(17), sheet, -24, 3).covered, bare.covered);
  const Survival frame = in_frame(sheet, -22);
  EXPECT_NEAR(frame.bare, 0.5, 1e-3);
  EXPECT_EQ(frame.covered, frame.bare);
  EXPECT_NEAR(share_alive(coldest_borne_c(-14), 0, -14), kLeastAlive, 1e-6);
}

}  // namespace
}  // namespace trug::growth
