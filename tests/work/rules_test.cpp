// SPDX-License-Identifier: MIT
// Each rule on a sowing made up for it: a place whose garden frosts end on 15 May and begin on
// 15 October. Expected days follow from the rule's own words by counting.
#include "work/rules.h"

#include <gtest/gtest.h>

#include <chrono>
#include <string>

#include "lowland.h"

namespace trug::work {
namespace {

using enum JobKind;

Date day(const std::string& text) { return parse_iso(text).value(); }

FrostWindow weeks_from(Frost frost, double earliest, double latest) {
  return {{earliest, frost}, {latest, frost}};
}

class Rules : public testing::Test {
 protected:
  Rules() {
    plan_.flowering_year = 2027;
    plan_.place = lowland();
    plan_.beds = {{.name = "bed",
                   .length = Millimetres{1700},
                   .width = Millimetres{1100},
                   .stretches = {{.length = Millimetres{1700}}}}};
    add_planting(plan_, 0, 0, {.crop = "made up"});
    sheet_.survives_c = -15;
    sheet_.ways = {{.name = "in place", .window = weeks_from(Frost::Last, -6, 2)}};
    live("2027-04-10", "2027-04-10", "2027-07-01", "2027-09-01");
  }

  Way& way() { return sheet_.ways.front(); }

  void raise(Raised where, Range weeks) {
    way().raised = where;
    way().weeks_under_cover = weeks;
  }

  // A sowing started, set out, in flower and lifted on these days; it is cut from a week after its
  // first flower, three weeks either side.
  void live(const std::string& start, const std::string& in_ground, const std::string& flower,
            const std::string& lift) {
    sowing_.start = day(start);
    sowing_.in_ground = day(in_ground);
    sowing_.timeline.first_flower.likely = day(flower);
    const Date cut = day(flower) + Days{7};
    sowing_.timeline.first_cut = {cut - Days{21}, cut, cut + Days{21}};
    sowing_.lift_from = cut + Days{14};
    sowing_.lift = day(lift);
  }

  std::optional<JobDraft> draft(JobKind kind) {
    sowing_.stems_per_plant = 10;
    sowing_.sheet = &sheet_;
    const auto climate = climate::Climate::from(plan_.place);
    const climate::Season season(climate, 2027);
    for (const auto rules : {raising_rules(), tending_rules(), cutting_rules()}) {
      for (Rule* const rule : rules) {
        const auto found = rule(sowing_, {plan_, season, {}});
        if (found && found->kind == kind) return found;
      }
    }
    return std::nullopt;
  }

  // "2027-05-01, 2027-04-24 to 2027-05-15, frame"; "none".
  std::string told(JobKind kind) {
    const auto job = draft(kind);
    if (!job) return "none";
    const auto& [chosen, first, last] = job->window;
    std::string text = iso(chosen) + ", " + iso(first) + " to " + iso(last);
    if (job->where) text += ", " + std::string(to_string(*job->where));
    return text;
  }

  Plan plan_;
  Sheet sheet_;
  ground::Sowing sowing_;
};

// From the first of the month in which it would usually be ordered.
TEST_F(Rules, OrderSeedInTheMonthFourWeeksBefore) {
  EXPECT_EQ(told(OrderSeed), "2027-03-01, 2027-03-01 to 2027-03-27");
  way().method = Method::Bulb;
  EXPECT_EQ(told(OrderSeed), "none");
}

TEST_F(Rules, OrderInTheMonthInWhichTheBestIsToBeHad) {
  sheet_.buy.month = 1;
  EXPECT_EQ(told(OrderSeed), "2027-01-01, 2027-01-01 to 2027-03-27");
  sheet_.buy.month = 3;
  EXPECT_EQ(told(OrderSeed), "2027-03-01, 2027-03-01 to 2027-03-27");
  sheet_.buy.month = 4;  // too late
  EXPECT_EQ(told(OrderSeed), "2026-04-01, 2026-04-01 to 2027-03-27");
  sheet_.buy.month = 11;
  EXPECT_EQ(told(OrderSeed), "2026-11-01, 2026-11-01 to 2027-03-27");
  plan_.place.latitude = -41;  // half a year on
  EXPECT_EQ(told(OrderSeed), "2026-05-01, 2026-05-01 to 2027-03-27");
}

TEST_F(Rules, OrderBulbsInTheMonthTenWeeksBeforeTheyArePlantedOrChilled) {
  EXPECT_EQ(told(OrderBulbs), "none");
  way().method = Method::Bulb;
  for (const LifeCycle life : {LifeCycle::Tuber, LifeCycle::Perennial}) {
    sheet_.life_cycle = life;
    EXPECT_EQ(told(OrderBulbs), "none");
    EXPECT_EQ(told(OrderTubers), "2027-01-01, 2027-01-01 to 2027-03-20");
  }
  sheet_.life_cycle = LifeCycle::Corm;
  EXPECT_EQ(told(OrderTubers), "none");
  EXPECT_EQ(told(OrderBulbs), "2027-01-01, 2027-01-01 to 2027-03-20");
  sowing_.needs_cold_store = true;  // for 8 to 12 weeks
  EXPECT_EQ(told(OrderBulbs), "2026-11-01, 2026-11-01 to 2027-01-09");
}

TEST_F(Rules, OrderPlantsInTheMonthSixWeeksBeforeTheyGoOut) {
  EXPECT_EQ(told(OrderPlants), "none");
  way().method = Method::BoughtPlants;
  EXPECT_EQ(told(OrderPlants), "2027-02-01, 2027-02-01 to 2027-03-27");
}

TEST_F(Rules, PreTreatSoThatItEndsOnTheDayOfSowing) {
  EXPECT_EQ(told(PreTreat), "none");
  sheet_.pretreat = Pretreatment{.kind = Pretreatment::Kind::Chill, .days = {14, 28}};
  EXPECT_EQ(told(PreTreat), "2027-03-20, 2027-03-13 to 2027-03-27");
  sheet_.pretreat = Pretreatment{.kind = Pretreatment::Kind::Soak, .days = {0.5, 0.5}};
  EXPECT_EQ(told(PreTreat), "2027-04-09, 2027-04-09 to 2027-04-09") << "the day before";
  sheet_.pretreat = Pretreatment{.kind = Pretreatment::Kind::ColdStore, .days = {42, 42}};
  EXPECT_EQ(told(PreTreat), "none") << "the winter chills them in the ground";
  sowing_.needs_cold_store = true;
  EXPECT_EQ(told(PreTreat), "2027-02-27, 2027-02-27 to 2027-02-27");
  way().method = Method::BoughtPlants;
  EXPECT_EQ(told(PreTreat), "none");
}

TEST_F(Rules, SowInPlaceWithinTheTradesWindow) {
  EXPECT_EQ(told(Sow), "2027-04-10, 2027-04-03 to 2027-05-29, in place");
  EXPECT_EQ(draft(Sow)->winter_takes_some, false);
  sowing_.overwinters = true;
  EXPECT_EQ(draft(Sow)->winter_takes_some, true);
}

TEST_F(Rules, SowTenderSeedInPlaceNotBeforeTheSoilIsWarm) {
  sheet_.survives_c = 0;
  const auto job = draft(Sow);
  const growth::WarmSoil soil = [&] {
    const auto climate = climate::Climate::from(plan_.place);
    const climate::Season season(climate, 2027);
    return growth::CropClock(season, CropSpec(sheet_)).warm_soil().value();
  }();
  EXPECT_EQ(job->window.first, *soil.from - Days{7});
  EXPECT_EQ(job->soil_c, soil.needed_c);
  sowing_.start = *soil.from + Days{21};
  EXPECT_FALSE(draft(Sow)->soil_c) << "nobody measures in summer";
}

TEST_F(Rules, SowToRaiseSoManyWeeksBeforeTheWindow) {
  raise(Raised::Heated, {4, 6});
  live("2027-03-20", "2027-04-24", "2027-07-01", "2027-09-01");
  EXPECT_EQ(told(Sow), "2027-03-20, 2027-02-20 to 2027-05-01, heated");
}

TEST_F(Rules, PlantBulbsInPlaceOrInPots) {
  EXPECT_EQ(told(Plant), "none");
  way().method = Method::Bulb;
  EXPECT_EQ(told(Plant), "2027-04-10, 2027-04-03 to 2027-05-29, in place");
  raise(Raised::Heated, {4, 6});
  EXPECT_EQ(told(Plant), "2027-04-10, 2027-02-20 to 2027-05-01, heated");
}

TEST_F(Rules, PrickOutAndPotOnBySheet) {
  EXPECT_EQ(told(PrickOut), "none");
  EXPECT_EQ(told(PotOn), "none");
  raise(Raised::Frame, {8, 10});
  live("2027-04-10", "2027-06-12", "2027-08-01", "2027-09-20");
  way().prick_out_weeks = 3;
  way().pot_on_weeks = 7;
  EXPECT_EQ(told(PrickOut), "2027-05-01, 2027-04-27 to 2027-05-08, frame");
  EXPECT_EQ(told(PotOn), "2027-05-29, 2027-05-22 to 2027-06-05, frame");
}

TEST_F(Rules, HardenOffWhatStoodInWarmth) {
  raise(Raised::Frame, {4, 6});
  EXPECT_EQ(told(HardenOff), "none");
  way().raised = Raised::Heated;
  live("2027-03-20", "2027-05-22", "2027-07-01", "2027-09-01");
  EXPECT_EQ(told(HardenOff), "2027-05-10, 2027-05-08 to 2027-05-12") << "out and in again";
  EXPECT_TRUE(draft(HardenOff)->frost_may_come);
  plan_.shelter.frame_m2 = 1;
  EXPECT_EQ(told(HardenOff), "2027-05-10, 2027-05-08 to 2027-05-12, frame");
  live("2027-06-01", "2027-06-26", "2027-08-10", "2027-09-20");
  EXPECT_EQ(told(HardenOff), "2027-06-15, 2027-06-15 to 2027-06-16, frame")
      << "it is not up before";
  EXPECT_FALSE(draft(HardenOff)->frost_may_come);
}

TEST_F(Rules, StandsWhereItIsThatDay) {
  raise(Raised::Heated, {8, 10});
  way().prick_out_weeks = 3;
  live("2027-03-20", "2027-05-22", "2027-07-01", "2027-09-01");
  sheet_.life_cycle = LifeCycle::HalfHardyAnnual;
  EXPECT_EQ(told(PrickOut), "2027-04-10, 2027-04-06 to 2027-04-17, heated");
  sheet_.life_cycle = LifeCycle::HardyAnnual;
  sheet_.germination_days = Range{7, 10};  // grown on cool from 30 March
  EXPECT_EQ(told(PrickOut), "2027-04-10, 2027-04-06 to 2027-04-17, heated");  // there is none
  plan_.shelter.frame_m2 = 1;
  EXPECT_EQ(told(PrickOut), "2027-04-10, 2027-04-06 to 2027-04-17, frame");
  plan_.shelter.frame_m2 = 0;
  sheet_.life_cycle = LifeCycle::HalfHardyAnnual;
  sheet_.pinch.at_kd = 300;
  sowing_.pinched = true;
  sowing_.timeline.forecast.stages = {growth::Stage{}};
  const std::pair<const char*, const char*> days[] = {
      {"2027-05-03", "2027-05-03, 2027-04-29 to 2027-05-09, heated"},
      {"2027-05-12", "2027-05-12, 2027-05-10 to 2027-05-21"},  // hardened off from the tenth
      {"2027-05-24", "2027-05-24, 2027-05-22 to 2027-06-03, in place"}};
  for (const auto& [pinched, expected] : days) {
    sowing_.timeline.forecast.pinched = day(pinched);
    EXPECT_EQ(told(Pinch), expected);
  }
}

TEST_F(Rules, PinchNothingInTheDarkOfTheWinter) {
  raise(Raised::Frame, {20, 28});
  live("2026-09-12", "2027-03-27", "2027-06-01", "2027-07-01");
  sowing_.pinched = true;
  sheet_.pinch.at_kd = 300;
  sowing_.timeline.forecast.stages = {growth::Stage{}};
  sowing_.timeline.forecast.pinched = day("2026-12-05");
  const auto climate = climate::Climate::from(plan_.place);
  const Date spring = climate::Season(climate, 2027).winter()->until;
  EXPECT_EQ(draft(Pinch)->window.day, spring);
  EXPECT_EQ(draft(Pinch)->where, Raised::Frame);
  live("2026-09-12", "2026-10-27", "2027-03-01", "2027-07-01");
  EXPECT_EQ(told(Pinch), "none") << "it flowers as soon as it grows again";
}

TEST_F(Rules, PlantOutWhatWasRaisedOrBought) {
  EXPECT_EQ(told(PlantOut), "none") << "it was sown in place";
  way().method = Method::BoughtPlants;
  EXPECT_EQ(told(PlantOut), "2027-04-10, 2027-04-03 to 2027-05-29, in place");
  sowing_.stands = true;
  EXPECT_EQ(told(PlantOut), "none");
  sowing_.stands = false;
  way().method = Method::Seed;
  raise(Raised::Frame, {4, 6});
  EXPECT_FALSE(draft(PlantOut)->winter_takes_some);
  live("2026-08-20", "2026-09-26", "2027-06-01", "2027-07-01");
  sowing_.overwinters = true;
  EXPECT_TRUE(draft(PlantOut)->winter_takes_some);
}

TEST_F(Rules, WaterInWhatIsSetOut) {
  EXPECT_EQ(told(WaterIn), "none");
  way().method = Method::BoughtPlants;
  EXPECT_EQ(told(WaterIn), "2027-04-10, 2027-04-10 to 2027-05-08, in place");
}

TEST_F(Rules, WatchForFrostUntilOneYearInTwenty) {
  sheet_.survives_c = 0;
  // 15 May + 1.645 x 13 days, rounded up.
  EXPECT_EQ(told(WatchForFrost), "2027-04-10, 2027-04-10 to 2027-06-06, in place");
  sheet_.survives_c = -3;
  EXPECT_EQ(told(WatchForFrost), "none") << "half-hardy: a light frost does it no harm";
  sheet_.survives_c = -15;
  EXPECT_EQ(told(WatchForFrost), "none");
  sheet_.survives_c = 0;
  live("2027-06-10", "2027-06-10", "2027-08-01", "2027-09-01");
  EXPECT_EQ(told(WatchForFrost), "none");
}

TEST_F(Rules, LookForSeedlingsAWeekAfterTheyShouldBeUp) {
  sheet_.germination_days = Range{7, 10};
  EXPECT_EQ(told(LookForSeedlings), "2027-04-27, 2027-04-20 to 2027-05-04, in place");
  EXPECT_EQ(draft(LookForSeedlings)->sow_by, day("2027-05-29"));
  raise(Raised::Frame, {4, 6});
  EXPECT_EQ(told(LookForSeedlings), "none");
}

TEST_F(Rules, ThinThreeWeeksAfterTheyAreUpAndNeverInWinter) {
  sheet_.germination_days = Range{7, 10};
  EXPECT_EQ(told(Thin), "2027-05-11, 2027-05-04 to 2027-05-25, in place");
  live("2026-10-10", "2026-10-10", "2027-06-01", "2027-07-01");
  const auto climate = climate::Climate::from(plan_.place);
  const Date spring = climate::Season(climate, 2027).winter()->until;
  EXPECT_EQ(draft(Thin)->window.day, spring + Days{14});
  way().method = Method::Bulb;
  EXPECT_EQ(told(Thin), "none");
}

// Northern Japan (memory): the average passes 5 degC on about 5 April, when the snow is gone.
TEST_F(Rules, ThinAndUncoverWhenTheSnowIsGone) {
  MonthlyMeans means;
  means.mean_c = {-3.2, -2.7, 1.1, 7.3, 13.0, 17.0, 21.1, 22.3, 18.6, 12.1, 5.2, -0.9};
  plan_.place.temperatures = means;
  live("2026-10-10", "2026-10-10", "2027-06-01", "2027-07-01");
  sowing_.under_fleece = true;
  for (const JobKind kind : {Thin, Uncover}) {
    EXPECT_NEAR(days_between(day("2027-04-05"), draft(kind)->window.day), 0, 2);
  }
}

TEST_F(Rules, LookForSlugsWhileThePlantsAreYoung) {
  EXPECT_EQ(told(Slugs), "2027-04-10, 2027-04-10 to 2027-05-08, in place");
  way().method = Method::Bulb;
  EXPECT_EQ(told(Slugs), "none");
}

TEST_F(Rules, PinchWhatIsPinchedWhenItIsFarEnoughOn) {
  EXPECT_EQ(told(Pinch), "none");
  sowing_.pinched = true;
  EXPECT_EQ(told(Pinch), "2027-05-22, 2027-05-18 to 2027-06-01, in place") << "by weeks";
  sheet_.pinch.at_kd = 300;
  EXPECT_EQ(told(Pinch), "2027-05-22, 2027-05-18 to 2027-06-01, in place") << "no heat is told";
  sowing_.timeline.forecast.stages = {growth::Stage{}};
  EXPECT_EQ(told(Pinch), "none") << "it is never far enough on";
  sowing_.timeline.forecast.pinched = day("2027-05-17");
  EXPECT_EQ(told(Pinch), "2027-05-17, 2027-05-13 to 2027-05-27, in place");
  sowing_.timeline.forecast.pinched = day("2027-06-17");
  EXPECT_EQ(told(Pinch), "2027-06-03, 2027-05-30 to 2027-06-13, in place")
      << "not within four weeks of its flower";
}

TEST_F(Rules, PotOnWhenItsModuleIsTooSmall) {
  raise(Raised::Frame, {10, 14});
  way().pot_on_weeks = 6;
  live("2027-02-01", "2027-05-01", "2027-07-01", "2027-09-01");
  EXPECT_EQ(told(PotOn), "2027-03-15, 2027-03-08 to 2027-03-22, frame") << "by weeks";
  sheet_.pot = PotLimits{450, 900};
  sowing_.timeline.forecast.stages = {growth::Stage{}};
  EXPECT_EQ(told(PotOn), "none") << "its module holds it";
  sowing_.timeline.forecast.outgrows_module = day("2027-04-02");
  EXPECT_EQ(told(PotOn), "2027-04-02, 2027-03-26 to 2027-04-09, frame");
  sowing_.timeline.forecast.outgrows_module = day("2027-04-21");
  EXPECT_NE(told(PotOn), "none");
  sowing_.timeline.forecast.outgrows_module = day("2027-04-22");
  EXPECT_EQ(told(PotOn), "none") << "it is set out as soon";
}

TEST_F(Rules, SupportWhatFallsOver) {
  EXPECT_EQ(told(Support), "none");
  // Three weeks up after 14 days, then a week: 22 May, six weeks before its flower.
  for (const auto kind : {Sheet::Support::Net, Sheet::Support::Light, Sheet::Support::Ring}) {
    sheet_.support = kind;
    EXPECT_EQ(told(Support), "2027-05-22, 2027-05-15 to 2027-06-10, in place");
  }
  live("2027-04-10", "2027-04-10", "2027-08-01", "2027-09-01");
  EXPECT_EQ(told(Support), "2027-06-13, 2027-06-06 to 2027-07-11, in place") << "seven weeks";
  way().method = Method::Bulb;
  live("2027-04-10", "2027-04-10", "2027-06-01", "2027-09-01");
  EXPECT_EQ(told(Support), "2027-05-22, 2027-05-15 to 2027-05-22, in place") << "corms come up too";
  sowing_.without_flower = true;
  EXPECT_EQ(told(Support), "none") << "it stays low";
}

TEST_F(Rules, StakesAndFramesStandBeforeWhatTheyHold) {
  sheet_.support = Sheet::Support::Frame;
  EXPECT_EQ(told(Support), "2027-04-10, 2027-04-10 to 2027-04-10, in place");
  sheet_.support = Sheet::Support::Stakes;
  EXPECT_EQ(told(Support), "2027-05-22, 2027-05-15 to 2027-06-10, in place")
      << "what is sown there when it is thinned";
  way().method = Method::Bulb;
  EXPECT_EQ(told(Support), "2027-04-10, 2027-04-10 to 2027-04-10, in place");
  sowing_.stands = true;
  EXPECT_EQ(told(Support), "2027-05-13, 2027-05-06 to 2027-06-10, in place")
      << "what stands already as its shoots rise";
}

TEST_F(Rules, ProtectWhatStandsUnderFleeceInTheWinterBefore) {
  EXPECT_EQ(told(Protect), "none");
  sowing_.under_fleece = true;
  EXPECT_EQ(told(Protect), "2026-11-12, 2026-10-15 to 2026-12-10, in place");
}

// In March, or eight weeks before the last frost; a fortnight before it flowers.
TEST_F(Rules, UncoverWhenTheWinterIsOver) {
  EXPECT_EQ(told(Uncover), "none");
  sowing_.under_fleece = true;
  EXPECT_EQ(told(Uncover), "2027-04-10, 2027-04-10 to 2027-05-01, in place") << "not there before";
  live("2026-09-20", "2026-09-20", "2027-06-01", "2027-07-01");
  EXPECT_EQ(told(Uncover), "2027-03-20, 2027-03-20 to 2027-04-10, in place");
  live("2026-09-20", "2026-09-20", "2027-03-20", "2027-07-01");
  EXPECT_EQ(told(Uncover), "2027-03-06, 2027-03-06 to 2027-03-27, in place");
  way().needs = Needs::Tunnel;
  EXPECT_EQ(told(Uncover), "2027-03-20, 2027-03-20 to 2027-04-10, in place")
      << "cut beneath its hoops";
}

// Under a bed's fleece: what is green in the winter from its frosts on, what sleeps from March on.
TEST_F(Rules, FleeceIsLaidOverWhatSleepsWhenItWakes) {
  live("2026-10-01", "2026-10-01", "2027-06-01", "2027-09-01");
  sowing_.cover = Cover::Fleece;
  for (const LifeCycle life : {LifeCycle::HardyAnnual, LifeCycle::Biennial, LifeCycle::Corm}) {
    sheet_.life_cycle = life;
    EXPECT_EQ(told(Protect), "2026-11-12, 2026-10-15 to 2026-12-10, in place");
  }
  for (const LifeCycle life : {LifeCycle::Bulb, LifeCycle::Perennial, LifeCycle::Shrub}) {
    sheet_.life_cycle = life;
    EXPECT_EQ(told(Protect), "2027-03-02, 2027-03-02 to 2027-03-08, in place");
    EXPECT_EQ(told(Uncover), "2027-05-18, 2027-05-18 to 2027-06-08, in place");
  }
}

TEST_F(Rules, PruneAndDivideInTheirWindows) {
  EXPECT_EQ(told(Prune), "none");
  EXPECT_EQ(told(Divide), "none");
  sowing_.stands = true;
  live("2024-04-10", "2024-04-10", "2027-06-01", "2027-09-01");
  sheet_.prune = sheet_.divide = YearlyJob{.window = weeks_from(Frost::Last, -10, -6)};
  EXPECT_EQ(told(Prune), "2027-03-20, 2027-03-06 to 2027-04-03, in place");
  EXPECT_EQ(told(Divide), "2027-03-20, 2027-03-06 to 2027-04-03, in place");
}

// Ten weeks before a last frost on 20 March is the second week of January.
TEST_F(Rules, PruneNothingInTheDepthOfWinter) {
  sowing_.stands = true;
  live("2024-04-10", "2024-04-10", "2027-06-01", "2027-09-01");
  sheet_.prune = YearlyJob{.window = weeks_from(Frost::Last, -10, -6)};
  plan_.place.last_frost = std::chrono::March / 20;
  EXPECT_EQ(told(Prune), "2027-02-15, 2027-02-01 to 2027-03-01, in place");
}

TEST_F(Rules, PruneNothingBeforeItIsPlanted) {
  sheet_.prune = sheet_.divide = YearlyJob{.window = weeks_from(Frost::Last, -10, -6)};
  EXPECT_EQ(told(Prune), "none") << "planted on 10 April, pruned until 3 April";
  live("2027-03-25", "2027-03-25", "2027-07-01", "2027-09-01");
  EXPECT_EQ(told(Prune), "2027-03-25, 2027-03-25 to 2027-04-03, in place");
  EXPECT_EQ(told(Divide), "none");
}

TEST_F(Rules, DivideEveryFewYears) {
  sowing_.stands = true;
  sheet_.divide = YearlyJob{.window = weeks_from(Frost::Last, -10, -6), .every_years = 3};
  const auto divided_of = [&](int since) {
    plan_.plantings[0].asked.since = since;
    return told(Divide) != "none";
  };
  for (const int since : {2027, 2026, 2025, 2023, 2022}) EXPECT_FALSE(divided_of(since)) << since;
  for (const int since : {2024, 2021}) EXPECT_TRUE(divided_of(since)) << since;
}

TEST_F(Rules, FirstCutAsForecast) {
  EXPECT_EQ(told(FirstCut), "2027-07-08, 2027-06-17 to 2027-07-29, in place");
}

TEST_F(Rules, PickWhatComesAgainAndDeadHeadWhatFlowersAgain) {
  sowing_.timeline.shares.assign(40, 1.0 / 40);
  EXPECT_EQ(told(Pick), "2027-07-08, 2027-07-08 to 2027-08-16, in place") << "as long as it is cut";
  EXPECT_EQ(told(DeadHead), "none");
  sheet_.dead_head = true;
  EXPECT_EQ(told(DeadHead), "2027-07-08, 2027-07-08 to 2027-08-16, in place");
  sheet_.habit = Habit::Single;
  EXPECT_EQ(told(Pick), "none");
}

TEST_F(Rules, DisbudWeeksBeforeTheCut) {
  EXPECT_EQ(told(Disbud), "none");
  sheet_.disbud = trug::Disbud{.weeks_before_cut = 3, .text = "Take off the side buds."};
  EXPECT_EQ(told(Disbud), "2027-06-17, 2027-06-10 to 2027-07-08, in place");
  live("2027-06-15", "2027-06-20", "2027-07-01", "2027-09-01");
  EXPECT_EQ(told(Disbud), "2027-06-20, 2027-06-20 to 2027-07-08, in place");
  sowing_.stem_factor = 0;
  EXPECT_EQ(told(Disbud), "none") << "it is too young to be cut";
}

TEST_F(Rules, WhatIsLiftedBeforeItsFirstCutIsNotCut) {
  sheet_.habit = Habit::CutAndComeAgain;
  sheet_.second_flush = SecondFlush{.weeks_after = 3};
  live("2027-04-10", "2027-04-10", "2027-07-01", "2027-07-07");
  sheet_.dead_head = true;
  for (const JobKind kind : {FirstCut, Pick, DeadHead, CutBack}) EXPECT_EQ(told(kind), "none");
  live("2027-04-10", "2027-04-10", "2027-07-01", "2027-07-08");
  EXPECT_NE(told(FirstCut), "none");
  // Nor is what is lifted with its first flush cut back for a second.
  EXPECT_EQ(told(CutBack), "none");
  live("2027-04-10", "2027-04-10", "2027-07-01", "2027-10-08");
  EXPECT_NE(told(CutBack), "none");
}

// Nor are flowers picked or taken off a plant that is gone.
TEST_F(Rules, WhatIsOutOfTheGroundIsNotTended) {
  sheet_.habit = Habit::CutAndComeAgain;
  sheet_.dead_head = true;
  sowing_.timeline.shares.assign(30, 0.03);
  for (const auto& [lift, until] :
       {std::pair{"2027-07-16", "2027-07-16"}, std::pair{"2027-07-20", "2027-07-20"},
        std::pair{"2027-10-01", "2027-08-06"}}) {
    live("2027-04-10", "2027-04-10", "2027-07-01", lift);
    const std::string days = std::string("2027-07-08, 2027-07-08 to ") + until + ", in place";
    EXPECT_EQ(told(Pick), days) << lift;
    EXPECT_EQ(told(DeadHead), days) << lift;
  }
}

TEST_F(Rules, AGroupsFlushIsItsOwn) {
  Group early;
  early.cutting_weeks = Range{2, 2};
  sheet_.second_flush = SecondFlush{.weeks_after = 3};
  sowing_.group = &early;
  EXPECT_EQ(told(CutBack), "2027-07-22, 2027-07-15 to 2027-07-29, in place");
  sowing_.group = nullptr;
}

TEST_F(Rules, CutBackAfterTheFirstFlushOrWhenTheSheetSays) {
  EXPECT_EQ(told(CutBack), "none");
  sheet_.cut_back = YearlyJob{.window = weeks_from(Frost::First, 2, 6)};
  EXPECT_EQ(told(CutBack), "2027-11-12, 2027-10-29 to 2027-11-26, in place");
  sheet_.second_flush = SecondFlush{.weeks_after = 3};
  sheet_.cutting_weeks = {3, 5};
  EXPECT_EQ(told(CutBack), "2027-08-05, 2027-07-29 to 2027-08-12, in place");
  sowing_.lift = day("2027-08-20");
  EXPECT_EQ(told(CutBack), "none") << "it is gone before a second flush";
}

TEST_F(Rules, LiftWhenItHasGivenWhatItHadOrTheGroundIsWanted) {
  EXPECT_EQ(told(Lift), "2027-09-01, 2027-07-22 to 2027-09-29, in place");
  sowing_.next_in_ground = day("2027-09-20");
  EXPECT_EQ(told(Lift), "2027-09-01, 2027-07-22 to 2027-09-13, in place");
  sheet_.life_cycle = LifeCycle::Perennial;
  EXPECT_EQ(told(Lift), "none");
}

TEST_F(Rules, LiftOnThePlansOwnDay) {
  plan_.work.days = {std::chrono::Saturday};
  EXPECT_FALSE(draft(Lift)->pinned);
  plan_.plantings[0].asked.pins.lift_on = day("2027-09-01");  // a Wednesday
  EXPECT_TRUE(draft(Lift)->pinned);
  EXPECT_EQ(told(ClearAndFeed).substr(0, 10), "2027-09-01");
}

TEST_F(Rules, KeptBulbsAreLiftedOnlyForTheNextCrop) {
  sheet_.life_cycle = LifeCycle::Bulb;
  plan_.plantings[0].asked.keep = true;
  EXPECT_EQ(told(Lift), "none");
  sowing_.next_in_ground = day("2027-09-20");
  EXPECT_NE(told(Lift), "none");
}

TEST_F(Rules, BulbsThatStayForYearsDieDownUnderWhatIsSetOutBetweenThem) {
  sheet_.life_cycle = LifeCycle::Bulb;
  sheet_.stays_under = true;
  way().window = weeks_from(Frost::First, -6, 2);
  way().flowers = FlowersIn::NextYear;
  EXPECT_EQ(told(LetDieDown), "none") << "nothing follows";
  sowing_.next_in_ground = day("2027-09-20");
  EXPECT_EQ(told(LetDieDown), "2027-09-01, 2027-09-01 to 2027-09-19, in place");
  for (const JobKind kind : {Lift, ClearAndFeed, Replant}) EXPECT_EQ(told(kind), "none");
  sowing_.next_is_sown = true;  // on ground that is raked
  EXPECT_EQ(told(LetDieDown), "none");
  EXPECT_NE(told(Lift), "none");
  // Six weeks before 15 October to two after, each year.
  EXPECT_EQ(told(Replant), "2027-10-01, 2027-09-03 to 2027-10-29");
  sowing_.next_is_sown = false;
  plan_.plantings[0].asked.pins.lift_on = day("2027-09-01");
  EXPECT_NE(told(Lift), "none") << "the plan wants them out";
}

TEST_F(Rules, LookAtWhatIsStoredUntilItGoesOutAgain) {
  EXPECT_EQ(told(LookAtStored), "none");
  sheet_.life_cycle = LifeCycle::Tuber;
  sheet_.lift_and_store = YearlyJob{.window = weeks_from(Frost::First, 0, 3)};
  EXPECT_EQ(told(LookAtStored), "2027-11-25, 2027-11-25 to 2028-04-14");
  sowing_.next_in_ground = day("2027-09-20");  // it is lifted for the next crop on 1 September
  EXPECT_EQ(told(LookAtStored), "2027-10-01, 2027-10-01 to 2028-04-14");
  // Hardly a winter: stored for seven weeks.
  sowing_.next_in_ground.reset();
  plan_.place.first_frost = std::chrono::December / 20;
  plan_.place.last_frost = std::chrono::February / 20;
  EXPECT_EQ(told(LookAtStored), "none");
}

TEST_F(Rules, LiftNoTubersWhereNoWinterTakesThem) {
  sheet_.life_cycle = LifeCycle::Tuber;
  sheet_.survives_c = -5;
  sheet_.lift_and_store = YearlyJob{.window = weeks_from(Frost::First, 0, 3)};
  plan_.place.coldest_c = -8;
  EXPECT_NE(told(LiftAndStore), "none");
  plan_.place.coldest_c = 3;
  for (const JobKind kind : {LiftAndStore, Lift, LookAtStored}) EXPECT_EQ(told(kind), "none");
}

TEST_F(Rules, FeedWhatGrowsNextButNoLeanSoilAndNothingForTheWinter) {
  EXPECT_EQ(draft(ClearAndFeed)->clearing, Clearing::Feed);
  const Sheet lean = [] {
    Sheet sheet;
    sheet.lean_soil = true;
    return sheet;
  }();
  sowing_.next_sheet = &lean;
  EXPECT_EQ(draft(ClearAndFeed)->clearing, Clearing::Lean);
  sowing_.next_sheet = nullptr;
  live("2027-04-10", "2027-04-10", "2027-07-01", "2027-09-18");  // 27 days before the first frost
  EXPECT_EQ(draft(ClearAndFeed)->clearing, Clearing::Cover);
  sowing_.next_in_ground = day("2027-10-01");
  EXPECT_EQ(draft(ClearAndFeed)->clearing, Clearing::Rest);
  sowing_.next_in_ground = day("2028-04-01");
  EXPECT_EQ(draft(ClearAndFeed)->clearing, Clearing::Cover);
}

TEST_F(Rules, WhatIsPottedUpFromTheNurseryBedIsNotLinedOutThere) {
  raise(Raised::NurseryBed, {12, 16});
  live("2027-05-10", "2027-08-28", "2028-06-01", "2028-07-01");
  way().prick_out_weeks = 5;
  EXPECT_EQ(told(PrickOut), "2027-06-14, 2027-06-10 to 2027-06-21, nursery bed");
  sheet_.pot = PotLimits{450, 900};
  sowing_.timeline.forecast.stages = {growth::Stage{}};
  sowing_.timeline.forecast.outgrows_module = day("2027-07-01");
  EXPECT_EQ(told(PotOn), "none") << "it stands in soil";
  way().pot_on_weeks = 8;
  EXPECT_EQ(told(PrickOut), "none");
  EXPECT_EQ(told(PotOn), "2027-07-05, 2027-06-28 to 2027-07-12, nursery bed");
}

TEST_F(Rules, LiftAndStoreInsteadOfLifting) {
  EXPECT_EQ(told(LiftAndStore), "none");
  sheet_.lift_and_store = YearlyJob{.window = weeks_from(Frost::First, 0, 3)};
  EXPECT_EQ(told(LiftAndStore), "2027-10-26, 2027-10-15 to 2027-11-05, in place");
  EXPECT_EQ(told(Lift), "none");
  sowing_.next_in_ground = day("2027-09-20");
  EXPECT_EQ(told(LiftAndStore), "none");
  EXPECT_NE(told(Lift), "none");
}

TEST_F(Rules, TubersThatThePlanKeepsStayInTheGroundWhateverTheWinter) {
  sheet_.life_cycle = LifeCycle::Tuber;
  sheet_.lift_and_store = YearlyJob{.window = weeks_from(Frost::First, 0, 3)};
  plan_.place.coldest_c = -22;
  EXPECT_NE(told(LiftAndStore), "none");
  EXPECT_NE(told(LookAtStored), "none");
  plan_.plantings[0].asked.keep = true;
  for (const JobKind kind : {Lift, LiftAndStore, LookAtStored}) EXPECT_EQ(told(kind), "none");
  sowing_.next_in_ground = day("2027-09-20");
  EXPECT_NE(told(Lift), "none") << "the ground is wanted";
}

// -12 degC against -15: Phi(7/3) = 0.99 live; -22: Phi(-1) = 0.16, under a mulch of 4 degC
// Phi(1/3) = 0.63.
TEST_F(Rules, PerennialsAreLiftedWhereAMulchDoesNotBringThemThrough) {
  sheet_.life_cycle = LifeCycle::Perennial;
  sheet_.mulch_gain_c = 4;
  sheet_.lift_and_store = YearlyJob{.window = weeks_from(Frost::First, 0, 3)};
  EXPECT_EQ(told(LiftAndStore), "none") << "nothing is known of the winter";
  plan_.place.coldest_c = -12;
  EXPECT_EQ(told(LiftAndStore), "none");
  plan_.place.coldest_c = -22;
  EXPECT_EQ(told(LiftAndStore), "2027-10-26, 2027-10-15 to 2027-11-05, in place");
  EXPECT_NEAR(draft(LiftAndStore)->alive_if_left.value_or(0), 0.63, 0.01);
}

TEST_F(Rules, ClearOnTheDayOfLifting) {
  EXPECT_EQ(told(ClearAndFeed), "2027-09-01, 2027-09-01 to 2027-10-06, in place");
  sowing_.next_in_ground = day("2027-09-20");
  EXPECT_EQ(told(ClearAndFeed), "2027-09-01, 2027-09-01 to 2027-09-19, in place");
  plan_.work.days = {std::chrono::Saturday};  // 4 September
  EXPECT_EQ(told(ClearAndFeed), "2027-09-04, 2027-09-04 to 2027-09-19, in place");
  sheet_.life_cycle = LifeCycle::Shrub;
  EXPECT_EQ(told(ClearAndFeed), "none");
}

}  // namespace
}  // namespace trug::work
