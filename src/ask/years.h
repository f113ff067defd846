// SPDX-License-Identifier: MIT
// How likely each week has its vases, by the years of the place's own record.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "ask/garden.h"
#include "ask/reckon.h"
#include "base/date.h"
#include "harvest/weeks.h"

namespace trug::ask {

struct WeekChance {
  Date monday;
  double full = 0;       // of the years drawn, the share in which it has its vases
  double half = 0;       // half of them at least, and not all
  harvest::Span usable;  // stems that find a place in the vases: 10, 50 and 90 years in 100
};

struct Chances {
  int first_year = 0, last_year = 0;  // recorded
  int recorded = 0;                   // years that the record tells
  int drawn = 0;
  std::uint64_t seed = 0;
  std::vector<WeekChance> weeks;
};

inline constexpr int kDrawnYears = 1000;

// Each drawn year takes the weather of one recorded year for all that is planted, draws for each
// crop by how much its variety and place come sooner or later than reckoned, and what a plant
// yields, evenly from the sheet's range; and for each sowing how many plants are fit to cut, evenly
// from 0.7 to 0.9 of them (memory). The schedule stays; what windows decide moves by its usual
// spread. The same seed draws the same. nullopt: the record tells fewer than ground::kFewestYears.
// The plan has a wish and the garden weather.
std::optional<Chances> chances(const Garden& garden, const Outcome& now, std::uint64_t seed,
                               int drawn = kDrawnYears);

}  // namespace trug::ask
