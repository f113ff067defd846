// SPDX-License-Identifier: MIT
#include "growth/cover.h"

#include <gtest/gtest.h>

#include "climate/day_length.h"

namespace trug::growth {
namespace {

double warmer(Cover cover, double latitude, unsigned month, double mean_c) {
  return warmer_c(cover_gain(cover), climate::sun_mj(latitude, make_date(2027, month, 15)), mean_c);
}

// Savage 1980: 2.75 degrees through a winter at 30 degrees south, where the sun is lowest in June.
TEST(Cover, WarmsByTheSun) {
  EXPECT_NEAR((warmer(Cover::Tunnel, -30, 6, 12) + warmer(Cover::Tunnel, -30, 8, 14)) / 2, 2.75,
              0.35);
  EXPECT_NEAR(warmer(Cover::Tunnel, 52, 12, 5), 0.8, 0.1);
  EXPECT_NEAR(warmer(Cover::Tunnel, 52, 3, 7), 2.7, 0.3);
  EXPECT_NEAR(warmer(Cover::Tunnel, 52, 4, 9), 4, 0.3);
  EXPECT_DOUBLE_EQ(warmer(Cover::Fleece, 52, 4, 9), warmer(Cover::Tunnel, 52, 4, 9) / 2);
  EXPECT_EQ(warmer(Cover::None, 52, 4, 9), 0);
}

TEST(Cover, IsOpenedInTheWarmth) {
  EXPECT_DOUBLE_EQ(warmer(Cover::Tunnel, 52, 7, 16.5), 1.5);
  EXPECT_EQ(warmer(Cover::Tunnel, 52, 7, 21), 0);
}

}  // namespace
}  // namespace trug::growth
