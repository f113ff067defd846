// SPDX-License-Identifier: MIT
// What a day's temperature and light are worth to a plant.
#pragma once

#include "garden/sheet.h"

namespace trug::climate {

// Degree-days above `base_c` to expect of a day whose mean is `mean_c` on average and varies about
// that with standard deviation `spread_c`: the mean of max(0, T - base) for normal T. With spread 0
// this is the average method of degree-days. The smooth average curve alone would miss the warm
// days of a cold month (by up to 70 in 100 above 10 degC in spring).
double expected_excess(double mean_c, double base_c, double spread_c);
// The same, counting no warmth above `top_c`.
double capped_excess(double mean_c, double base_c, double top_c, double spread_c);

// What a day's mean is worth as chilling, 0 to 1: nothing at -1.3 degC and below or 15.7 and above,
// most at 4.9. Form of Wang and Engel 1998, with winter wheat's cardinal temperatures (both from
// memory).
double vernalisation(double mean_c);

// What a day's mean is worth to what is chilled by cold days, 0 to 1: all at full_c and colder, for
// the organ lies in the soil, nothing at zero_c and warmer (memory).
double cold_day(const Chill& chill, double mean_c);

// What a day's mean is worth to a crop ruled by light, 0 to 1 (memory).
double effective_day(const AfterLight& light, double mean_c);

// Pace of the last stage, 0 to 1, for a day of `hours` measured as `response` says (Long: needs
// to_hours > from_hours). `rising`: the days are growing longer.
double day_length_pace(const DayLengthResponse& response, double hours, bool rising);

// Slow-down of growth outdoors under ten hours of `sunrise_to_sunset_hours`: 1 from ten hours on,
// down to 0.2 at eight (memory).
double light_factor(double sunrise_to_sunset_hours);

}  // namespace trug::climate
