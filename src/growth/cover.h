// SPDX-License-Identifier: MIT
// What lies over a bed, in degrees and days.
#pragma once

#include "climate/season.h"
#include "garden/plan.h"
#include "garden/sheet.h"

namespace trug::growth {

struct CoverGain {
  double of_sun = 0;     // warmer air, degrees for a megajoule of sun above the air
  double coldest_c = 0;  // on the coldest night
  int frost_days = 0;    // the last frost so much earlier, the first so much later
};

// A tunnel: 0.13 degrees for a megajoule of sun, so that a winter's tunnel at 30 degrees south
// gains the 2.75 degrees that Savage measured (1980, Agrochemophysica 12:5, maxima 4.2 and
// minima 1.3 degrees over the open; the place from memory), and at 52 degrees north 0.8 in
// December, 2.7 in March, 4 in April; 3 on the coldest night, frosts three weeks off (memory).
// Fleece: half of the tunnel's warmth, 3, two weeks (memory).
CoverGain cover_gain(Cover cover);
// What it does to a season.
climate::Sheltered sheltered(const CoverGain& gain);
// How much warmer it is on a day of that sun whose mean in the open is `mean_c`: from an average of
// 18 degrees on the cover is open (memory).
double warmer_c(const CoverGain& gain, double sun_mj, double mean_c);
// Of what is grown that way: where it wants a cover its dates are written for one, and no days of
// frost are counted beside them.
CoverGain cover_gain(Cover cover, const Way& way);

}  // namespace trug::growth
