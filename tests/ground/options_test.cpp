// SPDX-License-Identifier: MIT
#include "ground/options.h"

#include <gtest/gtest.h>

#include <numeric>
#include <set>
#include <vector>

#include "ground/made_up_garden.h"

namespace trug::ground {
namespace {

const climate::Climate& maritime_climate() {
  static const auto climate = climate::Climate::from(lowland());
  return climate;
}

const DayCount& days() {
  static const DayCount count(maritime_climate(), 2027);
  return count;
}

Planting planting(CropEntry asked) {
  Planting result;
  result.asked = std::move(asked);
  result.patch.emplace();
  result.patch->length = Millimetres{2400};
  result.patch->width = Millimetres{1200};
  return result;
}

TEST(DayCount, BeginsOnAMondayTwoSeasonsBefore) {
  EXPECT_EQ(iso(days().date(0)), "2024-12-30");
  EXPECT_EQ(days().number(make_date(2025, 1, 6)), 7);
  EXPECT_EQ(days().date(days().number(make_date(2027, 7, 1))), make_date(2027, 7, 1));
  EXPECT_GT(days().date(days().horizon()), make_date(2028, 4, 1));
}

TEST(OptionsOf, OneForEachCandidateWithItsDays) {
  const Sheet sheet = cornflower();
  const Candidates found = Garden{}.ask(sheet);
  const Options options = options_of(found, {}, sheet, days());
  ASSERT_EQ(options.list.size(), found.list.size());
  EXPECT_LT(options.curves.size(), found.list.size() / 2) << "curves are shared";
  std::set<Free> rules;
  std::set<double> weights;
  for (std::size_t i = 0; i < found.list.size(); ++i) {
    const Candidate& c = found.list[i];
    const Option& option = options.list[i];
    EXPECT_EQ(days().date(option.start), c.start);
    EXPECT_EQ(days().date(option.in_ground), c.in_ground);
    EXPECT_EQ(days().date(option.first_cut), c.timeline.first_cut.likely);
    EXPECT_EQ(days().date(option.lift_from), c.lift_from);
    EXPECT_EQ(days().date(option.lift_to), c.lift_to);
    EXPECT_EQ(options.curves[option.curve], c.timeline.shares);
    EXPECT_DOUBLE_EQ(option.stems_per_plant, 20 * 0.75 * c.stem_factor);
    const double way = c.way == 0 ? 1 : 0.97;
    if (c.days_late() > 0) {
      EXPECT_DOUBLE_EQ(option.weight, way * (0.9 - 0.005 * c.days_late()));
    }
    // Those of autumn flower next year.
    if (c.way == 0) {
      EXPECT_LE(c.days_late(), 21);
    }
    if (c.way != 0 && c.days_late() > 0) {
      EXPECT_EQ(option.free, Free::Near);
    }
    rules.insert(option.free);
    weights.insert(option.weight);
  }
  EXPECT_EQ(rules.size(), 3u);
  EXPECT_TRUE(weights.contains(1) && weights.contains(0.9) && weights.contains(0.97 * 0.97));
}

TEST(OptionsOf, APinnedStartIsNotLate) {
  const Sheet sheet = cosmos();
  CropEntry asked;
  asked.pins.start_on = make_date(2027, 7, 1);
  const Candidates found = Garden{}.ask(sheet, asked);
  ASSERT_FALSE(found.list.empty());
  for (const Option& option : options_of(found, asked, sheet, days()).list) {
    EXPECT_EQ(option.free, Free::Any);
    EXPECT_LT(option.weight, 0.95);
  }
}

// Before 24 May frost forbids zinnias that window and soil would allow: from then on a fortnight.
TEST(OptionsOf, AForbiddenWindowLeavesAFortnight) {
  Sheet sheet = zinnia();
  sheet.ways = {sown_in_place("in place", after_last(-6, -2))};
  const Candidates found = Garden{}.ask(sheet);
  ASSERT_FALSE(found.list.empty());
  const Date first = found.list.front().in_ground;
  ASSERT_GT(found.list.front().days_late(), 0);
  for (const Option& option : options_of(found, {}, sheet, days()).list) {
    const int after = option.in_ground - days().number(first);
    EXPECT_EQ(option.free, after <= 14 ? Free::Any : Free::Near) << after;
  }
}

// Ten days of cutting each; the wish ends on day 199.
TEST(RefuseHardlyUseful, WhatWaitsForItsGroundAndIsCutAfterTheWish) {
  struct Row {
    int first_cut;
    Free free, then;
  };
  const Row rows[] = {
      {100, Free::Soon, Free::Soon},  // the best: all its stems
      {193, Free::Near, Free::Near},  // 7 in 10
      {199, Free::Near, Free::Near},  // 1 in 10
      {200, Free::Near, Free::Never}, {230, Free::Near, Free::Never},
      {200, Free::Soon, Free::Soon},  // in its own time
      {230, Free::Any, Free::Any}};   // by a pin, or because no other day keeps the rules
  Options options;
  options.curves = {std::vector<double>(10, 0.1)};
  for (const Row& row : rows)
    options.list.push_back({.first_cut = row.first_cut, .free = row.free});
  Options other = options;
  refuse_hardly_useful(options, 90, 199);
  for (std::size_t i = 0; i < options.list.size(); ++i) {
    EXPECT_EQ(options.list[i].free, rows[i].then) << i;
  }
  refuse_hardly_useful(other, 0, 50);
  for (std::size_t i = 0; i < other.list.size(); ++i) {
    EXPECT_EQ(other.list[i].free, rows[i].free) << i << ": nothing of the crop falls in the wish";
  }
}

// Three sowings of single stems, cut three weeks apart.
TEST(OptionsOf, AStreamIsOneOption) {
  const Sheet sheet = sunflower();
  CropEntry asked;
  asked.successions = 3;
  asked.gap_days = 21;
  asked.plants = 20;
  const Candidates found = Garden{}.ask(sheet, asked);
  const std::vector<Stream> streams = streams_of(found, asked, sheet, {});
  const Summer summer{days().number(make_date(2027, 4, 15)), days().number(make_date(2027, 9, 15))};
  Weighed weighed{.sheet = &sheet, .candidates = std::make_shared<Candidates>(found)};
  weighed.streams = streams;
  const Options options = options_of(weighed, planting(asked), summer, days());
  ASSERT_EQ(options.list.size(), streams.size());
  ASSERT_GT(streams.size(), 20u);
  bool some_late = false;
  for (std::size_t i = 0; i < streams.size(); ++i) {
    SCOPED_TRACE(i);
    const Option& option = options.list[i];
    const Candidate& first = found.list[streams[i].sowings.front()];
    const Candidate& last = found.list[streams[i].sowings.back()];
    EXPECT_EQ(days().date(option.in_ground), first.in_ground);
    EXPECT_EQ(days().date(option.lift_to), last.lift_to);
    EXPECT_EQ(
        options.curves[option.curve].size(),
        static_cast<std::size_t>(days_between(first.timeline.first_cut.likely, last.lift_to)) + 1);
    if (streams[i].late) {
      EXPECT_EQ(option.free, Free::Near);
    }
    some_late |= streams[i].late;
  }
  EXPECT_TRUE(some_late);
  ASSERT_EQ(streams[0].sowings.size(), 3u);
  double stems = 0, wait = 0;
  const int plants[] = {7, 7, 6};
  for (std::size_t i = 0; i < 3; ++i) {
    const Candidate& c = found.list[streams[0].sowings[i]];
    const double all = std::reduce(c.timeline.shares.begin(), c.timeline.shares.end());
    stems += plants[i] * c.stems_of(1) * all;
    wait += days_between(found.list[streams[0].sowings[0]].in_ground, c.in_ground) / 3.0;
  }
  const std::vector<double>& curve = options.curves[options.list[0].curve];
  const double counted = std::reduce(curve.begin(), curve.end());
  EXPECT_LE(counted, stems);
  EXPECT_GE(counted, 0.97 * stems) << "at most the last quarter's weight is taken off";
  EXPECT_NEAR(options.list[0].strips_wait_days, wait, 1e-9);
}

TEST(StreamsOf, AsManyAsAskedAsUsefulAndForTheWish) {
  const Sheet sheet = sunflower();
  CropEntry asked;
  const Candidates found = Garden{}.ask(sheet, asked);
  EXPECT_TRUE(streams_of(found, asked, sheet, {}).empty()) << "one sowing is no stream";
  asked.successions = 2;
  EXPECT_EQ(streams_of(found, asked, sheet, {})[0].sowings.size(), 2u);
  asked.successions.reset();  // all season
  const Stream all = streams_of(found, asked, sheet, {})[0];
  EXPECT_GE(all.sowings.size(), 4u);
  EXPECT_EQ(all.sowings.size(), all.useful);
  asked.gap_days = 7;
  EXPECT_GT(streams_of(found, asked, sheet, {})[0].sowings.size(), all.sowings.size());
  const Date wish = make_date(2027, 8, 20);
  const Stream later = streams_of(found, asked, sheet, wish)[0];
  EXPECT_GE(found.list[later.sowings[0]].timeline.first_cut.likely, wish - Days{7});
}

}  // namespace
}  // namespace trug::ground
