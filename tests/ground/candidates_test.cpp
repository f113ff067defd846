// SPDX-License-Identifier: MIT
#include "ground/candidates.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>
#include <tuple>
#include <variant>

#include "climate/soil.h"
#include "ground/made_up_garden.h"
#include "growth/forecaster.h"
#include "growth/summer.h"

namespace trug::ground {
namespace {

// The sheet with one of its ways only.
Sheet only(Sheet sheet, std::size_t way) {
  sheet.ways = {sheet.ways.at(way)};
  return sheet;
}

CropEntry started(Date day) {
  CropEntry entry;
  entry.pins.start_on = day;
  return entry;
}

CropEntry planted(Date day) {
  CropEntry entry;
  entry.pins.plant_on = day;
  return entry;
}

// The refusal of the sheet's only way, of which nothing is allowed; what is pinned stands all the
// same, and is told.
Refusal refusal_of(const Candidates& found) {
  for (const Candidate& c : found.list) EXPECT_TRUE(c.against);
  EXPECT_EQ(found.reports.size(), 1u);
  EXPECT_EQ(found.reports.at(0).allowed, 0);
  EXPECT_TRUE(found.reports.at(0).refusal);
  return found.reports.at(0).refusal.value_or(Refusal{});
}

void expect_days(const Refusal& refusal, Rule rule, const std::string& found,
                 const std::string& wanted) {
  EXPECT_EQ(refusal.rule, rule);
  ASSERT_TRUE(refusal.found_day && refusal.wanted_day);
  EXPECT_EQ(iso(*refusal.found_day), found);
  EXPECT_EQ(iso(*refusal.wanted_day), wanted);
}

std::set<Date> days_in_ground(const Candidates& found) {
  std::set<Date> days;
  for (const Candidate& c : found.list) days.insert(c.in_ground);
  return days;
}

Sheet tuber() {
  Sheet sheet =
      crop("tuber", LifeCycle::Tuber, -1, Habit::CutAndComeAgain, {8, 8}, {10, 10}, {50, 50});
  sheet.ways = {sown_in_place("tubers", after_last(-4, 4))};
  sheet.ways[0].method = Method::Bulb;
  sheet.ways[0].first_flower = after_last(10, 12);
  return sheet;
}

struct FrostRow {
  std::string name;
  Sheet sheet;
  double risk;
  std::string planted, exposed, safe;  // the last day refused
};

// Last frost 15 May, spread 13 days. Quantiles of the normal distribution from printed tables:
// z(0.8) = 0.8416, so 10.9 days and 26 May; z(0.9) = 1.2816, so 16.7 days and 1 June; z(0.5) = 0.
// Half-hardy 30 days before that.
TEST(Candidates, FrostRiskLeavesTheAcceptedRisk) {
  const std::vector<FrostRow> rows = {
      {"tender, set out", only(zinnia(), 0), 0.2, "2027-05-25", "2027-05-25", "2027-05-26"},
      {"one year in ten", only(zinnia(), 0), 0.1, "2027-05-31", "2027-05-31", "2027-06-01"},
      {"one year in two", only(zinnia(), 0), 0.5, "2027-05-14", "2027-05-14", "2027-05-15"},
      // Up eight days after sowing, the middle of 6 to 10.
      {"tender, sown in place", only(zinnia(), 1), 0.2, "2027-05-17", "2027-05-25", "2027-05-26"},
      {"tubers, up in 21 days", tuber(), 0.2, "2027-05-04", "2027-05-25", "2027-05-26"},
      {"half-hardy", snapdragon(), 0.2, "2027-04-25", "2027-04-25", "2027-04-26"},
  };
  for (const FrostRow& row : rows) {
    SCOPED_TRACE(row.name);
    Garden garden;
    garden.place.risk = row.risk;
    const Date day = *parse_iso(row.planted);
    expect_days(refusal_of(garden.ask(row.sheet, planted(day))), Rule::FrostRisk, row.exposed,
                row.safe);
    EXPECT_FALSE(garden.ask(row.sheet, planted(day + Days{1})).list.empty());
  }
  EXPECT_FALSE(Garden{}.ask(only(cornflower(), 1), planted(make_date(2027, 3, 20))).list.empty());
}

// The soil at 52.5 N holds 15 degC from about 11 June, 10 from about 22 April and 7 from about 16
// March (straight lines through tests/climate's reference values, two days); a week before that is
// as good a guess.
TEST(Candidates, SpringSowingsOutdoorsWaitForWarmSoil) {
  const auto first = [](Sheet sheet, std::size_t way) {
    return *days_in_ground(Garden{}.ask(only(std::move(sheet), way))).begin();
  };
  EXPECT_NEAR(days_between(make_date(2027, 6, 4), first(zinnia(), 1)), 0, 2);
  EXPECT_EQ(iso(first(zinnia(), 0)), "2027-05-27") << "raised in warmth: the air decides";
  Sheet half_hardy = only(cornflower(), 1);
  half_hardy.survives_c = -4;
  EXPECT_EQ(iso(first(half_hardy, 0)), "2027-04-26") << "the frost decides";
  EXPECT_EQ(iso(first(cornflower(), 1)), "2027-03-20") << "hardy: its window";
  EXPECT_EQ(iso(first(cornflower(), 0)), "2026-08-27") << "in autumn: its window";

  const Refusal refusal = [] {
    Garden cool;
    auto& means = std::get<MonthlyMeans>(cool.place.temperatures).mean_c;
    for (double& mean : means) mean = std::min(mean, 13.5);
    return refusal_of(cool.ask(only(zinnia(), 1)));
  }();
  EXPECT_EQ(refusal.rule, Rule::ColdSoil);
  EXPECT_FALSE(refusal.wanted_day) << "the soil never holds 15 degC";
  EXPECT_EQ(refusal.wanted, 15);
}

// Inland in the south (memory): hardy annuals are begun before the soil averages 23 degC or after,
// however late their window lets them; tender ones like it.
TEST(Candidates, HardyAnnualsAreNotPutIntoASummerThatKillsThem) {
  Garden hot;
  hot.place.latitude = 34;
  std::get<MonthlyMeans>(hot.place.temperatures).mean_c = {6.8,  8.8,  12.6, 16.8, 21.2, 25.1,
                                                           26.9, 26.4, 23.3, 17.5, 12.0, 8.2};
  const auto climate = climate::Climate::from(hot.place);
  const auto hottest_soil = [&](const Sheet& sheet) {
    double most = 0;
    for (const Date day : days_in_ground(hot.ask(sheet))) {
      most = std::max(most, climate::soil_c(climate, day));
    }
    return most;
  };
  Sheet sown = only(cornflower(), 1);
  EXPECT_GT(hottest_soil(sown), 20);
  EXPECT_LE(hottest_soil(sown), 23);
  EXPECT_FALSE(hot.ask(only(cornflower(), 0)).list.empty()) << "in autumn";
  sown.life_cycle = LifeCycle::HalfHardyAnnual;
  EXPECT_GT(hottest_soil(sown), 25) << "not of every crop";
  EXPECT_GT(hottest_soil(zinnia()), 25);
}

// In the highlands (memory: 3 degC in November and December) seed sown in a frame in late November
// lies there until spring; in October it comes up.
TEST(Candidates, NothingIsSownInAFrameThatIsTooColdToComeUpIn) {
  Garden upland;
  std::get<MonthlyMeans>(upland.place.temperatures).mean_c = {1,  1,  3,  6, 9, 12,
                                                              14, 13, 11, 8, 3, 2};
  Sheet sheet = only(cornflower(), 1);
  sheet.ways[0].raised = Raised::Frame;
  sheet.ways[0].weeks_under_cover = Range{16, 30};
  int in_autumn = 0;
  for (const Candidate& c : upland.ask(sheet).list) {
    EXPECT_TRUE(c.start < make_date(2026, 11, 20) || c.start >= make_date(2027, 1, 1))
        << iso(c.start);
    in_autumn += c.start < make_date(2026, 11, 20) ? 1 : 0;
  }
  EXPECT_GT(in_autumn, 20);
  CropEntry pinned;
  pinned.pins.start_on = make_date(2026, 12, 5);
  EXPECT_FALSE(upland.ask(sheet, pinned).list.empty()) << "a pin beats it";
}

TEST(Candidates, APinBeatsColdSoilAndIsMarked) {
  for (const auto& [day, cold] :
       {std::pair{make_date(2027, 5, 20), true}, std::pair{make_date(2027, 6, 12), false}}) {
    for (const CropEntry& entry : {planted(day), started(day)}) {
      const Candidates found = Garden{}.ask(only(zinnia(), 1), entry);
      ASSERT_EQ(found.list.size(), 1u);
      EXPECT_EQ(found.list[0].cold_soil, cold);
    }
  }
  Garden unknown;
  unknown.place.temperatures = NoTemperatures{};
  Sheet sheet = only(zinnia(), 1);
  sheet.ways[0].first_flower = after_last(9, 12);
  const Candidates found = unknown.ask(sheet);
  EXPECT_EQ(iso(*days_in_ground(found).begin()), "2027-05-22") << "its window: no soil is known";
  EXPECT_FALSE(found.list[0].cold_soil);
}

// Hardy seed lies and waits: it may be sown on cold soil, and is told apart.
TEST(Candidates, HardySeedMayLieInColdSoil) {
  Sheet sheet = only(cornflower(), 1);
  sheet.ways[0].window = after_last(-14, -4);  // from 6 February
  int cold = 0;
  for (const Candidate& c : Garden{}.ask(sheet).list) {
    if (!c.cold_soil) continue;
    ++cold;
    EXPECT_LT(c.start, make_date(2027, 3, 12));
  }
  EXPECT_GT(cold, 20);
}

// Of autumn's bulbs 15 October and eight weeks are 10 December, three weeks more; of spring's 15
// May, four weeks more.
TEST(Candidates, WhatFlowersNextYearMayBeLateByThreeWeeksAndBulbsOfSpringByFour) {
  const auto days = days_in_ground(Garden{}.ask(tulip()));
  EXPECT_EQ(iso(*days.begin()), "2026-10-29");
  EXPECT_EQ(iso(*days.rbegin()), "2026-12-31");
  for (const Sheet& sheet : {sweet_william(), foxglove()}) {
    for (const Candidate& c : Garden{}.ask(sheet).list) EXPECT_LE(c.days_late(), 21) << sheet.name;
  }
  Sheet spring = tulip();
  spring.ways[0].flowers = FlowersIn::SameYear;
  spring.ways[0].window = after_last(-4, 0);
  spring.ways[0].first_flower = after_last(10, 12);
  EXPECT_EQ(iso(*days_in_ground(Garden{}.ask(spring)).rbegin()), "2027-06-12");
}

// Above 10 degC in the coldest month bulbs are not chilled in the ground (common practice).
TEST(Candidates, BulbsNeedTheColdOfARefrigeratorInMildWinters) {
  for (const auto& [coldest, mild] : {std::pair{9.9, false}, std::pair{10.5, true}}) {
    Garden garden;
    garden.place.temperatures =
        MonthlyMeans{{coldest, 10.6, 11, 12, 14, 16, 18, 18, 17, 15, 12, 10.6}, std::nullopt};
    Sheet sheet = tulip();
    sheet.ways[0].first_flower = after_last(0, 2);
    const Candidates found = garden.ask(sheet);
    ASSERT_FALSE(found.list.empty());
    for (const Candidate& c : found.list) EXPECT_EQ(c.needs_cold_store, mild);
    EXPECT_FALSE(garden.ask(tuber()).list.front().needs_cold_store);
  }
  Sheet stored = tulip();
  EXPECT_EQ(cold_store_days(stored), (Range{56, 84}));
  stored.pretreat = Pretreatment{Pretreatment::Kind::ColdStore, {40, 50}, "", true};
  EXPECT_EQ(cold_store_days(stored), (Range{40, 50}));
}

TEST(Candidates, NoFlowerSaysHowMuchColdIsMissing) {
  Garden garden;
  std::get<MonthlyMeans>(garden.place.temperatures).mean_c.fill(20);
  const Refusal refusal = refusal_of(garden.ask(only(sweet_william(), 1)));
  EXPECT_EQ(refusal.rule, Rule::NoFlower);
  EXPECT_TRUE(refusal.chilling);
  EXPECT_EQ(refusal.found, 0);
  EXPECT_EQ(refusal.wanted, 50);
}

// A perennial that goes by windows, bought and set out in spring, is not cut within six weeks.
TEST(Candidates, NewPerennialsSettleFirst) {
  Sheet sheet = crop("daisy", LifeCycle::Perennial, -20, Habit::Limited, {4, 4}, {6, 6}, {40, 40});
  sheet.ways = {sown_in_place("bought", after_last(-6, 6))};
  sheet.ways[0].method = Method::BoughtPlants;
  sheet.ways[0].first_flower = after_last(5, 7);
  const Candidates found = Garden{}.ask(sheet);
  ASSERT_FALSE(found.list.empty());
  for (const Candidate& c : found.list) {
    EXPECT_GE(days_between(c.in_ground, c.timeline.first_cut.likely), kSettleDays);
  }
}

struct WinterRow {
  std::string name;
  Raised raised;
  double survives_c, mulch_c;
  double alive;  // under 0.15: refused
  double found_c, wanted_c;
  bool under_fleece;
};

// The coldest night is -12 degC; a frame keeps 4 degC above it (memory). Shares by any table of the
// normal curve: 0.909 at 4/3 deviations, 0.747 at 2/3, 0.5 at none.
TEST(Candidates, WinterColdIsOfTheStandingPlace) {
  const std::vector<WinterRow> rows = {
      {"survives it", Raised::InPlace, -12, 0, 0.909, 0, 0, false},
      {"two degrees short", Raised::InPlace, -10, 0, 0.748, 0, 0, false},
      {"covered", Raised::InPlace, -10, 2, 0.909, 0, 0, true},
      {"half of it, covered", Raised::InPlace, -5, 3, 0.5, 0, 0, true},
      {"too cold for a cover", Raised::InPlace, -1.5, 3, 0.12, -12, -11.6, true},
      {"in a frame", Raised::Frame, -8, 3, 0.909, 0, 0, false},
      {"too cold for a frame", Raised::Frame, 0, 3, 0.09, -8, -7.1, false},
      {"a nursery bed is in the open", Raised::NurseryBed, -10, 0, 0.748, 0, 0, false},
      {"in warmth", Raised::Heated, -5.5, 0, 1, 0, 0, false},
  };
  for (const WinterRow& row : rows) {
    SCOPED_TRACE(row.name);
    Sheet sheet = cornflower();
    sheet.frost_class = FrostClass::Hardy;
    sheet.survives_c = row.survives_c;
    sheet.mulch_gain_c = row.mulch_c;
    CropEntry entry = planted(make_date(2027, 3, 20));
    if (row.raised == Raised::InPlace) {
      sheet.ways = {sown_in_place("in place", after_first(-7, -2), FlowersIn::NextYear)};
      entry = started(make_date(2026, 9, 20));
    } else {
      sheet.ways = {raised("raised", row.raised, {24, 24}, after_last(-9, -5))};
    }
    Garden garden;
    garden.place.coldest_c = -12;
    const Candidates found = garden.ask(sheet, entry);
    ASSERT_FALSE(found.list.empty());
    EXPECT_NEAR(found.list[0].alive, row.alive, 0.01);
    EXPECT_NEAR(found.list[0].stem_factor, std::min(1.0, row.alive / 0.85), 0.01);
    EXPECT_EQ(found.list[0].under_fleece, row.under_fleece);
    if (row.alive < 0.15) {
      EXPECT_TRUE(garden.ask(sheet).list.empty()) << "no other day is warmer";
      // What is pinned keeps its place, and says so.
      ASSERT_TRUE(found.list[0].against);
      const Refusal& refusal = *found.list[0].against;
      EXPECT_EQ(refusal.rule, Rule::WinterCold);
      EXPECT_EQ(refusal.found, row.found_c);
      EXPECT_NEAR(refusal.wanted, row.wanted_c, 0.05);
    } else {
      EXPECT_FALSE(found.list[0].against);
    }
    garden.place.coldest_c.reset();
    EXPECT_FALSE(garden.ask(sheet, entry).list.empty()) << "not judged where it is not known";
  }
}

TEST(Candidates, TenderPlantsNeverStandTheWinter) {
  Sheet annual = cornflower();
  annual.survives_c = -1;
  annual.ways = {sown_in_place("in autumn", after_first(-7, -2), FlowersIn::NextYear)};
  EXPECT_EQ(refusal_of(Garden{}.ask(annual)).rule, Rule::FrostRisk);
  annual.survives_c = -4;  // half-hardy: the winter's cold decides
  EXPECT_FALSE(Garden{}.ask(annual).list.empty());
  Sheet shrub = peony();
  shrub.survives_c = 0;
  Garden garden;
  garden.place.coldest_c = -14;
  const Candidates stands = garden.ask(shrub);  // there it stands
  ASSERT_FALSE(stands.list.empty());
  // Half of them live four degrees below what they survive, 15 in 100 at 7.1.
  for (const auto& [refusal, wanted] : {std::pair{refusal_of(garden.ask(annual)), -8.0},
                                        std::pair{stands.list[0].against.value(), -7.1}}) {
    EXPECT_EQ(refusal.rule, Rule::WinterCold);
    EXPECT_EQ(refusal.found, -14);
    EXPECT_NEAR(refusal.wanted, wanted, 0.05);
  }
}

TEST(Candidates, SownTooEarlyFlowersBeforeTheWinter) {
  const Date sown = make_date(2026, 6, 1);
  const Sheet sheet = only(cornflower(), 0);
  const auto climate = climate::Climate::from(lowland());
  const auto flower =
      growth::Forecaster(climate, *sheet.growth, {make_date(2026, 1, 1), make_date(2028, 1, 1)})
          .forecast({.start = sown, .in_ground = sown})
          .first_flower;
  ASSERT_TRUE(flower);
  ASSERT_EQ(year_of(*flower), 2026);
  expect_days(refusal_of(Garden{}.ask(sheet, started(sown))), Rule::FlowersBeforeWinter,
              iso(*flower), "2027-01-01");
}

// The share of the rosette's heat there is by the first ten-hour day, 26 October at 52.5 N.
TEST(Candidates, ARosetteIsJudgedOnTheFirstTenHourDay) {
  const Sheet sheet = only(sweet_william(), 1);
  const auto climate = climate::Climate::from(lowland());
  const growth::Forecaster forecaster(climate, *sheet.growth,
                                      {make_date(2026, 1, 1), make_date(2028, 1, 1)});
  const Date judged = climate.short_days_before(2027)->from;
  EXPECT_NEAR(days_between(make_date(2026, 10, 26), judged), 0, 1);
  int small = 0, whole = 0, refused = 0;
  for (Date sown = make_date(2026, 6, 10); sown < make_date(2026, 9, 20); sown += Days{1}) {
    SCOPED_TRACE(iso(sown));
    const double share =
        forecaster.forecast({.start = sown, .in_ground = sown, .look_on = judged}).respond_share;
    const Candidates found = Garden{}.ask(sheet, started(sown));
    if (found.reports.at(0).allowed == 0) {
      const Refusal refusal = refusal_of(found);
      if (refusal.rule != Rule::RosetteTooSmall) continue;
      EXPECT_LT(share, 0.5);
      EXPECT_NEAR(refusal.found, share, 1e-9);
      EXPECT_EQ(refusal.wanted, 0.5);
      ++refused;
      continue;
    }
    EXPECT_GE(share, 0.5);
    EXPECT_EQ(found.list[0].small_rosette, share < 0.995);
    EXPECT_EQ(found.list[0].stem_factor, found.list[0].small_rosette ? 0.5 : 1.0);
    ++(found.list[0].small_rosette ? small : whole);
  }
  EXPECT_GT(refused, 0);
  EXPECT_GT(small, 0);
  EXPECT_GT(whole, 0);
}

TEST(Candidates, WithoutAFlowerInItsYearNothingIsAllowed) {
  EXPECT_EQ(refusal_of(Garden{}.ask(only(zinnia(), 1), started(make_date(2027, 9, 15)))).rule,
            Rule::NoFlower);
  // Bulbs put in after they should have flowered, in April.
  EXPECT_EQ(refusal_of(Garden{}.ask(tulip(), planted(make_date(2027, 6, 1)))).rule, Rule::NoFlower);
}

// Flowers so many weeks after 15 May, sown on the only day of its window.
Sheet late_crop(Habit habit, double cutting_weeks, double flowers_after) {
  Sheet sheet = crop("late", LifeCycle::TenderAnnual, -1, habit, {cutting_weeks, cutting_weeks},
                     {10, 10}, {30, 30});
  sheet.ways = {sown_in_place("in place", after_last(4, 4))};
  sheet.ways[0].first_flower = after_last(flowers_after, flowers_after);
  return sheet;
}

struct SeasonRow {
  std::string name;
  Sheet sheet;
  std::string first_cut;  // empty: allowed
  double wanted;
};

// Tender: the season ends on 15 October, and windows are good to three weeks, so that a deviation
// is 16 days. A first flower on 15 October is as likely before it as after; what is first cut six
// days before it has 7 and 0.24 x 16 days more to expect, for it may be early, too. Three weeks of
// cutting or more at most; two weeks and one are as much of a shorter flowering.
TEST(Candidates, TheSeasonMustLeaveAWeekToCut) {
  const auto again = Habit::CutAndComeAgain;
  const std::vector<SeasonRow> rows = {
      {"first cut 25 September", late_crop(again, 8, 18), "", 0},
      {"9 October", late_crop(again, 8, 20), "", 0},
      {"16 October, after the season", late_crop(again, 8, 21), "2027-10-16", 7},
      {"flower after the season", late_crop(again, 8, 22), "2027-10-23", 7},
      {"a short flowering", late_crop(Habit::Limited, 1, 20), "", 0},
      {"one stem", late_crop(Habit::Single, 1, 21), "", 0},
      {"one stem, after the season", late_crop(Habit::Single, 1, 22), "2027-10-16", 4},
  };
  for (const SeasonRow& row : rows) {
    SCOPED_TRACE(row.name);
    const Candidates found = Garden{}.ask(row.sheet);
    const Candidates pinned = Garden{}.ask(row.sheet, started(make_date(2027, 6, 12)));
    ASSERT_EQ(pinned.list.size(), 1u) << "what is pinned keeps its place";
    if (row.first_cut.empty()) {
      EXPECT_FALSE(found.list.empty());
      EXPECT_FALSE(pinned.list[0].against);
      continue;
    }
    ASSERT_TRUE(pinned.list[0].against);
    const Refusal refusal = *pinned.list[0].against;
    EXPECT_EQ(refusal.rule, Rule::SeasonTooShort);
    EXPECT_EQ(iso(refusal.found_day.value()), row.first_cut);
    EXPECT_LT(refusal.wanted_day.value(), refusal.found_day.value());
    EXPECT_LT(refusal.found, refusal.wanted);
    EXPECT_EQ(refusal.wanted, row.wanted);
    EXPECT_EQ(pinned.list[0].timeline.shares, std::vector<double>{0});
  }
}

// Warm soil keeps the seed from growing: 18 degC, which lowland England's has about midsummer. The
// gardener's day stands against it.
TEST(Candidates, SeedIsNotSownInSoilTooWarmForIt) {
  Sheet sheet = only(cornflower(), 1);
  sheet.germination_max_soil_c = 14;
  const auto climate = climate::Climate::from(lowland());
  int allowed = 0;
  for (const Candidate& c : Garden{}.ask(sheet).list) {
    EXPECT_LE(growth::soil_after_sowing_c(climate, Raised::InPlace, c.start), 14) << iso(c.start);
    ++allowed;
  }
  EXPECT_GT(allowed, 0);
  const Candidates pinned = Garden{}.ask(sheet, started(make_date(2027, 7, 1)));
  ASSERT_EQ(pinned.list.size(), 1u);
  ASSERT_TRUE(pinned.list[0].against);
  EXPECT_EQ(pinned.list[0].against->rule, Rule::WarmSoil);
  EXPECT_GT(pinned.list[0].against->found, 14);
  EXPECT_EQ(pinned.list[0].against->wanted, 14);
}

// Sown in autumn up to two weeks before 15 October and three weeks on: 22 October at the latest.
TEST(Candidates, TooLateNamesTheLatestStart) {
  Garden garden;
  garden.first_day = make_date(2027, 1, 1);
  const Sheet sheet = only(cornflower(), 0);
  expect_days(refusal_of(garden.ask(sheet)), Rule::TooLate, "2026-10-22", "2027-01-01");
  CropEntry entry;
  entry.pins.not_before = make_date(2027, 2, 1);
  expect_days(refusal_of(Garden{}.ask(sheet, entry)), Rule::Pinned, "2026-10-22", "2027-02-01");
  garden.first_day = make_date(2026, 10, 1);
  EXPECT_EQ(*days_in_ground(garden.ask(sheet)).begin(), make_date(2026, 10, 1));
}

TEST(Candidates, APinnedWayIsTheOnlyOne) {
  CropEntry entry;
  entry.pins.way = "in spring";
  const Candidates found = Garden{}.ask(cornflower(), entry);
  ASSERT_EQ(found.reports.size(), 3u);
  for (const WayReport& report : found.reports) {
    if (report.way == 1) {
      EXPECT_EQ(report.allowed, static_cast<int>(found.list.size()));
      EXPECT_GT(report.allowed, 0);
    } else {
      EXPECT_EQ(report.allowed, 0);
      EXPECT_EQ(report.refusal->rule, Rule::Pinned);
    }
  }
  for (const Candidate& c : found.list) EXPECT_EQ(c.way, 1u);
}

// In flower so soon that every start of its window and of ten weeks more is worth growing.
Sheet quick() {
  Sheet sheet =
      crop("quick", LifeCycle::HardyAnnual, -15, Habit::Limited, {3, 3}, {5, 5}, {20, 20});
  sheet.growth = Growth{4, 24, 60, 140, {}, std::nullopt};
  sheet.ways = {sown_in_place("in place", after_last(-4, 0))};
  return sheet;
}

TEST(Candidates, WindowsMayBeLateByTenWeeksAndNeverEarly) {
  const Candidates found = Garden{}.ask(quick());
  // 17 April to 15 May; 70 days on, 24 July. Every day of them.
  const auto days = days_in_ground(found);
  EXPECT_EQ(iso(*days.begin()), "2027-04-17");
  EXPECT_EQ(iso(*days.rbegin()), "2027-07-24");
  EXPECT_EQ(days.size(), 99u);
  EXPECT_EQ(found.list.size(), 99u);
  for (const Candidate& c : found.list) {
    SCOPED_TRACE(iso(c.in_ground));
    EXPECT_EQ(iso(c.window.from), "2027-04-17");
    EXPECT_EQ(iso(c.window.until), "2027-05-16");
    EXPECT_EQ(c.days_late(), std::max(0, days_between(make_date(2027, 5, 15), c.in_ground)));
    EXPECT_EQ(c.days_early(), 0);
  }
}

// Plants from a frame over the winter, three weeks: later than that it is another way.
TEST(Candidates, WinteredPlantsMayBeLateByThreeWeeks) {
  Sheet sheet = quick();
  sheet.oldest_pot_weeks = 1;  // no flower in the pot
  for (const auto& [weeks, last] : {std::pair{13.0, "2027-06-05"}, std::pair{12.0, "2027-07-24"}}) {
    sheet.ways = {raised("frame", Raised::Frame, {weeks, weeks}, after_last(-4, 0))};
    const auto days = days_in_ground(Garden{}.ask(sheet));
    EXPECT_EQ(iso(*days.begin()), "2027-04-17") << weeks;
    EXPECT_EQ(iso(*days.rbegin()), last) << weeks;
  }
}

TEST(Candidates, RaisedPlantsAreSownSoManyWeeksBefore) {
  const Candidates found = Garden{}.ask(snapdragon());
  std::set<int> ages;
  for (const Candidate& c : found.list) {
    EXPECT_GE(c.in_ground, make_date(2027, 5, 1));   // two weeks before 15 May
    EXPECT_LE(c.in_ground, make_date(2027, 8, 14));  // three weeks after it, and ten more
    ages.insert(days_between(c.start, c.in_ground));
  }
  EXPECT_EQ(ages, (std::set<int>{56, 63}));
}

TEST(Candidates, JobsFallOnTheGardenersDays) {
  for (const auto& days : {std::vector{std::chrono::Saturday},
                           std::vector{std::chrono::Wednesday, std::chrono::Sunday}}) {
    Garden garden;
    garden.work.days = days;
    for (const Sheet& sheet : {cornflower(), snapdragon(), tulip()}) {
      const Candidates found = garden.ask(sheet);
      ASSERT_FALSE(found.list.empty());
      for (const Candidate& c : found.list) {
        for (const Date day : {c.start, c.in_ground}) {
          EXPECT_TRUE(std::ranges::find(days, std::chrono::weekday{day}) != days.end())
              << sheet.name << " " << iso(day);
        }
      }
    }
  }
}

struct PinRow {
  std::string name;
  Sheet sheet;
  std::string start, plant;  // pinned; empty: not
  std::string first_in_ground, last_in_ground;
};

// The gardener has Saturdays only; every pin below is another day of the week.
TEST(Candidates, PinsBeatWindowsAndWorkDays) {
  const std::vector<PinRow> rows = {
      {"sown before the window", only(cornflower(), 1), "2027-02-10", "", "2027-02-10",
       "2027-02-10"},
      {"planted before the window", only(cornflower(), 2), "", "2027-04-14", "2027-04-14",
       "2027-04-14"},
      {"planted long after it", tulip(), "", "2027-02-17", "2027-02-17", "2027-02-17"},
      // Two to eight weeks on, 31 March to 12 May: no day of the window (29 May on) is among them,
      // so Saturdays before it.
      {"raised before the window", only(cornflower(), 2), "2027-03-17", "", "2027-04-10",
       "2027-05-08"},
      // Two to eight weeks on, 12 May to 23 June: those in the window.
      {"raised for the window", only(cornflower(), 2), "2027-04-28", "", "2027-05-29",
       "2027-06-19"},
      {"both pinned", only(cornflower(), 2), "2027-04-28", "2027-06-02", "2027-06-02",
       "2027-06-02"},
  };
  for (const PinRow& row : rows) {
    SCOPED_TRACE(row.name);
    Garden garden;
    garden.work.days = {std::chrono::Saturday};
    CropEntry entry;
    if (!row.start.empty()) entry.pins.start_on = parse_iso(row.start);
    if (!row.plant.empty()) entry.pins.plant_on = parse_iso(row.plant);
    const Candidates found = garden.ask(row.sheet, entry);
    ASSERT_FALSE(found.list.empty());
    const auto days = days_in_ground(found);
    EXPECT_EQ(iso(*days.begin()), row.first_in_ground);
    EXPECT_EQ(iso(*days.rbegin()), row.last_in_ground);
    for (const Candidate& c : found.list) {
      EXPECT_TRUE(row.start.empty() || iso(c.start) == row.start) << iso(c.start);
    }
  }
}

TEST(Candidates, RulesAnswerWhatIsPinned) {
  // Half-hardy: safe from 26 April. Sown on 1 February the plants are at most eleven weeks old, 19
  // April.
  expect_days(refusal_of(Garden{}.ask(snapdragon(), started(make_date(2027, 2, 1)))),
              Rule::FrostRisk, "2027-04-19", "2027-04-26");
  Garden garden;
  garden.first_day = make_date(2027, 3, 1);
  expect_days(refusal_of(garden.ask(only(cornflower(), 1), started(make_date(2027, 2, 10)))),
              Rule::TooLate, "2027-02-10", "2027-03-01");
  // Two pins that cannot both be: 15 weeks in the pot, where nine and two more is the most.
  CropEntry entry = started(make_date(2027, 2, 1));
  entry.pins.plant_on = make_date(2027, 5, 17);
  const Refusal refusal = refusal_of(Garden{}.ask(snapdragon(), entry));
  EXPECT_EQ(refusal.rule, Rule::Pinned);
  EXPECT_EQ(refusal.found, 15);
  EXPECT_EQ(refusal.wanted, 11);
}

// Though the useful days be fewer, or none, or long after the last; not before it is in the ground.
TEST(Candidates, APinnedLiftStands) {
  CropEntry entry = started(make_date(2027, 3, 20));
  const auto lift = [&](std::optional<Date> pin) {
    entry.pins.lift_on = pin;
    const Candidate c = Garden{}.ask(only(cornflower(), 1), entry).list.at(0);
    return std::pair{c.lift_from, c.lift_to};
  };
  const auto [from, to] = lift(std::nullopt);
  const Date first_cut = from - Days{21};
  ASSERT_GT(days_between(from, to), 10);
  for (const Date day :
       {from + Days{5}, from - Days{5}, first_cut, first_cut - Days{20}, make_date(2027, 3, 21)}) {
    EXPECT_EQ(lift(day), std::pair(day, day));
  }
  EXPECT_EQ(lift(make_date(2027, 3, 1)).first, make_date(2027, 3, 21));
  EXPECT_EQ(lift(to + Days{20}), std::pair(to + Days{20}, to + Days{20}));
}

TEST(Candidates, WhatIsSownInPlaceHasOneDayForBothPins) {
  const Date day = make_date(2027, 3, 20);
  CropEntry entry = planted(day);
  EXPECT_EQ(Garden{}.ask(only(cornflower(), 1), entry).list.at(0).start, day);
  entry.pins.start_on = day;
  EXPECT_EQ(Garden{}.ask(only(cornflower(), 1), entry).list.at(0).start, day);
  entry.pins.start_on = day - Days{7};
  EXPECT_EQ(refusal_of(Garden{}.ask(only(cornflower(), 1), entry)).rule, Rule::Pinned);
  for (const Candidate& c : Garden{}.ask(cornflower(), entry).list) {
    EXPECT_EQ(cornflower().ways[c.way].raised, Raised::Frame);
  }
}

TEST(Candidates, LiftsFollowTheHabit) {
  const auto candidate = [](const Sheet& sheet, bool keep = false) {
    CropEntry entry;
    entry.keep = keep;
    return Garden{}.ask(sheet, entry).list.at(0);
  };
  const Candidate again = candidate(only(cornflower(), 1));
  EXPECT_EQ(days_between(again.timeline.first_cut.likely, again.lift_from), 21);
  EXPECT_EQ(again.lift_to, again.timeline.last_cut());
  const Candidate limited = candidate(snapdragon());
  EXPECT_EQ(days_between(limited.timeline.first_cut.likely, limited.lift_from), 14);
  // Single kinds: two weeks, then they are done.
  const Candidate single = candidate(sunflower());
  EXPECT_EQ(single.lift_from, single.lift_to);
  EXPECT_EQ(days_between(single.timeline.first_cut.likely, single.lift_to), 13);
  // Bulbs kept hold the ground for six weeks more.
  const Candidate lifted = candidate(tulip()), kept = candidate(tulip(), true);
  EXPECT_EQ(days_between(lifted.lift_to, kept.lift_to), 42);
  EXPECT_EQ(kept.lift_from, kept.lift_to);
}

TEST(Candidates, PerennialsStandTheWholeSeason) {
  const Candidates found = Garden{}.ask(peony());
  ASSERT_EQ(found.list.size(), 1u);
  const Candidate& c = found.list[0];
  EXPECT_EQ(iso(c.in_ground), "2027-01-01");
  EXPECT_EQ(iso(c.lift_from), "2027-12-31");
  EXPECT_EQ(iso(c.lift_to), "2027-12-31");
  EXPECT_EQ(c.window, (DateRange{c.in_ground, c.in_ground + Days{1}}));
  EXPECT_TRUE(c.overwinters);
  // Middle of 22 May to 5 June, and a week to the first handful.
  EXPECT_EQ(iso(c.timeline.first_cut.likely), "2027-06-05");
}

TEST(Candidates, StemsAreOfTheWayTheGroupTheSheet) {
  Sheet sheet = quick();
  const auto stems = [&](std::size_t at = 0) {
    return Garden{}.ask(sheet).list.at(at).stems_per_plant;
  };
  EXPECT_EQ(stems(), 5);
  sheet.groups = {Group{.name = "early", .stems_per_plant = Range{2, 4}}, Group{.name = "late"}};
  EXPECT_EQ(stems(0), 3);
  EXPECT_EQ(stems(99), 5);  // the other group
  sheet.ways[0].stems_per_plant = Range{7, 9};
  EXPECT_EQ(stems(0), 8);
  CropEntry entry;
  entry.group = "late";
  const Candidates found = Garden{}.ask(sheet, entry);
  EXPECT_EQ(found.list.size(), 99u);
  EXPECT_EQ(found.list.at(0).group->name, "late");
}

TEST(Candidates, LeapYearsKeepTheirDay) {
  Sheet sheet = quick();
  sheet.ways[0].window = after_last(-11, -10);
  const auto first_day = [&](int year) {
    Garden garden;
    garden.year = year;
    const auto days = days_in_ground(garden.ask(sheet));
    EXPECT_EQ(days.contains(make_date(2028, 2, 29)), year == 2028);
    EXPECT_EQ(days.size(), 78u);  // eight days and seventy, either year
    return iso(*days.begin());
  };
  // 77 days before 15 May.
  EXPECT_EQ(first_day(2027), "2027-02-27");
  EXPECT_EQ(first_day(2028), "2028-02-28");
  // A last frost on 29 February is on the 28th in other years.
  Garden garden;
  garden.place.last_frost = {std::chrono::February, std::chrono::day{29}};
  sheet.ways[0].window = after_last(0, 0);
  EXPECT_EQ(iso(*days_in_ground(garden.ask(sheet)).begin()), "2027-02-28");
  garden.year = 2028;
  EXPECT_EQ(iso(*days_in_ground(garden.ask(sheet)).begin()), "2028-02-29");
}

Garden northern() {
  Garden garden;
  garden.place.last_frost = {std::chrono::April, std::chrono::day{15}};
  garden.place.first_frost = {std::chrono::November, std::chrono::day{1}};
  return garden;
}

// The same garden six months on.
Garden southern() {
  Garden garden = northern();
  garden.place.latitude = -garden.place.latitude;
  garden.place.last_frost = {std::chrono::October, std::chrono::day{15}};
  garden.place.first_frost = {std::chrono::May, std::chrono::day{1}};
  auto& means = std::get<MonthlyMeans>(garden.place.temperatures).mean_c;
  std::rotate(means.begin(), means.begin() + 6, means.end());
  return garden;
}

// Half years are not equally long: 15 October to 15 April has 182 days, 1 May to 1 November 184;
// hence two days. Where the length of days counts, four: the equinoxes of 23 September and 20 March
// are 178 days apart, and six where buds wait for spring: February is three days shorter than
// August. In autumn, when days bring ever less, three times as many.
TEST(Candidates, TheSouthIsTheNorthSixMonthsOn) {
  for (const Sheet& sheet : {cornflower(), sweet_william(), zinnia(), cosmos(), snapdragon(),
                             sunflower(), aster(), tulip(), peony()}) {
    SCOPED_TRACE(sheet.name);
    const bool by_light =
        sheet.growth && sheet.growth->day_length.kind != DayLengthResponse::Kind::Neutral;
    const Candidates north = northern().ask(sheet), south = southern().ask(sheet);
    std::map<std::tuple<std::size_t, Date, Date>, Date> first_cuts;
    for (const Candidate& c : south.list) {
      first_cuts[{c.way, c.start + Days{182}, c.in_ground + Days{182}}] =
          c.timeline.first_cut.likely + Days{182};
    }
    std::size_t pairs = 0;
    int most = 0, most_in_autumn = 0;
    for (const Candidate& c : north.list) {
      const auto found = first_cuts.find({c.way, c.start, c.in_ground});
      // The season of a perennial begins on 1 July and 1 January, 184 days apart.
      if (found == first_cuts.end() && sheet.name != "peony") continue;
      const Date there = sheet.name == "peony" ? first_cuts.begin()->second : found->second;
      ++pairs;
      const Date here = c.timeline.first_cut.likely;
      int& worst = here < make_date(2027, 9, 15) ? most : most_in_autumn;
      worst = std::max(worst, std::abs(days_between(there, here)));
    }
    const bool waits =
        sheet.life_cycle == LifeCycle::HardyAnnual || sheet.life_cycle == LifeCycle::Biennial;
    EXPECT_LE(most, by_light ? (waits ? 6 : 4) : 2);
    EXPECT_LE(most_in_autumn, by_light ? 12 : 6);
    EXPECT_GE(20 * pairs, 19 * std::max(north.list.size(), south.list.size()));
  }
}

}  // namespace
}  // namespace trug::ground
