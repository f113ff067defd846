// SPDX-License-Identifier: MIT
#include "work/seeds.h"

#include <algorithm>
#include <cmath>

#include "growth/winter.h"

namespace trug::work {
namespace {

constexpr double kSeedsInPlace = 3, kComeUpInPlace = 2;
constexpr double kForTheWinter = 1.125;
constexpr double kMostBegun = 2;

}  // namespace

double begun_per_plant(const ground::Sowing& sowing) {
  if (sowing.alive >= growth::kUsuallyAlive) return 1;
  return std::min(kMostBegun, 1 / sowing.alive);
}

int spare_plants(const ground::Sowing& sowing) {
  return static_cast<int>(std::ceil(sowing.plants * (begun_per_plant(sowing) - 1)));
}

bool is_mulched(const Sheet& sheet) {
  return is_planted(sheet.life_cycle) || stays_in_ground(sheet.life_cycle);
}

double seeds_per_plant(const ground::Sowing& sowing) {
  const double comes_up = sowing.sheet->buy.comes_up.value_or(1);
  const double begun = begun_per_plant(sowing);
  if (!is_sown_in_place(sowing.raised_by())) return std::max(kSeedlingsPerPlant, begun) / comes_up;
  const double seeds = std::max(kSeedsInPlace, kComeUpInPlace / comes_up);
  return sowing.overwinters ? seeds * std::max(kForTheWinter, begun) : seeds;
}

}  // namespace trug::work
