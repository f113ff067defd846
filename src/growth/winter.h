// SPDX-License-Identifier: MIT
// What a winter does to a plant: the cold it needs, and the cold it does not live through.
#pragma once

#include <optional>
#include <vector>

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

// The average cold of the winter before the season's growth, day by day as it counts for a crop.
struct WinterCold {
  double needed = 0;
  Date from;                   // the first of
  std::vector<double> by_day;  // effective days
  // For what stands in it from `planted`.
  Cold since(Date planted) const;
};
// nullopt: the crop needs none, or the place's temperatures are not known.
std::optional<WinterCold> winter_cold(const climate::Season& season, const CropSpec& crop);

// Whether seed that asks for weeks in the cold has them where it is sown: the soil averages 7 degC
// or less over these weeks, as seed sown in late winter lies (common practice).
bool ground_chills_seed(const climate::Climate& climate, const Sheet& sheet, const Way& way,
                        Date sown);

// The share of plants that live through a night of `coldest_c` in air, the coldest to expect of a
// year, under a cover that keeps `cover_c` of it off: nine in ten at `survives_c`, half four
// degrees below (memory).
double share_alive(double coldest_c, double cover_c, double survives_c);

// Degrees that lying snow keeps off, where it lies (memory).
double snow_cover_c(const climate::Climate& climate);

// The shares of a planting that live through the coldest night to expect where it stands: bare, and
// under mulch or fleece.
struct Survival {
  double coldest_c = 0;
  double bare = 1;
  double covered = 1;
};
// Down to this share no more are lost than of any planting; fewer call for a cover and for plants
// to spare (memory).
inline constexpr double kUsuallyAlive = 0.85;
// Where fewer live, covered, nobody plants it by choice (memory).
inline constexpr double kWorthPlanting = 0.5;
// A crop of which fewer live, covered, does not stand over the winter (memory).
inline constexpr double kLeastAlive = 0.15;

// In a bed that is `cover_c` warmer than the open on the coldest night, under snow where it lies;
// in a frame, where nothing is laid over the plants. `coldest_c`: outdoors.
Survival in_bed(const climate::Climate& climate, const Sheet& sheet, double coldest_c,
                double cover_c = 0);
Survival in_frame(const Sheet& sheet, double coldest_c);
// The night through which that share lives.
double coldest_borne_c(double survives_c, double share = kLeastAlive);

}  // namespace trug::growth
