// SPDX-License-Identifier: MIT
#include "ground/schedule.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <span>

namespace trug::ground {
namespace {

int across(Millimetres length, double spacing_cm) {
  const double plants = static_cast<double>(length.value()) / (spacing_cm * 10);
  return std::max(1, static_cast<int>(std::floor(plants + 0.5)));
}

// Puts a count on its days as they were forecast; where they were counted before, or nothing was
// forecast, on the last of them. Comes back: what was forecast.
double take_count(int stems, bool counted_before, std::span<double> days) {
  const double forecast = counted_before ? 0 : std::accumulate(days.begin(), days.end(), 0.0);
  if (forecast > 0) {
    for (double& day : days) day *= stems / forecast;
  } else {
    days.back() += stems;
  }
  return forecast;
}

// What was counted stands for the days since the count before it; the rest follows all that was by
// the share of the cutting that is over.
void take_counts(const Sowing& sowing, std::vector<double>& by_day) {
  const double whole = std::accumulate(by_day.begin(), by_day.end(), 0.0);
  double forecast = 0, stems = 0;
  std::size_t from = 0;
  for (const Counted& count : sowing.begun.counts) {
    const int days = days_between(sowing.timeline.first_cut.likely, count.on) + 1;
    const auto until = static_cast<std::size_t>(std::max(1, days));
    by_day.resize(std::max(by_day.size(), until));
    const std::size_t first = std::min(from, until - 1);
    forecast += take_count(count.stems, from >= until, {by_day.data() + first, until - first});
    stems += count.stems;
    from = std::max(from, until);
  }
  if (forecast <= 0 || whole <= 0) return;
  double rest = 1 + forecast / whole * (stems / forecast - 1);
  if (whole > forecast && sowing.sheet->habit == Habit::Single) {
    // What is cut sooner was cut already.
    rest = std::max(0.0, whole - stems) / (whole - forecast);
  }
  for (std::size_t day = from; day < by_day.size(); ++day) by_day[day] *= rest;
}

// By day from the first cut, as one of all the stems that are likely before any is counted.
std::vector<double> shares(const Sowing& sowing) {
  if (!sowing.is_cut()) return {};
  std::vector<double> result = sowing.timeline.shares;
  const double all = sowing.stems_of(sowing.plants) * sowing.cut_share;
  if (sowing.begun.counts.empty() || all <= 0) return result;
  for (double& share : result) share *= all;
  take_counts(sowing, result);
  for (double& share : result) share /= all;
  return result;
}

harvest::Cut cut(const CropEntry& asked, const Sowing& sowing) {
  const growth::Timeline& timeline = sowing.timeline;
  const Range yield = sowing.spec().stems_per_plant(sowing.raised_by());
  const double all = sowing.stems_of(sowing.plants) * sowing.cut_share;
  const bool ends_by_itself = !sowing.another_follows() && !timeline.cut_short &&
                              !asked.pins.lift_on && sowing.lift >= timeline.last_cut();
  return {.planting = sowing.planting,
          .crop = sowing.sheet->name,
          .role = sowing.sheet->roles.front(),
          .colours = known_colours(asked, *sowing.sheet),
          .first_early = timeline.first_cut.early,
          .first = timeline.first_cut.likely,
          .first_late = timeline.first_cut.late,
          .in_ground = sowing.in_ground,
          .lift = sowing.lift,
          .moves_with_first = ends_by_itself,
          .shares = shares(sowing),
          .stems = {all * yield.low / yield.middle(), all, all * yield.high / yield.middle()},
          .length = sowing.length};
}

}  // namespace

std::vector<std::string> known_colours(const CropEntry& asked, const Sheet& sheet) {
  if (!asked.colours.empty()) return asked.colours;
  return sheet.colours.size() == 1 ? sheet.colours : std::vector<std::string>{};
}

Layout layout(const Planting& planting, const Sheet& sheet, int sowings) {
  const CropEntry& asked = planting.asked;
  if (!planting.patch) return {.plants = asked.plants.value_or(1)};
  Layout result;
  result.spacing_cm = asked.spacing_cm.value_or(sheet.spacing_cm.middle());
  result.rows =
      sowings * across(Millimetres{planting.patch->length.value() / sowings}, result.spacing_cm);
  result.per_row = across(planting.patch->width, result.spacing_cm);
  if (sheet.arrangement == Arrangement::DoubleRow) result.per_row = std::min(result.per_row, 2);
  if (sheet.row_cm) result.per_row = across(planting.patch->width, *sheet.row_cm);
  result.plants = asked.plants.value_or(result.room());
  return result;
}

int Weighed::most_sowings() const {
  std::size_t most = 0;
  for (const Stream& stream : streams) most = std::max(most, stream.sowings.size());
  return static_cast<int>(most);
}

int Weighed::strips(const CropEntry& asked, const Stream& stream) const {
  const auto sowings = static_cast<int>(stream.sowings.size());
  for (const Begun& one : begun) {
    if (one.strips) return std::max(sowings, *one.strips);
  }
  if (candidates->known.empty()) return sowings;
  return std::max(sowings, asked.successions.value_or(begun.empty() ? 1 : begun.back().number));
}

std::span<const Sowing> Schedule::of(std::size_t planting) const {
  const auto first = std::ranges::lower_bound(sowings, planting, {}, &Sowing::planting);
  const auto last = std::ranges::upper_bound(sowings, planting, {}, &Sowing::planting);
  return {first, last};
}

std::vector<double> stems_by_day(const Sowing& sowing) {
  if (!sowing.is_cut()) return {};
  const double all = sowing.stems_of(sowing.plants) * sowing.cut_share;
  const int days = days_between(sowing.timeline.first_cut.likely, sowing.lift) + 1;
  std::vector<double> result;
  for (std::size_t i = 0; i < sowing.timeline.shares.size() && static_cast<int>(i) < days; ++i) {
    result.push_back(all * sowing.timeline.shares[i]);
  }
  take_counts(sowing, result);
  return result;
}

double stems(const Sowing& sowing) {
  const auto by_day = stems_by_day(sowing);
  return std::accumulate(by_day.begin(), by_day.end(), 0.0);
}

double stems(std::span<const Sowing> sowings) {
  double sum = 0;
  for (const Sowing& sowing : sowings) sum += stems(sowing);
  return sum;
}

std::vector<harvest::Cut> cuts(const Plan& plan, const Schedule& schedule) {
  std::vector<harvest::Cut> result;
  for (const auto& list : {std::span(schedule.sowings), std::span(schedule.failed)}) {
    for (const Sowing& sowing : list) {
      result.push_back(cut(plan.plantings[sowing.planting].asked, sowing));
    }
  }
  return result;
}

}  // namespace trug::ground
