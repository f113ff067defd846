// SPDX-License-Identifier: MIT
// What summer's heat does: seed that does not come up, cutting that stops, plants that die.
#pragma once

#include <vector>

#include "base/date.h"
#include "climate/season.h"
#include "garden/crop_spec.h"

namespace trug::growth {

// Where the plan gives no maxima they are guessed, and heat is believed only so far beyond a limit.
inline constexpr double kGuessedMaximaC = 2;

// The mean of the soil over the ten days after a sowing, degrees Celsius; in a frame 2.5 degrees
// more, up to 15; above that seed raised elsewhere than in its place stands in the shade, three
// degrees cooler. Only with temperatures.
double soil_after_sowing_c(const climate::Climate& climate, Raised raised, Date sown);
// Whether seed (or a corm) begun then lies in soil too warm for it to grow. Raised in warmth, the
// room's temperature counts and nothing is said.
bool too_warm_to_sow(const climate::Climate& climate, const Sheet& sheet, const Way& way,
                     Date sown);

// From this soil on hardy annuals that are set out, or sown where they are to flower in the same
// year, do not make it, degrees Celsius (memory): seedlings scorch, plants bolt and die.
inline constexpr double kSummerSoilC = 23;
bool meets_the_summer(const climate::Climate& climate, const Sheet& sheet, const Way& way,
                      Date in_ground);

// Whether the soil outdoors is as warm as the seed wants to come up in: who sows then sows where it
// is to flower (common practice).
bool comes_up_outdoors(const climate::Climate& climate, const Sheet& sheet, Date sown);

// The days from `from` to the season's end on which the crop gives nothing to cut, the average
// daily maximum having passed its limit for a week. Where heat ends it, all the rest; where it
// pauses, until the maximum has fallen three degrees under the limit (memory).
std::vector<DateRange> too_hot(const climate::Season& season, const Sheet& sheet, Date from);

// Whether the hottest month is more than a perennial lives through, on average.
bool dies_in_summer(const climate::Climate& climate, const Sheet& sheet);
// The day of a year's highest average maximum. Only with temperatures.
Date hottest_day(const climate::Climate& climate, DateRange year);

}  // namespace trug::growth
