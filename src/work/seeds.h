// SPDX-License-Identifier: MIT
// How much seed is sown for the plants that are wanted. Shares that no sheet gives are memory.
#pragma once

#include "ground/schedule.h"

namespace trug::work {

// A quarter more seedlings than plants.
inline constexpr double kSeedlingsPerPlant = 1.25;

// Seeds for one plant of the sowing. Raised: for the seedlings, of which some do not come up; in
// place: three a plant, to be thinned, more where that would not leave two, and of what stands over
// the winter an eighth more.
double seeds_per_plant(const ground::Sowing& sowing);

}  // namespace trug::work
