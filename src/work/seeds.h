// SPDX-License-Identifier: MIT
// How much seed is sown for the plants that are wanted. Shares that no sheet gives are memory.
#pragma once

#include "ground/schedule.h"

namespace trug::work {

// A quarter more seedlings than plants.
inline constexpr double kSeedlingsPerPlant = 1.25;

// Plants to begin for each that is wanted, where the winter takes more than of any planting; twice
// as many at most.
double begun_per_plant(const ground::Sowing& sowing);
// How many to raise, whole: with those to spare for the winter where they stand out through it.
int plants_to_raise(const ground::Sowing& sowing);
// Those above the wanted ones, whole.
int spare_plants(const ground::Sowing& sowing);
// Of every hundred bulbs and corms so many more are bought, since some come soft or do not come up
// (memory): 60 and 3.
inline constexpr double kSpareBulbs = 0.05;
// How it is covered in winter: what sleeps in the ground is mulched, the rest, and the corms that
// are green by then, lies under fleece.
bool is_mulched(const Sheet& sheet);

// Seeds for one plant of the sowing. Raised: for the seedlings, of which some do not come up; in
// place: three a plant, to be thinned, more where that would not leave two, and of what stands over
// the winter an eighth more; more again where the winter takes more.
double seeds_per_plant(const ground::Sowing& sowing);

}  // namespace trug::work
