// SPDX-License-Identifier: MIT
#include "work/seeds.h"

#include <algorithm>

namespace trug::work {
namespace {

constexpr double kSeedsInPlace = 3, kComeUpInPlace = 2;
constexpr double kForTheWinter = 1.125;

}  // namespace

double seeds_per_plant(const ground::Sowing& sowing) {
  const double comes_up = sowing.sheet->buy.comes_up.value_or(1);
  if (!is_sown_in_place(sowing.raised_by())) return kSeedlingsPerPlant / comes_up;
  const double seeds = std::max(kSeedsInPlace, kComeUpInPlace / comes_up);
  return sowing.overwinters ? seeds * kForTheWinter : seeds;
}

}  // namespace trug::work
