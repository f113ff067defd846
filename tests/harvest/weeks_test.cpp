// SPDX-License-Identifier: MIT
#include "harvest/weeks.h"

#include <gtest/gtest.h>

#include <optional>
#include <string>
#include <vector>

#include "lowland.h"

namespace trug::harvest {
namespace {

MonthDay month_day(unsigned month, unsigned day) {
  return {std::chrono::month{month}, std::chrono::day{day}};
}

// A bed of 3.4 m and a vase of twelve stems a week from 5 July to 1 August: four weeks.
Plan plan() {
  Plan plan;
  plan.flowering_year = 2027;
  plan.place = lowland();
  plan.wish = Wish{.vases_per_week = 1, .stems_per_vase = 12};
  plan.wish->from = month_day(7, 5);
  plan.wish->to = month_day(8, 1);
  plan.beds.resize(1);
  plan.beds[0].length = Millimetres{3400};
  return plan;
}

std::vector<Week> weeks(const Plan& plan, const std::vector<Cut>& cuts) {
  return count_weeks(plan, climate::Climate::from(plan.place), cuts);
}

const Date kMonday = make_date(2027, 7, 5);

// Fourteen likely stems, one a day from `first` on, seven at least and 28 at most, on 1 m.
Cut fortnight(std::string crop, Date first, Role role = Role::Focal) {
  return {.crop = std::move(crop),
          .role = role,
          .first_early = first,
          .first = first,
          .first_late = first,
          .in_ground = first - Days{60},
          .lift = first + Days{13},
          .shares = std::vector<double>(14, 1.0 / 14),
          .stems = {7, 14, 28},
          .length = Millimetres{1000}};
}

void expect_span(const Span& span, double low, double likely, double high) {
  EXPECT_NEAR(span.low, low, 1e-9);
  EXPECT_NEAR(span.likely, likely, 1e-9);
  EXPECT_NEAR(span.high, high, 1e-9);
}

TEST(CountWeeks, ThoseTheWishTouches) {
  const auto found = weeks(plan(), {});
  ASSERT_EQ(found.size(), 4u);
  EXPECT_EQ(iso(found.front().monday), "2027-07-05");
  EXPECT_EQ(iso(found.back().monday), "2027-07-26");
  for (const Week& week : found) {
    EXPECT_TRUE(week.wished);
    EXPECT_EQ(week.vase.wanted, 12);
    EXPECT_EQ(week.vase.state(), WeekState::Short);
    EXPECT_EQ(week.bare, Millimetres{3400});
  }
}

TEST(CountWeeks, WithoutAWishThoseOfTheSeason) {
  Plan wishless = plan();
  wishless.wish.reset();
  const auto found = weeks(wishless, {fortnight("zinnia", kMonday)});
  EXPECT_EQ(iso(found.front().monday), "2026-12-28");
  EXPECT_EQ(iso(found.back().monday), "2027-12-27");
  EXPECT_FALSE(found.front().wished);
  double stems = 0;
  for (const Week& week : found) stems += week.stems.likely;
  EXPECT_NEAR(stems, 14, 1e-9);
}

TEST(CountWeeks, YieldsMakeASpan) {
  const auto found = weeks(plan(), {fortnight("zinnia", kMonday)});
  for (const int week : {0, 1}) {
    const Week& one = found[static_cast<std::size_t>(week)];
    expect_span(one.stems, 3.5, 7, 14);
    // One kind: half a vase at most.
    expect_span(one.usable, 3.5, 6, 6);
    EXPECT_EQ(one.vase.state(), WeekState::Half);
  }
  expect_span(found[2].stems, 0, 0, 0);
}

// A week early or late: the first week may have nothing, the third may have a week's stems.
TEST(CountWeeks, DatesMakeASpan) {
  Cut cut = fortnight("zinnia", kMonday);
  cut.first_early = kMonday - Days{7};
  cut.first_late = kMonday + Days{7};
  cut.moves_with_first = true;
  const auto moved = weeks(plan(), {cut});
  expect_span(moved[0].stems, 0, 7, 14);
  expect_span(moved[1].stems, 0, 7, 14);
  expect_span(moved[2].stems, 0, 0, 14);
  // Lifted on the day all the same: nothing in the third week.
  cut.moves_with_first = false;
  const auto lifted = weeks(plan(), {cut});
  expect_span(lifted[1].stems, 0, 7, 14);
  expect_span(lifted[2].stems, 0, 0, 0);
}

// All are early together or late together: one kind after the other leaves no week empty.
TEST(CountWeeks, AYearIsEarlyForAll) {
  std::vector<Cut> cuts = {fortnight("zinnia", kMonday), fortnight("cosmos", kMonday + Days{14})};
  for (Cut& cut : cuts) {
    cut.first_early = cut.first - Days{7};
    cut.first_late = cut.first + Days{7};
    cut.moves_with_first = true;
  }
  const auto found = weeks(plan(), cuts);
  expect_span(found[2].stems, 3.5, 7, 14);
  expect_span(found[2].usable, 3.5, 6, 6);
}

TEST(CountWeeks, ByRoleColourAndKind) {
  Cut white = fortnight("zinnia", kMonday), both = fortnight("cosmos", kMonday, Role::Filler);
  white.colours = {"white"};
  both.planting = 1;
  both.colours = {"white", "lime"};
  Cut unknown = fortnight("dahlia", kMonday);
  unknown.planting = 2;
  const Week week = weeks(plan(), {white, both, unknown})[0];
  expect_span(week.stems, 10.5, 21, 42);
  expect_span(week.by_role.at(Role::Focal), 7, 14, 28);
  expect_span(week.by_role.at(Role::Filler), 3.5, 7, 14);
  expect_span(week.by_colour.at("white"), 5.25, 10.5, 21);
  expect_span(week.by_colour.at("lime"), 1.75, 3.5, 7);
  expect_span(week.by_colour.at(std::string(kUnknownColours)), 3.5, 7, 14);
  ASSERT_EQ(week.kinds.size(), 3u);
  EXPECT_EQ(week.kinds[1].crop, "cosmos");
  EXPECT_EQ(week.kinds[1].planting, 1u);
  // Six and six main; all that is wanted.
  EXPECT_EQ(week.vase.state(), WeekState::Full);
}

// Two sowings of one planting are one entry, two plantings of one crop one kind in the vase.
TEST(CountWeeks, OneCropIsOneKind) {
  Cut first = fortnight("zinnia", kMonday), second = fortnight("zinnia", kMonday + Days{7});
  const Week sowings = weeks(plan(), {first, second})[1];
  ASSERT_EQ(sowings.kinds.size(), 1u);
  expect_span(sowings.kinds[0].stems, 7, 14, 28);
  second.planting = 1;
  const Week plantings = weeks(plan(), {first, second})[1];
  EXPECT_EQ(plantings.kinds.size(), 2u);
  EXPECT_NEAR(plantings.vase.usable, 6, 1e-9);
}

TEST(CountWeeks, BunchesOfOneKind) {
  Plan one_kind = plan();
  one_kind.wish->mixed = false;
  Cut many = fortnight("zinnia", kMonday);
  many.stems = {28, 28, 28};
  EXPECT_EQ(weeks(one_kind, {many})[0].vase.state(), WeekState::Full);
}

// In the ground from Thursday, in flower from the next Monday, gone after the Wednesday.
TEST(CountWeeks, HowTheGroundIsCovered) {
  Cut cut = fortnight("zinnia", kMonday + Days{7});
  cut.in_ground = kMonday + Days{3};
  cut.shares.resize(3);
  cut.lift = kMonday + Days{9};
  Cut elsewhere = fortnight("rose", kMonday);
  elsewhere.length = {};
  const auto found = weeks(plan(), {cut, elsewhere});
  EXPECT_EQ(found[0].leaf, Millimetres{4000 / 7});
  EXPECT_EQ(found[0].flower, Millimetres{0});
  EXPECT_EQ(found[0].bare, Millimetres{3400 - 4000 / 7});
  EXPECT_EQ(found[1].leaf, Millimetres{0});
  EXPECT_EQ(found[1].flower, Millimetres{3000 / 7});
  EXPECT_EQ(found[2].bare, Millimetres{3400});
}

TEST(CountWeeks, CountsByState) {
  std::vector<Cut> cuts = {fortnight("zinnia", kMonday), fortnight("cosmos", kMonday + Days{7})};
  const auto found = weeks(plan(), cuts);
  EXPECT_EQ(count(found, WeekState::Full), 1);
  EXPECT_EQ(count(found, WeekState::Half), 2);
  EXPECT_EQ(count(found, WeekState::Short), 1);
}

TEST(WishDays, LieInTheFloweringYearsSeason) {
  Plan wished = plan();
  const auto wish = [&] { return wish_days(wished, climate::Climate::from(wished.place)); };
  EXPECT_EQ(wish(), (DateRange{make_date(2027, 7, 5), make_date(2027, 8, 2)}));
  // In the south the season of 2027 begins on 1 July 2026.
  wished.place.latitude = -40;
  wished.wish->from = month_day(11, 1);
  wished.wish->to = month_day(4, 30);
  EXPECT_EQ(wish(), (DateRange{make_date(2026, 11, 1), make_date(2027, 5, 1)}));
  wished.wish.reset();
  EXPECT_EQ(wish(), std::nullopt);
}

}  // namespace
}  // namespace trug::harvest
