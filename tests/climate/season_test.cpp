// SPDX-License-Identifier: MIT
#include "climate/season.h"

#include <gtest/gtest.h>

namespace trug::climate {
namespace {

using namespace std::chrono;

Place place(double latitude, MonthDay last, MonthDay first) {
  Place place;
  place.latitude = latitude;
  place.last_frost = last;
  place.first_frost = first;
  return place;
}

TEST(Season, RunsFromNewYearAndInTheSouthFromJuly) {
  const auto north = Climate::from(place(52.5, May / 15, October / 15));
  const Season season(north, 2027);
  EXPECT_EQ(iso(season.range().from) + " " + iso(season.range().until), "2027-01-01 2028-01-01");
  EXPECT_EQ(iso(season.lives().from) + " " + iso(season.lives().until), "2025-01-01 2028-01-01");
  const auto south = Climate::from(place(-41, October / 20, May / 1));
  const Season turned(south, 2027);
  EXPECT_EQ(iso(turned.range().from) + " " + iso(turned.range().until), "2026-07-01 2027-07-01");
  EXPECT_EQ(iso(turned.frosts().last) + " " + iso(turned.frosts().first), "2026-10-20 2027-05-01");
}

// Windows name the frosts of the season in which their plants go in.
TEST(Season, WindowsCountFromTheFrostsOfTheirOwnYear) {
  const auto climate = Climate::from(place(52.5, May / 15, October / 15));
  const Season season(climate, 2027);
  const FrostWindow window{{-1, Frost::First}, {0.5, Frost::First}};
  for (const auto& [flowers, days] : {std::pair{FlowersIn::SameYear, "2027-10-08 2027-10-20"},
                                      std::pair{FlowersIn::NextYear, "2026-10-08 2026-10-20"},
                                      std::pair{FlowersIn::ThirdYear, "2025-10-08 2025-10-20"}}) {
    const DateRange range = season.window_days(window, flowers);
    EXPECT_EQ(iso(range.from) + " " + iso(range.until), days);
  }
}

// The days under ten hours are PyEphem's (see day_length_test); at 28 degrees there are none.
TEST(Season, EndsByFrostAndByLight) {
  const auto climate = Climate::from(place(52.5, May / 15, October / 15));
  const Season season(climate, 2027);
  EXPECT_EQ(iso(season.judging_day().value()), "2026-10-26");
  EXPECT_EQ(iso(season.end(FrostClass::Tender)), "2027-10-15");
  EXPECT_EQ(iso(season.end(FrostClass::HalfHardy)), "2027-11-01");
  EXPECT_EQ(iso(season.end(FrostClass::Hardy)), iso(season.next_winter()->from));
  const auto light = Climate::from(place(28, January / 20, December / 25));
  const Season bright(light, 2027);
  EXPECT_FALSE(bright.judging_day());
  EXPECT_EQ(iso(bright.end(FrostClass::Hardy)), "2028-01-25");
}

}  // namespace
}  // namespace trug::climate
