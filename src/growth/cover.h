// SPDX-License-Identifier: MIT
// What lies over a bed, in degrees and days.
#pragma once

#include "garden/plan.h"
#include "garden/sheet.h"

namespace trug::growth {

struct CoverGain {
  double mean_c = 0;     // warmer air, on average
  double coldest_c = 0;  // on the coldest night
  int frost_days = 0;    // the last frost so much earlier, the first so much later
};

// Fleece: 1.5 degrees, 3 on the coldest night, frosts two weeks off; tunnel: 3, 3, three weeks
// (memory).
CoverGain cover_gain(Cover cover);
// Of what is grown that way: where it wants a cover its dates are written for one, and only the
// mildness of the nights is left to count.
CoverGain cover_gain(Cover cover, const Way& way);

}  // namespace trug::growth
