// SPDX-License-Identifier: MIT
#include "ground/own_clock.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>
#include <optional>
#include <utility>
#include <vector>

#include "ground/weather_forecast.h"

namespace trug::ground {
namespace {

// Farther off it is another plant, or another day than was meant (memory).
constexpr int kMostDays = 60;
constexpr double kMostTimes = 5;

double middle(std::vector<double> values) {
  std::ranges::sort(values);
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}

// A day of cutting is no first cut unless it is called so.
bool is_first_cut(const Planting& planting, const Sowing& sowing) {
  return std::ranges::any_of(planting.happened, [&](const Happened& one) {
    return one.what == Happening::FirstCut && one.succession == sowing.begun.number &&
           one.repeat == sowing.begun.repeat && one.on == sowing.begun.first_cut;
  });
}

// When it stands or its start was recorded or told: what is only supposed tells nothing.
bool is_start_known(const Sowing& sowing) {
  return sowing.stands || (sowing.begun.way && sowing.begun.start);
}

// By how many days its first cut came later than it would have been forecast.
std::optional<double> days_late(const Planting& planting, const Sowing& sowing,
                                const climate::Climate& climate) {
  if (!is_start_known(sowing) || !is_first_cut(planting, sowing)) return std::nullopt;
  const auto forecast =
      clock_of(climate, sowing, planting.flowering_year)
          .timeline(sowing.raised_by(), sowing.start, sowing.in_ground, {sowing.begun.pinched, {}});
  if (!forecast) return std::nullopt;
  const int days = days_between(forecast->first_cut.likely, *sowing.begun.first_cut);
  return std::abs(days) <= kMostDays ? std::optional<double>(days) : std::nullopt;
}

// How many times as many stems it gave as were reckoned of all its cutting.
std::optional<double> stems_times(const Sowing& sowing) {
  if (!sowing.begun.lift || sowing.begun.counts.empty()) return std::nullopt;
  const std::vector<double>& shares = sowing.timeline.shares;
  const int days = days_between(sowing.timeline.first_cut.likely, *sowing.begun.lift) + 1;
  const std::ptrdiff_t cut = std::clamp<std::ptrdiff_t>(days, 0, std::ssize(shares));
  const double reckoned = sowing.stems_of(sowing.plants) * sowing.cut_share *
                          std::accumulate(shares.begin(), shares.begin() + cut, 0.0);
  double counted = 0;
  for (const Counted& one : sowing.begun.counts) counted += one.stems;
  if (reckoned <= 0 || counted <= 0) return std::nullopt;
  return std::clamp(counted / reckoned, 1 / kMostTimes, kMostTimes);
}

}  // namespace

OwnClock own_clock(const Plan& plan, const Schedule& schedule, const climate::Climate& climate) {
  std::vector<double> days, times;
  for (const Sowing& sowing : schedule.sowings) {
    const Planting& planting = plan.plantings[sowing.planting];
    if (const auto late = days_late(planting, sowing, climate)) days.push_back(*late);
    if (const auto gave = stems_times(sowing)) times.push_back(*gave);
  }
  OwnClock own;
  if (days.size() >= kFewestRecords) {
    own.dates = static_cast<int>(days.size());
    own.days_late = static_cast<int>(std::lround(middle(std::move(days))));
  }
  if (times.size() >= kFewestRecords) {
    own.counts = static_cast<int>(times.size());
    own.stems_times = middle(std::move(times));
  }
  return own;
}

Schedule by_own_clock(Schedule schedule, const OwnClock& own, const climate::Climate& climate,
                      int flowering_year) {
  if (own.days_late != 0) {
    schedule = retimed(std::move(schedule), climate, flowering_year, own.days_late);
  }
  for (Sowing& sowing : schedule.sowings) {
    if (sowing.begun.counts.empty()) sowing.stem_factor *= own.stems_times;
  }
  schedule.own = own;
  return schedule;
}

}  // namespace trug::ground
