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

int plants_to_raise(const ground::Sowing& sowing) {
  constexpr int kThroughWinter = 120;  // days to its flower
  const bool stands_out =
      sowing.overwinters &&
      days_between(sowing.in_ground, sowing.timeline.first_flower.likely) > kThroughWinter;
  const double begun = std::max(begun_per_plant(sowing), stands_out ? kForTheWinter : 1);
  return static_cast<int>(std::ceil(sowing.plants * begun - 1e-9));
}

int spare_plants(const ground::Sowing& sowing) {
  return static_cast<int>(std::ceil(sowing.plants * (begun_per_plant(sowing) - 1)));
}

bool is_mulched(const Sheet& sheet) {
  const bool is_green = sheet.life_cycle == LifeCycle::Corm && !sheet.stays_under;
  return !is_green && (is_planted(sheet.life_cycle) || stays_in_ground(sheet.life_cycle));
}

double seeds_per_plant(const ground::Sowing& sowing) {
  const double comes_up = sowing.sheet->buy.comes_up.value_or(1);
  const double begun = begun_per_plant(sowing);
  if (!is_sown_in_place(sowing.raised_by())) return std::max(kSeedlingsPerPlant, begun) / comes_up;
  const double seeds = std::max(kSeedsInPlace, kComeUpInPlace / comes_up);
  return sowing.overwinters ? seeds * std::max(kForTheWinter, begun) : seeds;
}

}  // namespace trug::work
