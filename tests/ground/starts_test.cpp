// SPDX-License-Identifier: MIT
#include "ground/starts.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace trug::ground {
namespace {

struct Row {
  std::string name;
  Start start;
  Free free;
  double weight;
};

// The window is days 100 to 140.
TEST(Starts, FreeAndWeight) {
  const auto on = [](int in_ground, int first_allowed, bool next_year = false,
                     bool pinned = false) {
    return Start{in_ground, 100, 140, first_allowed, next_year, pinned};
  };
  const std::vector<Row> rows = {
      {"the first day", on(100, 100), Free::Any, 1},
      {"a fortnight after the first allowed", on(124, 110), Free::Any, 1},
      {"a day more", on(125, 110), Free::Soon, 1},
      {"the last of three quarters", on(130, 100), Free::Soon, 1},
      {"the last quarter", on(131, 100), Free::Soon, 0.97},
      {"the last quarter, next year", on(131, 100, true), Free::Soon, 0.9},
      {"the last day", on(140, 100), Free::Soon, 0.97},
      {"a day late", on(141, 100), Free::Near, 0.895},
      {"a day late where the window was forbidden", on(141, 141), Free::Any, 0.895},
      {"a fortnight after the first", on(155, 141), Free::Any, 0.825},
      {"more than a fortnight after the first", on(156, 141), Free::Near, 0.82},
      {"ten weeks late", on(210, 100), Free::Near, 0.55},
      {"more than ten weeks late", on(211, 100), Free::Never, 0.545},
      {"three weeks late, next year", on(161, 100, true), Free::Near, 0.795},
      {"more than three weeks late, next year", on(162, 100, true), Free::Never, 0.79},
      {"forbidden for too long, next year", on(162, 162, true), Free::Never, 0.79},
      {"pinned, as late as you like", on(300, 100, true, true), Free::Any, 0.3},
      {"pinned four weeks too early", on(72, 72, false, true), Free::Any, 0.76},
  };
  for (const Row& row : rows) {
    SCOPED_TRACE(row.name);
    EXPECT_EQ(free_before(row.start), row.free);
    EXPECT_NEAR(place_weight(row.start), row.weight, 1e-9);
  }
}

TEST(Starts, TheSheetsFirstWayComesFirst) {
  EXPECT_EQ(way_weight(0, false), 1);
  EXPECT_EQ(way_weight(0, true), 1) << "the trade starts it from plants";
  EXPECT_EQ(way_weight(1, false), 0.97);
  EXPECT_EQ(way_weight(2, true), 0.85);
}

TEST(Starts, ALongPauseBeginsAnotherRun) {
  EXPECT_EQ(first_of_run({3, 10, 11, 19, 26, 34}), (std::vector<int>{3, 3, 3, 19, 19, 34}));
  EXPECT_TRUE(first_of_run({}).empty());
}

TEST(Summer, CountsItsOwnDays) {
  const Summer summer{70, 210};
  EXPECT_EQ(summer.days_before(0), 0);
  EXPECT_EQ(summer.days_before(70), 0);
  EXPECT_EQ(summer.days_before(71), 1);
  EXPECT_EQ(summer.weeks_before(210), 20);
  EXPECT_EQ(summer.weeks_before(400), 20);
}

}  // namespace
}  // namespace trug::ground
