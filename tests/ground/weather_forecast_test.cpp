// SPDX-License-Identifier: MIT
// Made-up weather of constant days, whose heat can be added up by hand: above 5 degC a crop that can
// respond at once (and so feels the air, not the ground) needs 300 degree-days to flower, so at 10,
// 15 and 25 degC its first flower opens on the 60th, 30th and 15th day of its life.
#include "ground/weather_forecast.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "ground/made_up_garden.h"
#include "ground/plan_choice.h"

namespace trug::ground {
namespace {

constexpr int kYear = 2027;

Sheet mallow() {
  Sheet sheet = crop("mallow", LifeCycle::HardyAnnual, -15, Habit::CutAndComeAgain, {5, 7},
                     {15, 25}, {20, 25});
  sheet.growth = Growth{5, 30, 0, 300, {}, std::nullopt};
  sheet.ways = {sown_in_place("in spring", after_last(-4, 2))};
  return sheet;
}

struct Grown {
  Sheet sheet = mallow();
  Plan plan;
  std::optional<climate::Climate> climate;
  Schedule choice;

  explicit Grown(int successions = 1) {
    plan.flowering_year = kYear;
    plan.place = lowland();
    Bed bed;
    bed.name = "lane bed";
    bed.length = bed.width = Millimetres{1000};
    CropEntry entry;
    entry.crop = "mallow";
    entry.successions = successions;
    bed.stretches = {{.length = Millimetres{1000}}};
    plan.beds = {bed};
    add_planting(plan, 0, 0, entry);
    climate.emplace(climate::Climate::from(plan.place));
    choice = choose_plan(plan, {{"mallow", &sheet}}, *climate);
  }

  const Sowing& sowing() const { return choice.sowings.front(); }
  const growth::Timeline& timeline() const { return sowing().timeline; }
};

// Days of the same mean from `from` on.
void add(DailyRecord& record, Date from, Date until, double mean_c) {
  if (record.days.empty()) record.first = from;
  record.days.resize(static_cast<std::size_t>(days_between(record.first, from)));
  record.days.resize(static_cast<std::size_t>(days_between(record.first, until)),
                     {mean_c - 4, mean_c + 4});
}

// Whole years from 2000 on, each of one mean.
std::shared_ptr<DailyRecord> years(const std::vector<double>& means) {
  auto record = std::make_shared<DailyRecord>();
  int year = 2000;
  for (const double mean : means) {
    add(*record, make_date(year, 1, 1), make_date(year + 1, 1, 1), mean);
    ++year;
  }
  return record;
}

void measure(Grown& grown, const DailyRecord& record) {
  grown.choice = retimed(grown.choice,
                         grown.climate->with_record(std::make_shared<DailyRecord>(record)), kYear);
}

TEST(Retimed, MovesTheFlowerAndNothingElse) {
  const Grown before;
  Grown grown;
  const Sowing& was = before.sowing();
  ASSERT_EQ(was.timeline.basis, growth::Basis::Heat);
  DailyRecord warm;
  add(warm, make_date(kYear, 1, 1), make_date(kYear, 12, 1), 25);
  measure(grown, warm);
  const Sowing& now = grown.sowing();
  EXPECT_EQ(now.start, was.start);
  EXPECT_EQ(now.in_ground, was.in_ground);
  EXPECT_EQ(now.lift, was.lift);
  EXPECT_EQ(now.timeline.first_flower.likely, now.start + Days{14});
  EXPECT_EQ(now.timeline.first_cut.likely, now.start + Days{21});
  EXPECT_EQ(now.timeline.basis, growth::Basis::Measured);
  EXPECT_EQ(now.timeline.measured_until, now.timeline.first_flower.likely);
  // What of the spread is not the weather's stays.
  const auto rest = [](const growth::Timeline& timeline) {
    return std::pow(timeline.spread_days, 2) - std::pow(timeline.weather_days, 2);
  };
  EXPECT_NEAR(rest(now.timeline), rest(was.timeline), 1e-9);
  EXPECT_EQ(now.timeline.first_cut.late - now.timeline.first_cut.likely,
            Days{std::lround(now.timeline.spread_days)});
  EXPECT_EQ(cuts(grown.plan, grown.choice).front().first, now.timeline.first_cut.likely);
  EXPECT_LT(now.timeline.first_cut.likely, was.timeline.first_cut.likely);
}

TEST(Retimed, AveragesGoOnWhereTheRecordEnds) {
  const Grown before;
  Grown grown;
  const Date start = grown.sowing().start;
  DailyRecord five;
  add(five, start, start + Days{5}, 25);
  measure(grown, five);
  const growth::Timeline& timeline = grown.timeline();
  EXPECT_EQ(timeline.basis, growth::Basis::Measured);
  EXPECT_EQ(timeline.measured_until, start + Days{4});
  EXPECT_GT(timeline.first_flower.likely, start + Days{14});
  EXPECT_LT(timeline.first_flower.likely, before.timeline().first_flower.likely);
}

TEST(Retimed, ARecordOfOtherDaysChangesNothing) {
  const Grown before;
  Grown grown;
  measure(grown, *years({25, 25}));
  EXPECT_EQ(grown.timeline().basis, growth::Basis::Heat);
  EXPECT_FALSE(grown.timeline().measured_until);
  EXPECT_EQ(grown.timeline().first_cut.likely, before.timeline().first_cut.likely);
}

// A degree above the base a day: three hundred days to the flower, beyond the year.
TEST(Retimed, TooColdToFlowerWithinTheYear) {
  Grown grown;
  DailyRecord cold;
  add(cold, make_date(kYear, 1, 1), make_date(kYear + 1, 12, 1), 6);
  measure(grown, cold);
  EXPECT_TRUE(grown.sowing().without_flower);
  EXPECT_FALSE(grown.sowing().is_cut());
  EXPECT_TRUE(cuts(grown.plan, grown.choice).front().shares.empty());
}

// Two and a half degrees above the base a day: it flowers on the 120th day of its life, a week
// before the first cut. It is lifted between the first cut that averages would give and that one.
TEST(Retimed, MeasuredWeatherStandsThoughItDelaysTheCutBeyondTheLift) {
  Grown grown;
  Sowing& sowing = grown.choice.sowings.front();
  const Date cut = sowing.start + Days{119 + 7};
  ASSERT_LT(sowing.timeline.first_cut.likely, cut);
  sowing.lift = cut - Days{1};
  DailyRecord cool;
  add(cool, make_date(kYear, 1, 1), make_date(kYear + 1, 1, 1), 7.5);
  measure(grown, cool);
  EXPECT_EQ(grown.timeline().first_cut.likely, cut);
  EXPECT_EQ(grown.timeline().basis, growth::Basis::Measured);
  EXPECT_FALSE(grown.sowing().is_cut());
  EXPECT_TRUE(cuts(grown.plan, grown.choice).front().shares.empty());
  grown.choice.sowings.front().lift = cut;
  EXPECT_TRUE(grown.sowing().is_cut());
}

TEST(Retimed, EverySowingOfASuccession) {
  Grown grown(2);
  ASSERT_EQ(grown.choice.sowings.size(), 2U);
  DailyRecord warm;
  add(warm, make_date(kYear, 1, 1), make_date(kYear, 12, 1), 25);
  measure(grown, warm);
  for (const Sowing& sowing : grown.choice.sowings) {
    EXPECT_EQ(sowing.timeline.first_cut.likely, sowing.start + Days{21});
  }
}

void spread(Grown& grown, const std::shared_ptr<DailyRecord>& record) {
  grown.choice = spread_by_years(grown.choice, *grown.climate, record, kYear);
}

// Twelve years, four each of first flowers on the 15th, 30th and 60th day. By Hazen's positions the
// 10, 50 and 90 in 100 stand at ranks 1.7, 6.5 and 11.3: 15 and 30 days from the middle. Of the
// usual 18 days weather has 7: variety and place have the root of 18 x 18 - 7 x 7, 16.58.
TEST(SpreadByYears, TakesTheYearsOfTheRecord) {
  const Grown before;
  Grown grown;
  spread(grown, years({10, 15, 25, 25, 15, 10, 10, 15, 25, 25, 15, 10}));
  const growth::Timeline& timeline = grown.timeline();
  const growth::Timeline& was = before.timeline();
  EXPECT_EQ(timeline.years, 12);
  EXPECT_EQ(timeline.years_without, 0);
  for (const auto& [now, then] : {std::pair(timeline.first_cut, was.first_cut),
                                  std::pair(timeline.first_flower, was.first_flower)}) {
    EXPECT_EQ(now.likely, then.likely);
    EXPECT_EQ(days_between(now.early, now.likely), 22);
    EXPECT_EQ(days_between(now.likely, now.late), 34);
  }
}

// Two years at the base itself give no heat: with them the 90 in 100 never comes.
TEST(SpreadByYears, YearsWithoutAFlowerComeLast) {
  Grown grown;
  spread(grown, years({10, 15, 25, 25, 15, 10, 5, 15, 25, 25, 15, 5}));
  EXPECT_EQ(grown.timeline().years, 12);
  EXPECT_EQ(grown.timeline().years_without, 2);
  EXPECT_EQ(days_between(grown.timeline().first_cut.early, grown.timeline().first_cut.likely), 22);
  EXPECT_EQ(iso(grown.timeline().first_cut.late), "2027-12-31");
}

TEST(SpreadByYears, UnderTenYearsTheUsualSpreadStays) {
  Grown grown;
  spread(grown, years({10, 15, 25, 25, 15, 10, 10, 15, 25}));
  EXPECT_EQ(grown.timeline().years, 0);
  EXPECT_EQ(days_between(grown.timeline().first_cut.early, grown.timeline().first_cut.likely), 18);
  EXPECT_EQ(days_between(grown.timeline().first_cut.likely, grown.timeline().first_cut.late), 18);
}

TEST(SpreadByYears, AYearWithTenDaysMissingIsNotCounted) {
  for (const int missing : {9, 10}) {
    SCOPED_TRACE(missing);
    Grown grown;
    auto record = years({10, 15, 25, 25, 15, 10, 10, 15, 25, 25, 15});
    const Date sown = on({std::chrono::month{month_of(grown.sowing().start)},
                          std::chrono::year_month_day{grown.sowing().start}.day()},
                         2005);
    for (int day = 0; day < missing; ++day) {
      record->days[static_cast<std::size_t>(days_between(record->first, sown) + day)] = {};
    }
    spread(grown, record);
    EXPECT_EQ(grown.timeline().years, missing == 9 ? 11 : 10);
  }
}

TEST(SpreadByYears, OfALongRecordTheLastThirty) {
  Grown grown;
  std::vector<double> means(70, 10);
  std::fill(means.end() - 30, means.end(), 15);
  spread(grown, years(means));
  EXPECT_EQ(grown.timeline().years, kMostYears);
  // Thirty years alike: only variety and place are left.
  EXPECT_EQ(days_between(grown.timeline().first_cut.early, grown.timeline().first_cut.late), 34);
}

}  // namespace
}  // namespace trug::ground
