// SPDX-License-Identifier: MIT
#include "ground/weather_forecast.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "climate/frost_record.h"
#include "growth/cover.h"

namespace trug::ground {
namespace {

using climate::Climate;
using growth::CropClock;
using growth::DateSpread;

constexpr int kMostMissing = 9;  // days of a life, as of a frost winter

// The first cuts of one sowing, year by year, as days after the first day of its season.
struct Lives {
  std::vector<double> first_cuts;
  int without = 0;
  int years() const { return static_cast<int>(first_cuts.size()) + without; }
};

// Whether the climate's record tells these days.
bool told(const Climate& climate, DateRange days) {
  int missing = 0;
  for (Date day = days.from; day < days.until && missing <= kMostMissing; day += Days{1}) {
    if (!climate.measured(day)) ++missing;
  }
  return missing <= kMostMissing;
}

void live_once(const Climate& climate, const CropClock& clock, const Sowing& sowing, Lives& lives) {
  if (lives.years() == kMostYears) return;
  const Way& way = sowing.raised_by();
  const Date season = clock.season().from;
  const Date from = sowing.stands ? season : sowing.start;
  const auto timeline = clock.timeline(way, sowing.start, sowing.in_ground);
  const Date until = timeline ? timeline->first_flower.likely : clock.season().until;
  if (!told(climate, {from, until})) return;
  if (timeline) {
    lives.first_cuts.push_back(days_between(season, timeline->first_cut.likely));
  } else {
    ++lives.without;
  }
}

// Nothing where too few years were told, or where more than half of them never flower.
void take_spread(Lives lives, DateRange season, growth::Timeline& timeline) {
  if (lives.years() < kFewestYears) return;
  std::ranges::sort(lives.first_cuts);
  const auto level = [&](double share) {
    return climate::counted_level(lives.first_cuts, share, 0, lives.without);
  };
  const auto early = level(0.1), middle = level(0.5), late = level(0.9);
  timeline.years = lives.years();
  timeline.years_without = lives.without;
  if (!early || !middle) return;
  const double usual = days_between(timeline.first_cut.early, timeline.first_cut.likely);
  // What is not the weather's is variety and place.
  const double weather = timeline.weather_days;
  const double rest = std::sqrt(std::max(0.0, usual * usual - weather * weather));
  const auto with_rest = [&](double by_weather) {
    return Days{std::lround(std::hypot(by_weather, rest))};
  };
  for (DateSpread* spread : {&timeline.first_flower, &timeline.first_cut}) {
    spread->early = spread->likely - with_rest(*middle - *early);
    spread->late = late ? spread->likely + with_rest(*late - *middle)
                        : std::max(spread->likely, season.until - Days{1});
  }
}

}  // namespace

CropClock clock_of(const Climate& climate, const Sowing& sowing, int flowering_year,
                   int days_late) {
  return {climate,
          *sowing.sheet,
          sowing.group,
          flowering_year,
          growth::Rules{.cover = growth::cover_gain(sowing.cover, sowing.raised_by()),
                        .days_late = days_late},
          sowing.pinched};
}

Schedule retimed(Schedule schedule, const Climate& climate, int flowering_year, int days_late) {
  for (Sowing& sowing : schedule.sowings) {
    if (sowing.against && sowing.without_flower) continue;  // no weather mends that
    const CropClock clock = clock_of(climate, sowing, flowering_year, days_late);
    auto timeline = clock.timeline(sowing.raised_by(), sowing.start, sowing.in_ground,
                                   {sowing.begun.pinched, sowing.begun.first_cut});
    sowing.without_flower = !timeline;
    if (timeline) sowing.timeline = std::move(*timeline);
  }
  return schedule;
}

std::vector<LivedYear> lived_years(const Schedule& schedule, const Climate& averages,
                                   const std::shared_ptr<const DailyRecord>& record,
                                   int flowering_year) {
  std::vector<LivedYear> result;
  const int first = year_of(record->first);
  for (int year = year_of(record->until()); year >= first; --year) {
    if (result.size() == kMostYears) break;
    const Climate climate = averages.with_record(record, year - flowering_year);
    Schedule lived = retimed(schedule, climate, flowering_year);
    const bool is_told = std::ranges::all_of(lived.sowings, [&](const Sowing& sowing) {
      const CropClock clock = clock_of(climate, sowing, flowering_year);
      if (!clock.by_heat() || sowing.begun.first_cut) return true;
      const Date from = sowing.stands ? clock.season().from : sowing.start;
      return told(climate, {from, sowing.without_flower ? clock.season().until
                                                        : sowing.timeline.first_flower.likely});
    });
    if (is_told) result.push_back({year, std::move(lived)});
  }
  return result;
}

Schedule spread_by_years(Schedule schedule, const Climate& averages,
                         const std::shared_ptr<const DailyRecord>& record, int flowering_year) {
  std::vector<Lives> lives(schedule.sowings.size());
  // The latest first: of a longer record only the last years are run.
  const int last = year_of(record->until());
  const int first = std::max(year_of(record->first), last - kMostYears - 2);
  for (int year = last; year >= first; --year) {
    const Climate climate = averages.with_record(record, year - flowering_year);
    for (std::size_t i = 0; i < lives.size(); ++i) {
      const Sowing& sowing = schedule.sowings[i];
      const CropClock clock = clock_of(climate, sowing, flowering_year);
      if (clock.by_heat() && !sowing.begun.first_cut) live_once(climate, clock, sowing, lives[i]);
    }
  }
  const DateRange season{averages.season_start(flowering_year),
                         averages.season_start(flowering_year + 1)};
  for (std::size_t i = 0; i < lives.size(); ++i) {
    take_spread(std::move(lives[i]), season, schedule.sowings[i].timeline);
  }
  return schedule;
}

}  // namespace trug::ground
