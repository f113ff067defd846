// SPDX-License-Identifier: MIT
// What the plan pins, or says to stand, is chosen whatever rule it breaks, and is told that rule:
// every rule there is, with a crop made up to break it.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "ground/candidates.h"
#include "ground/made_up_garden.h"

namespace trug::ground {
namespace {

// The sheet with one of its ways only.
Sheet only(Sheet sheet, std::size_t way) {
  sheet.ways = {sheet.ways.at(way)};
  return sheet;
}

Sheet with(Sheet sheet, const std::function<void(Sheet&)>& change) {
  change(sheet);
  return sheet;
}

CropEntry sown(const std::string& day) {
  CropEntry entry;
  entry.pins.start_on = parse_iso(day);
  return entry;
}

CropEntry planted(const std::string& day) {
  CropEntry entry;
  entry.pins.plant_on = parse_iso(day);
  return entry;
}

CropEntry by_way(const Sheet& sheet) {
  CropEntry entry;
  entry.pins.way = sheet.ways.front().name;
  return entry;
}

// Nothing to raise plants in where `shelter` is not.
Candidates ask(const Place& place, const Sheet& sheet, const CropEntry& entry,
               const Shelter& shelter = everything(), std::optional<Date> first_day = {},
               const std::vector<Begun>& known = {}) {
  const auto climate = climate::Climate::from(place);
  const Work work;
  return candidates({.climate = climate,
                     .place = place,
                     .work = work,
                     .shelter = shelter,
                     .flowering_year = 2027,
                     .first_day = first_day},
                    sheet, entry, known);
}

// What a calendar that told of that start leaves known, once its first day lies behind.
Begun begun_as_told(const Candidate& c) {
  Begun begun{.way = c.way, .start = c.start, .start_told = true};
  if (c.start == c.in_ground) begun.in_ground = c.in_ground;
  begun.earlier = Earlier{c.way, c.group ? c.group->name : "", c.start, c.in_ground, c.lift_from};
  return begun;
}

Place upland() {
  Place place = lowland();
  place.temperatures = TwoMeans{4, 11};
  return place;
}

Place cold_winter(double coldest_c) {
  Place place = lowland();
  place.coldest_c = coldest_c;
  return place;
}

Place hot_summer() {
  Place place = lowland();
  auto& means = std::get<MonthlyMeans>(place.temperatures).mean_c;
  for (std::size_t month = 4; month < 9; ++month) means.at(month) += 10;
  return place;
}

struct Told {
  Rule rule;
  Place place;
  Sheet sheet;
  CropEntry entry;
};

Sheet chilled(double days, bool from_the_store) {
  return with(tulip(), [&](Sheet& sheet) {
    sheet.chill = Chill{.days = days};
    sheet.ways.front().pre_chilled = from_the_store;
  });
}

// The first day of 2027 on which the rules' answer is that.
CropEntry first_answered(Rule rule, const Sheet& sheet, CropEntry (*pinned)(const std::string&)) {
  for (Date day = make_date(2027, 3, 1); day < make_date(2027, 11, 1); day += Days{1}) {
    const CropEntry entry = pinned(iso(day));
    const auto refusal = ask(lowland(), sheet, entry).reports.at(0).refusal;
    if (refusal && refusal->rule == rule) return entry;
  }
  return {};
}

std::vector<Told> all_told() {
  const Place here = lowland();
  const Sheet autumn = only(cornflower(), 0), spring = only(cornflower(), 1);
  const Sheet modules = only(cornflower(), 2);
  const Sheet in_place = only(zinnia(), 1);
  const Sheet rosette = only(sweet_william(), 1);
  // In flower in its pot before the heat that pauses it, and cut after that.
  const Sheet stays_long = with(modules, [](Sheet& sheet) {
    sheet.ways[0].weeks_under_cover = Range{20, 20};
    sheet.stop_above_max_c = 17;
    sheet.when_hot = WhenHot::Pauses;
  });
  const Sheet in_frame = with(modules, [](Sheet& sheet) { sheet.ways[0].needs = Needs::Frame; });
  const Sheet cool_soil = with(spring, [](Sheet& sheet) { sheet.germination_max_soil_c = 8; });
  const Sheet no_heat = with(spring, [](Sheet& sheet) { sheet.stop_above_max_c = 12; });
  const Sheet small_pot = with(modules, [](Sheet& sheet) { sheet.pot = PotLimits{50, 100}; });
  const Sheet one_summer = with(rosette, [](Sheet& sheet) { sheet.lives_to_mean_max_c = 15; });
  return {
      {Rule::FrostRisk, here, only(zinnia(), 0), planted("2027-04-20")},
      {Rule::FrostRisk, here, in_place, sown("2027-04-10")},
      {Rule::FrostRisk, here, snapdragon(), sown("2027-02-01")},
      {Rule::ColdSoil, upland(), in_place, by_way(in_place)},
      {Rule::WarmSoil, here, cool_soil, sown("2027-05-20")},
      {Rule::WarmSoil, hot_summer(), modules, planted("2027-07-18")},
      {Rule::EnoughCold, here, chilled(20, true), by_way(chilled(20, true))},
      {Rule::WinterCold, cold_winter(-30), autumn, by_way(autumn)},
      {Rule::WinterCold, cold_winter(-30), autumn, sown("2026-09-20")},
      {Rule::SummerHeat, here, one_summer, sown("2026-06-10")},
      {Rule::PotTooOld, here, small_pot, planted("2027-06-05")},
      {Rule::RosetteTooSmall, here, rosette, sown("2026-09-20")},
      {Rule::FlowersInPot, here, stays_long,
       first_answered(Rule::FlowersInPot, stays_long, planted)},
      {Rule::NoFlower, here, chilled(400, false), by_way(tulip())},
      {Rule::NoFlower, here, in_place, sown("2027-10-01")},
      {Rule::TooHot, here, no_heat, sown("2027-03-20")},
      {Rule::SeasonTooShort, here, spring, first_answered(Rule::SeasonTooShort, spring, sown)},
      {Rule::NoShelter, here, in_frame, by_way(in_frame)},
  };
}

// The past, what the plan has not asked for, pins against each other, and another year's flowers.
constexpr Rule kErrors[] = {Rule::AfterWish, Rule::TooLate, Rule::NotUsual, Rule::Pinned,
                            Rule::FlowersBeforeWinter};

TEST(Pinned, IsChosenWhateverRuleItBreaksAndToldIt) {
  std::map<Rule, int> walked;
  for (const Told& row : all_told()) {
    SCOPED_TRACE(static_cast<int>(row.rule));
    ++walked[row.rule];
    const Shelter shelter = row.rule == Rule::NoShelter ? Shelter{.given = true} : everything();
    const Candidates found = ask(row.place, row.sheet, row.entry, shelter);
    ASSERT_FALSE(found.list.empty());
    for (const Candidate& c : found.list) {
      ASSERT_TRUE(c.against);
      EXPECT_EQ(c.against->rule, row.rule);
      EXPECT_LE(c.in_ground, c.timeline.first_cut.likely + Days{366});
      EXPECT_LE(c.lift_from, c.lift_to);
      EXPECT_TRUE(row.rule != Rule::NoFlower || c.without_flower);
    }
    // The rules' own answer is kept beside it, and is the only one without the pin.
    ASSERT_EQ(found.reports.size(), 1u);
    EXPECT_EQ(found.reports.front().allowed, 0);
    ASSERT_TRUE(found.reports.front().refusal);
    EXPECT_EQ(found.reports.front().refusal->rule, row.rule);
  }
  for (const Rule rule : kErrors) ++walked[rule];
  for (int rule = 0; rule <= static_cast<int>(Rule::Pinned); ++rule) {
    EXPECT_EQ(walked.count(static_cast<Rule>(rule)), 1u) << rule;
  }
}

// The next calendar says the same of it.
TEST(Pinned, IsHadAgainOnceItHasBegun) {
  for (const Told& row : all_told()) {
    SCOPED_TRACE(static_cast<int>(row.rule));
    const Shelter shelter = row.rule == Rule::NoShelter ? Shelter{.given = true} : everything();
    const Candidates told = ask(row.place, row.sheet, row.entry, shelter);
    ASSERT_FALSE(told.list.empty());
    const Candidate& one = told.list.front();
    const Candidates again =
        ask(row.place, row.sheet, row.entry, shelter, {}, {begun_as_told(one)});
    const auto same = std::ranges::find_if(again.list, [&](const Candidate& c) {
      return c.start == one.start && c.in_ground == one.in_ground && c.group == one.group;
    });
    ASSERT_NE(same, again.list.end());
    EXPECT_EQ(same->without_flower, one.without_flower);
    EXPECT_EQ(same->timeline.first_cut.likely, one.timeline.first_cut.likely);
  }
}

// What would flower in the year before the plan's, or begin after its end, is no planting of it.
TEST(Pinned, AnotherYearsFlowersAreNotThePlans) {
  const Sheet autumn = only(cornflower(), 0), spring = only(cornflower(), 1);
  const Candidates before = ask(lowland(), autumn, sown("2026-06-01"));
  EXPECT_TRUE(before.list.empty());
  EXPECT_EQ(before.reports.front().refusal->rule, Rule::FlowersBeforeWinter);
  EXPECT_TRUE(ask(lowland(), spring, sown("2028-03-20")).list.empty());
}

// Where one of its days keeps the rules, a pinned way breaks none.
TEST(Pinned, AWayThatCanKeepTheRulesDoes) {
  const Sheet in_place = only(zinnia(), 1);
  const Candidates pinned = ask(lowland(), in_place, by_way(in_place));
  ASSERT_FALSE(pinned.list.empty());
  for (const Candidate& c : pinned.list) EXPECT_FALSE(c.against);
  EXPECT_EQ(pinned.list.size(), ask(lowland(), in_place, {}).list.size());
}

// Sown on 1 February and set out after eleven weeks at the most: the last of them is the nearest to
// the day that is safe.
TEST(Pinned, OfWhatBreaksARuleTheNearestIsChosen) {
  const Candidates found = ask(lowland(), snapdragon(), sown("2027-02-01"));
  ASSERT_EQ(found.list.size(), 1u);
  EXPECT_EQ(iso(found.list.front().in_ground), "2027-04-19");
}

// Last frost 15 May, thirteen days either way: out on 15 May, frost comes after it in half of all
// springs; a deviation before, in 84 of 100 (any table of the normal curve).
TEST(Pinned, IsToldTheShareOfSpringsWithFrostAfterIt) {
  for (const auto& [day, share] : {std::pair{"2027-05-15", 0.5}, {"2027-05-02", 0.841}}) {
    const Candidates found = ask(lowland(), only(zinnia(), 0), planted(day));
    ASSERT_FALSE(found.list.empty());
    EXPECT_NEAR(found.list.front().against.value().share, share, 0.001);
  }
}

// -10.5 degC against a crop of which half live at -10, without a cover: 43 in 100. Nobody plants it
// by choice; who names the way gets it, and nothing against it but the losses that are told anyway.
TEST(Pinned, AWayInWhichFewerThanHalfLiveIsChosenOnlyWhenNamed) {
  const Sheet autumn = with(only(cornflower(), 0), [](Sheet& sheet) {
    sheet.survives_c = -6;
    sheet.mulch_gain_c = 0;
  });
  for (const auto& [coldest_c, alive] : {std::pair{-9.5, 0.566}, {-10.5, 0.434}}) {
    const Place place = cold_winter(coldest_c);
    const Candidates named = ask(place, autumn, by_way(autumn));
    ASSERT_FALSE(named.list.empty());
    EXPECT_NEAR(named.list.front().alive, alive, 0.001);
    EXPECT_FALSE(named.list.front().against);
    const Candidates free = ask(place, autumn, {});
    EXPECT_EQ(free.list.empty(), alive < 0.5);
    if (!free.list.empty()) continue;
    const Refusal refusal = free.reports.front().refusal.value();
    EXPECT_EQ(refusal.rule, Rule::WinterCold);
    EXPECT_NEAR(refusal.share, alive, 0.001);
    EXPECT_NEAR(refusal.wanted, -10, 0.01);
  }
}

// Nothing is begun in the past; what is sown in place has one day.
TEST(Pinned, WhatCannotBeStaysRefused) {
  const Sheet spring = only(cornflower(), 1);
  const Date first = make_date(2027, 3, 1);
  const Candidates past = ask(lowland(), spring, sown("2027-02-10"), everything(), first);
  EXPECT_TRUE(past.list.empty());
  EXPECT_EQ(past.reports.front().refusal.value().rule, Rule::TooLate);
  CropEntry two = sown("2027-03-13");
  two.pins.plant_on = make_date(2027, 3, 20);
  const Candidates apart = ask(lowland(), spring, two);
  EXPECT_TRUE(apart.list.empty());
  EXPECT_EQ(apart.reports.front().refusal.value().rule, Rule::Pinned);
}

}  // namespace
}  // namespace trug::ground
