// SPDX-License-Identifier: MIT
// How a crop's stems fall through its weeks of cutting.
#pragma once

#include <optional>
#include <vector>

#include "garden/sheet.h"

namespace trug::growth {

// Shares of a plant's stems for each day from the first cut, totalling 1.
//
// Single: 60 and 40 in 100 over its two halves. Limited: rises to a peak in the second week, then
// falls. Cut-and-come-again: rises over three weeks, stays, falls over the last three (memory; the
// peaks of florist's anemone, three to five weeks after the first cut, and of bells of Ireland are
// published). A second flush repeats the shape, at half the length, after its pause.
std::vector<double> harvest_curve(Habit habit, Range cutting_weeks,
                                  const std::optional<SecondFlush>& second_flush);

// Days from the first useful cut before the crop may give way to the next: the sheet's, else 14,
// 21 for cut-and-come-again, never more than the whole flowering (memory).
int fewest_cutting_days(const Sheet& sheet, int whole_days);

}  // namespace trug::growth
