// SPDX-License-Identifier: MIT
#include "ground/schedule.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace trug::ground {
namespace {

int across(Millimetres length, double spacing_cm) {
  const double plants = static_cast<double>(length.value()) / (spacing_cm * 10);
  return std::max(1, static_cast<int>(std::floor(plants + 0.5)));
}

}  // namespace

Layout layout(const Planting& planting, const Sheet& sheet) {
  const CropEntry& asked = planting.asked;
  if (!planting.patch) return {.plants = asked.plants.value_or(1)};
  const int sowings = std::max(1, asked.successions);
  Layout result;
  result.spacing_cm = asked.spacing_cm.value_or(sheet.spacing_cm.middle());
  result.rows =
      sowings * across(Millimetres{planting.patch->length.value() / sowings}, result.spacing_cm);
  result.per_row = across(planting.patch->width, result.spacing_cm);
  result.plants = asked.plants.value_or(result.room());
  return result;
}

std::span<const Sowing> Schedule::of(std::size_t planting) const {
  const auto first = std::ranges::lower_bound(sowings, planting, {}, &Sowing::planting);
  const auto last = std::ranges::upper_bound(sowings, planting, {}, &Sowing::planting);
  return {first, last};
}

std::vector<double> stems_by_day(const Sowing& sowing) {
  if (!sowing.is_cut()) return {};
  const double all = sowing.stems_of(sowing.plants);
  const int days = days_between(sowing.timeline.first_cut.likely, sowing.lift) + 1;
  std::vector<double> result;
  for (std::size_t i = 0; i < sowing.timeline.shares.size() && static_cast<int>(i) < days; ++i) {
    result.push_back(all * sowing.timeline.shares[i]);
  }
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

std::vector<harvest::Cut> cuts(const Schedule& schedule) {
  std::vector<harvest::Cut> result;
  for (const Sowing& sowing : schedule.sowings) {
    result.push_back({sowing.planting, sowing.timeline.first_cut.likely, stems_by_day(sowing)});
  }
  return result;
}

}  // namespace trug::ground
