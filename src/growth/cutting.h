// SPDX-License-Identifier: MIT
// From the first cut to the last: a crop's curve through the season it meets.
#pragma once

#include <optional>
#include <vector>

#include "base/date.h"
#include "climate/season.h"
#include "garden/crop_spec.h"

namespace trug::growth {

struct Cutting {
  Date from;
  // Of the stems a plant gives in its weeks of cutting, by day from `from`: at most 1, or what it
  // gives beyond these weeks more.
  std::vector<double> shares;
  bool cut_short = false;  // ended by the season (frost, short days, heat), not by the plant
  std::optional<Date> too_hot_from;  // heat ends it on this day
  std::optional<DateRange> pause;    // heat gives nothing to cut on these days
  std::optional<DateRange> slow;     // heat leaves fewer to cut on these days
};

// The last day worth cutting: by frost; what is cut again and again ends at the latest when days
// fall under ten hours.
Date cutting_end(const climate::Season& season, const CropSpec& crop);

// Cuts the curve of one plant (harvest_curve()) from its first useful cut `first` on. Where heat
// ends it less than a week later nobody waits for that: it is cut for the week before the heat, but
// not before its first flower, of the little that is open (memory; so ranunculus in a Kansas May).
// What is cut again and again, but for bulbs and corms, goes on until the season ends it, the rate
// of its last day halving every four weeks, for twelve weeks at most, hardy annuals, which set seed
// and die, for four (memory); tubers as much to the end of the season. While heat pauses it nothing
// is lost, but afterwards it goes on at seven tenths of its pace (memory); where heat slows it, it
// gives two fifths meanwhile (memory). As days shorten cold slows all; where the plan tells no
// temperatures, it gives two fifths from October on (south April; common practice: a third to
// half).
Cutting cut_through(const climate::Season& season, const CropSpec& crop,
                    const std::vector<double>& curve, Date flower, Date first, Date end);

}  // namespace trug::growth
