// SPDX-License-Identifier: MIT
// What must be true of every sheet that goes by heat, whatever its constants.
#include <gtest/gtest.h>

#include <algorithm>

#include "growth/forecaster.h"
#include "lowland.h"
#include "read/sheet_library.h"

namespace trug::growth {
namespace {

struct Kind {
  std::string name;
  Growth growth;
};

// Every sheet and group with heat constants; `chilled`: those that need cold too.
std::vector<Kind> kinds(bool chilled) {
  static read::SheetLibrary library;
  std::vector<Kind> found;
  Diagnostics diagnostics;
  for (const std::string& name : library.names()) {
    const Sheet* sheet = library.find(name, diagnostics);
    if (!sheet) continue;
    if (sheet->growth) found.push_back({name, *sheet->growth});
    for (const Group& group : sheet->groups) {
      if (group.growth) found.push_back({name + ", " + group.name, *group.growth});
    }
  }
  std::erase_if(found, [&](const Kind& kind) {
    // What light rules is asked with its days of light, in forecaster_test.
    return (kind.growth.vernal_days && !chilled) || kind.growth.after_light;
  });
  return found;
}

Place warmer(Place place) {
  for (double& mean : std::get<MonthlyMeans>(place.temperatures).mean_c) mean += 1;
  return place;
}

Place mirrored(Place place) {
  place.latitude = -place.latitude;
  auto& means = std::get<MonthlyMeans>(place.temperatures).mean_c;
  std::rotate(means.begin(), means.begin() + 6, means.end());
  return place;
}

const DateRange kSpan{make_date(2026, 1, 1), make_date(2030, 1, 1)};

std::optional<Date> flower(const Forecaster& forecaster, Date sown) {
  return forecaster.forecast({.start = sown, .in_ground = sown}).first_flower;
}

// A day on which it never flowers counts as after all others.
Date or_never(const std::optional<Date>& day) { return day.value_or(kSpan.until); }

TEST(Sheets, LaterSowingNeverFlowersEarlierAndWarmerNeverLater) {
  const auto here = climate::Climate::from(lowland());
  const auto warm = climate::Climate::from(warmer(lowland()));
  const auto list = kinds(false);
  EXPECT_GE(list.size(), 40u);
  for (const Kind& kind : list) {
    const Forecaster forecaster(here, kind.growth, kSpan), warmer_one(warm, kind.growth, kSpan);
    Date before = kSpan.from;
    for (int i = 0; i < 366; ++i) {
      const Date sown = make_date(2026, 8, 1) + Days{i};
      SCOPED_TRACE(kind.name + " sown " + iso(sown));
      const Date day = or_never(flower(forecaster, sown));
      ASSERT_GE(day, before);
      ASSERT_LE(or_never(flower(warmer_one, sown)), day);
      before = day;
    }
  }
}

// Six months on and south, 184 days from the northern day. A spring sowing that flowers by the
// middle of August agrees within two days. Through the winter it may come up to nine days later:
// the months of the means are not of one length, and the Earth goes faster in January, so that
// southern springs are shorter of light.
TEST(Sheets, TheSouthIsTheNorthSixMonthsOn) {
  const auto north = climate::Climate::from(lowland());
  const auto south = climate::Climate::from(mirrored(lowland()));
  const Date springs[] = {make_date(2026, 4, 1), make_date(2026, 5, 1), make_date(2026, 5, 20)};
  const Date autumn = make_date(2026, 9, 10);
  int compared = 0;
  for (const Kind& kind : kinds(true)) {
    const Forecaster up(north, kind.growth, kSpan), down(south, kind.growth, kSpan);
    const auto later = [&](Date sown) { return flower(down, sown + Days{184}); };
    for (const Date sown : springs) {
      const auto one = flower(up, sown), other = later(sown);
      if (!one || *one < make_date(2026, 6, 1) || *one > make_date(2026, 8, 15)) continue;
      SCOPED_TRACE(kind.name + " sown " + iso(sown));
      ASSERT_TRUE(other);
      EXPECT_NEAR(days_between(*one, *other), 184, 2);
      ++compared;
    }
    const bool anew = kind.growth.counts_from == CountsFrom::Season;
    const Date start = anew ? make_date(2027, 1, 1) : autumn;
    const auto one = flower(up, start), other = later(start);
    SCOPED_TRACE(kind.name + " from " + iso(start));
    ASSERT_TRUE(one && other);
    EXPECT_GE(days_between(*one, *other), 183);
    EXPECT_LE(days_between(*one, *other), 193);
  }
  EXPECT_GE(compared, 80);
}

// Walked back from flowers every fortnight while the year warms, as successions are: the sowings
// draw together. A day is let go, for days are whole.
TEST(Sheets, SowingGapsDoNotGrowWhileItWarms) {
  const auto climate = climate::Climate::from(lowland());
  for (const Kind& kind : kinds(false)) {
    if (kind.growth.day_length.kind == DayLengthResponse::Kind::CriticalShort) continue;
    const Forecaster forecaster(climate, kind.growth, kSpan);
    std::vector<Date> sown;
    for (int j = 0; j < 5; ++j) {
      const Date target = make_date(2027, 6, 20) + Days{14 * j};
      Date start = target;
      while (start > kSpan.from && or_never(flower(forecaster, start)) > target) start -= Days{1};
      sown.push_back(start);
    }
    SCOPED_TRACE(kind.name);
    for (std::size_t j = 2; j < sown.size(); ++j) {
      if (sown[j - 2] < make_date(2027, 1, 15)) continue;  // sown before the year's coldest days
      EXPECT_LE(days_between(sown[j - 1], sown[j]), days_between(sown[j - 2], sown[j - 1]) + 1)
          << iso(sown[j]);
    }
  }
}

}  // namespace
}  // namespace trug::growth
