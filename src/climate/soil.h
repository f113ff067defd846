// SPDX-License-Identifier: MIT
// How warm the soil is where seed lies, guessed from the air.
//
// Good to about a week: against nine years of soil thermometers at 10 cm (US Climate Reference
// Network, Manhattan, Kansas) the first week at 7 degC came 3 days off, at 10 and 15 degC 5 and 7
// days early, give or take 10 and 12. Whoever sows should measure.
#pragma once

#include <optional>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/sheet.h"

namespace trug::climate {

// The date of warm soil is good to so many days.
inline constexpr int kSoilDays = 7;

// What a crop's seed wants of the soil in spring, degrees Celsius: 7 hardy, 10 half-hardy, 15
// tender (common practice).
double sowing_soil_c(FrostClass frost_class);

// The average soil of a day at 10 cm, bare or thinly grown, in spring and early summer, degrees
// Celsius: the air's curve three days before and half a degree more (the lag of an annual wave in
// soil, 2 to 3 days; the half degree as measured in Kansas). Only where has_temperatures().
double soil_c(const Climate& climate, Date day);

// The first day of `days` from which the soil holds `threshold_c` for a week; nullopt: it never
// does.
std::optional<Date> soil_warm_from(const Climate& climate, double threshold_c, DateRange days);

}  // namespace trug::climate
