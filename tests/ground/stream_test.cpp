// SPDX-License-Identifier: MIT
#include "ground/stream.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace trug::ground {
namespace {

using Days = std::vector<int>;

StreamStart sown(int start, int first_cut) { return {start, start, first_cut}; }

struct Shape {
  Days starts, cuts;
  bool operator==(const Shape&) const = default;
};

Shape shape(const std::vector<StreamStart>& starts, const Stream& stream) {
  Shape result;
  for (const std::size_t i : stream.sowings) {
    result.starts.push_back(starts[i].start);
    result.cuts.push_back(starts[i].first_cut);
  }
  return result;
}

struct Row {
  std::string name;
  std::vector<StreamStart> starts;
  StreamRules rules;
  Shape first;  // the stream that begins soonest
  std::size_t useful;
};

const std::vector<Row> kHandWorked = {
    // Cuts due on 114, 128, ...: the latest sowing that makes each.
    {"the latest that makes its date",
     {sown(10, 100), sown(20, 107), sown(24, 113), sown(25, 115), sown(36, 127), sown(40, 131)},
     {},
     {{10, 24, 36}, {100, 113, 127}},
     3},
    {"of one first cut the latest sowing",
     {sown(1, 100), sown(8, 100), sown(30, 114)},
     {},
     {{8, 30}, {100, 114}},
     2},
    // Day 14 is only four days on; day 15 gives its first cut three days past the due one.
    {"five days between sowings",
     {sown(10, 100), sown(14, 114), sown(15, 117)},
     {},
     {{10, 15}, {100, 117}},
     2},
    {"no less than two thirds of the gap",
     {sown(10, 100), sown(20, 109), sown(30, 120)},
     {},
     {{10, 30}, {100, 120}},
     2},
    // 9 days of 14 are less than two thirds.
    {"a squeezed last sowing",
     {sown(10, 100), sown(20, 114), sown(30, 123)},
     {},
     {{10, 20}, {100, 114}},
     2},
    {"10 days of 14 are more",
     {sown(10, 100), sown(20, 114), sown(30, 124)},
     {},
     {{10, 20, 30}, {100, 114, 124}},
     3},
    // 8 days of 14 on the next Saturday, 16 on the one after it.
    {"on Saturdays",
     {sown(7, 100), sown(14, 108), sown(21, 116), sown(28, 124), sown(35, 132)},
     {},
     {{7, 21, 35}, {100, 116, 132}},
     3},
    {"a pause in the days allowed",
     {sown(10, 100), sown(18, 104), sown(80, 170)},
     {},
     {{10, 80}, {100, 170}},
     2},
    {"as many as asked for",
     {sown(10, 100), sown(20, 114), sown(30, 128), sown(40, 142)},
     {.most = 2},
     {{10, 20}, {100, 114}},
     4},
    {"more asked for than useful",
     {sown(10, 100), sown(20, 114)},
     {.most = 6},
     {{10, 20}, {100, 114}},
     2},
    {"from the wish on",
     {sown(10, 100), sown(20, 114), sown(30, 128)},
     {.cut_from = 101},
     {{20, 30}, {114, 128}},
     2},
    {"all before the wish",
     {sown(10, 100), sown(20, 114)},
     {.cut_from = 200},
     {{10, 20}, {100, 114}},
     2},
    {"every week",
     {sown(10, 100), sown(15, 104), sown(20, 107), sown(25, 111)},
     {.gap = 7},
     {{10, 20}, {100, 107}},
     2},
    {"the window ends it",
     {sown(10, 100), sown(20, 114), {30, 30, 128, false}},
     {},
     {{10, 20}, {100, 114}},
     2},
    // Two sowings that go out on the same day are one.
    {"set out on different days",
     {{10, 40, 100}, {20, 40, 112}, {21, 41, 113}},
     {},
     {{10, 21}, {100, 113}},
     2},
};

TEST(Streams, HandWorked) {
  for (const Row& row : kHandWorked) {
    SCOPED_TRACE(row.name);
    std::vector<StreamStart> starts = row.starts;
    for (int order = 0; order < 2; ++order) {
      const std::vector<Stream> all = streams(starts, row.rules);
      ASSERT_FALSE(all.empty());
      EXPECT_EQ(shape(starts, all[0]), row.first);
      EXPECT_EQ(all[0].useful, row.useful);
      std::ranges::reverse(starts);
    }
  }
  EXPECT_TRUE(streams({}, {}).empty());
}

// Where the ground is taken until later, a stream may begin later, alone if its window is over.
TEST(Streams, LaterBeginnings) {
  const std::vector<StreamStart> starts = {
      sown(10, 100), sown(15, 105), sown(20, 113), sown(30, 114), {40, 40, 128, false}};
  const std::vector<Stream> all = streams(starts, {});
  ASSERT_EQ(all.size(), 5u);
  EXPECT_EQ(shape(starts, all[0]).starts, (Days{10, 30}));
  EXPECT_EQ(shape(starts, all[2]).starts, (Days{20}));
  EXPECT_EQ(shape(starts, all[4]).starts, (Days{40}));
  std::vector<bool> late;
  for (const Stream& stream : all) late.push_back(stream.late);
  EXPECT_EQ(late, (std::vector<bool>{false, false, false, true, true}));
}

TEST(Streams, AFirstCutIsReachedInsideTheWindowWhereItCanBe) {
  const std::vector<StreamStart> starts = {sown(10, 100), {12, 12, 100, false}};
  EXPECT_EQ(shape(starts, streams(starts, {})[0]).starts, (Days{10}));
}

// Sowings every `step` days of a year whose warmth rises and falls: cut once `heat` is reached.
std::vector<StreamStart> year(double heat, int step) {
  const auto warmth = [](int day) { return 8 - 10 * std::cos(2 * 3.14159265 * (day - 15) / 365); };
  std::vector<StreamStart> result;
  for (int start = 80; start < 240; start += step) {
    double sum = 0;
    int day = start;
    for (; sum < heat && day < 320; ++day) sum += std::max(0.0, warmth(day) - 4);
    if (sum >= heat) result.push_back(sown(start, day));
  }
  return result;
}

// What a stream promises, in every year, on every rhythm of the gardener's days and for every gap.
TEST(Streams, KeepTheirPromises) {
  int sowings = 0;
  for (const double heat : {250.0, 500.0, 750.0, 1000.0}) {
    for (const int step : {1, 2, 7}) {
      const std::vector<StreamStart> starts = year(heat, step);
      for (const int gap : {7, 10, 14, 21, 28}) {
        for (const Stream& stream : streams(starts, {.gap = gap})) {
          SCOPED_TRACE(testing::Message() << heat << ' ' << step << ' ' << gap);
          const Shape found = shape(starts, stream);
          EXPECT_EQ(stream.useful, found.starts.size());
          for (std::size_t i = 1; i < found.starts.size(); ++i) {
            ++sowings;
            const int apart = found.cuts[i] - found.cuts[i - 1];
            EXPECT_GE(found.starts[i] - found.starts[i - 1], 5);
            EXPECT_GE(3 * apart, 2 * gap);
            // No later sowing would have made the date.
            for (const StreamStart& other : starts) {
              if (apart <= gap && other.start > found.starts[i]) {
                EXPECT_GT(other.first_cut, found.cuts[i - 1] + gap);
              }
            }
          }
        }
      }
    }
  }
  EXPECT_GT(sowings, 1000);
}

// While the year warms later sowings catch up, so they lie ever farther apart than their cuts.
TEST(Streams, BeginAsEarlyAsTheYearAllows) {
  const std::vector<StreamStart> starts = year(500, 1);
  const std::vector<Stream> all = streams(starts, {});
  EXPECT_EQ(starts[all[0].sowings[0]].first_cut, starts.front().first_cut);
  const Shape found = shape(starts, all[0]);
  EXPECT_GT(found.starts[1] - found.starts[0], 14);
  EXPECT_LT(found.starts.back() - found.starts[found.starts.size() - 2], 14);
}

}  // namespace
}  // namespace trug::ground
