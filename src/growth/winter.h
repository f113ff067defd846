// SPDX-License-Identifier: MIT
// What a winter does to a plant: the cold it needs, and the cold it does not live through.
#pragma once

#include <optional>

#include "base/date.h"
#include "climate/season.h"
#include "garden/crop_spec.h"

namespace trug::growth {

// The cold of a winter against the cold a crop needs, in effective days.
struct Cold {
  double found = 0;
  double needed = 0;
  double share() const { return needed > 0 ? found / needed : 1; }
};

// With less than this share of its cold a crop does not flower as it should; up to the whole its
// stems are short (memory).
inline constexpr double kLeastColdShare = 0.6;

// The average cold of the winter before the season's growth, for a crop that stands in it from
// `planted`. nullopt: it needs none, or the place's temperatures are not known.
std::optional<Cold> winter_cold(const climate::Season& season, const CropSpec& crop, Date planted);

// The share of plants that live through a night of `coldest_c` in air, the coldest to expect of a
// year, under a cover that keeps `cover_c` of it off: nine in ten at `survives_c`, half four
// degrees below (memory).
double share_alive(double coldest_c, double cover_c, double survives_c);

// Degrees that lying snow keeps off, where the coldest month averages -3 degC or less (memory).
double snow_cover_c(const climate::Climate& climate);

}  // namespace trug::growth
