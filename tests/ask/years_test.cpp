// SPDX-License-Identifier: MIT
#include "ask/years.h"

#include <gtest/gtest.h>

#include <array>
#include <chrono>
#include <cmath>
#include <memory>
#include <numbers>
#include <string>

#include "plan_text.h"
#include "work/planned.h"

namespace trug::ask {
namespace {

// Years of one and the same weather but for a warmth of their own: the plan's place, degrees more.
MeasuredWeather weather(int first, int last, double (*warmer)(int)) {
  auto record = std::make_shared<DailyRecord>();
  record->first = make_date(first, 1, 1);
  for (Date day = record->first; day < make_date(last + 1, 1, 1); day += Days{1}) {
    const double angle =
        2 * std::numbers::pi * (days_between(make_date(year_of(day), 1, 1), day) - 197) / 365.25;
    const double mean = 10.6 + 6.4 * std::cos(angle) + warmer(year_of(day));
    record->days.push_back({mean - 4, mean + 4});
  }
  return {record, 3};
}

double steady(int) { return 0; }
double swinging(int year) { return year % 2 == 0 ? 2.5 : -2.5; }

std::string wish(double vases, const std::string& beds) {
  return "[wish]\nvases_per_week = " + std::to_string(vases) +
         "\nstems_per_vase = 10\nfrom = \"1 June\"\nto = \"30 September\"\n" + beds;
}

std::string mixed_beds() {
  return bed_text("lane", "6.7", "0.9",
                  {{"1.3", "crops = [\"cosmos\"]"},
                   {"1.1", "crops = [\"strawflower\"]"},
                   {"1.2", "crops = [\"orlaya\"]"},
                   {"0.9", "crops = [\"statice\"]"}});
}

Chances chances_of(double vases, const MeasuredWeather& weather, std::uint64_t seed = 1,
                   int drawn = 300) {
  const Planned p = planned("", wish(vases, mixed_beds()), weather);
  auto found =
      chances({p.plan, p.sheets, *p.climate, make_date(2026, 1, 1), weather}, p, seed, drawn);
  EXPECT_TRUE(found);
  return found.value_or(Chances{});
}

TEST(Years, AreToldByTenAtLeast) {
  for (const int years : {0, 8, 9, 12, 45}) {
    const auto record = weather(2026 - years - 1, 2025, steady);
    const Planned p = planned("", wish(1, mixed_beds()), record);
    const auto found =
        chances({p.plan, p.sheets, *p.climate, make_date(2026, 1, 1), record}, p, 1, 10);
    // A life begins in the year before its flowers, or in theirs.
    ASSERT_EQ(found.has_value(), years >= 10) << years;
    if (!found) continue;
    EXPECT_LE(found->recorded, 30);
    EXPECT_EQ(found->last_year, 2025);
  }
}

TEST(Years, OfOneSeedAreTheSame) {
  const auto record = weather(2005, 2025, swinging);
  const auto shares = [&](std::uint64_t seed) {
    std::vector<double> result;
    for (const WeekChance& week : chances_of(1, record, seed).weeks) result.push_back(week.full);
    return result;
  };
  EXPECT_EQ(shares(4), shares(4));
  EXPECT_NE(shares(4), shares(5));
}

TEST(Years, GiveSharesAndStemsWithinTheVases) {
  const Chances found = chances_of(1, weather(2005, 2025, swinging));
  ASSERT_GT(found.weeks.size(), 15u);
  for (const WeekChance& week : found.weeks) {
    EXPECT_GE(week.full, 0);
    EXPECT_GE(week.half, 0);
    EXPECT_LE(week.full + week.half, 1 + 1e-9);
    EXPECT_LE(week.usable.low, week.usable.likely);
    EXPECT_LE(week.usable.likely, week.usable.high);
    EXPECT_LE(week.usable.high, 10 + 1e-9);
    // The middle year has its vases exactly where half of the years have, or more.
    if (week.full > 0.55) {
      EXPECT_NEAR(week.usable.likely, 10, 1e-6);
    } else if (week.full < 0.45) {
      EXPECT_LT(week.usable.likely, 10);
    }
  }
}

// Fewer vases are full more often, in every week.
TEST(Years, FallWithWhatIsWished) {
  const auto record = weather(2005, 2025, swinging);
  const Chances few = chances_of(0.5, record), many = chances_of(3, record);
  double differ = 0;
  for (std::size_t i = 0; i < few.weeks.size(); ++i) {
    EXPECT_GE(few.weeks[i].full, many.weeks[i].full) << iso(few.weeks[i].monday);
    differ += few.weeks[i].full - many.weeks[i].full;
  }
  EXPECT_GT(differ, 2);
}

// Where the years differ, the weeks at the beginning are less sure than where they do not.
TEST(Years, AreLessSureWhereTheWeatherSwings) {
  const auto in_doubt = [](const Chances& chances) {
    double sum = 0;
    for (const WeekChance& week : chances.weeks) sum += week.usable.high - week.usable.low;
    return sum;
  };
  EXPECT_GT(in_doubt(chances_of(1, weather(2005, 2025, swinging))),
            in_doubt(chances_of(1, weather(2005, 2025, steady))) + 5);
}

// One crop in bunches of its own, of which the week wants far less or far more than it can give:
// always, and never.
TEST(Years, AreSureOfWhatIsSure) {
  const auto record = weather(2005, 2025, steady);
  for (const bool enough : {true, false}) {
    const std::string beds =
        "mixed = false\n" + bed_text("lane", "9.3", "0.9", {{"9.1", "crops = [\"cosmos\"]"}});
    const Planned p = planned("", wish(enough ? 0.3 : 90, beds), record);
    const auto found =
        chances({p.plan, p.sheets, *p.climate, make_date(2026, 1, 1), record}, p, 1, 200);
    ASSERT_TRUE(found);
    const Date august = make_date(2027, 8, 16);
    for (const WeekChance& week : found->weeks) {
      if (week.monday != monday_of(august)) continue;
      EXPECT_EQ(week.full, enough ? 1 : 0);
      EXPECT_EQ(week.half, 0);
    }
  }
}

}  // namespace
}  // namespace trug::ask
