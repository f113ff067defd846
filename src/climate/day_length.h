// SPDX-License-Identifier: MIT
// How long a day is, and when days are too short for growth.
#pragma once

#include <optional>

#include "base/date.h"

namespace trug::climate {

// Where the sun's centre stands when the day begins and ends: 0.8333 degrees under the horizon
// (the upper rim seen through the air: almanac sunrise and sunset), or 6 degrees under it (civil
// twilight: about what plants count as day).
enum class Horizon { SunriseToSunset, CivilTwilight };

// The sun's declination at 12:00 UT, degrees. Low-precision series of Meeus, Astronomical
// Algorithms, chapter 25; good to 0.01 degrees in the years 1901 to 2099.
double sun_declination(Date day);

// The sun's energy on a level square metre above the air, megajoules a day, at its mean distance
// (which costs 3 in 100): Allen, Pereira, Raes and Smith 1998, FAO Irrigation and Drainage Paper 56,
// equation 21 (from memory).
double sun_mj(double latitude, Date day);

// Hours from 0 (polar night) to 24 (polar day), for degrees of latitude, south negative; latitudes
// beyond 89.9 count as 89.9. Within half a minute of the ephemeris of PyEphem. Longitude is left
// out, which costs at most about two minutes at 52 degrees.
double day_length_hours(double latitude, Date day, Horizon horizon);

// The longest day of a year: 21 June, south 21 December.
Date longest_day(int year, bool southern);

// Whether days grow longer: from the shortest, 21 December, up to the longest (south: from 21
// June).
bool days_lengthen(Date day, bool southern);

// The days with less than ten hours from sunrise to sunset in the winter that begins in
// `winter_year`: north, from autumn into the next year's spring; south, within that year. nullopt
// where no day is that short (nearer the equator than about 32.5 degrees).
std::optional<DateRange> under_ten_hours(double latitude, int winter_year);

}  // namespace trug::climate
