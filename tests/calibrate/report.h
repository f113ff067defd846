// SPDX-License-Identifier: MIT
// How near the model comes to the facts, crop by crop.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "calibrate/facts.h"
#include "garden/sheet.h"

namespace trug::calibrate {

struct Judged {
  Fact fact;
  std::optional<double> error;  // days late; absent: no flower that season
  std::optional<double> told;   // half the width of the window that the program tells, in days
};

struct CropResult {
  std::string crop;
  std::string kind;  // of crops that grow by one rule
  Growth before, after;
  std::vector<Judged> facts;
};

// Days either side of the forecast within which 80 in 100 of a crop's facts fall, were they spread
// like the normal distribution; never fewer than the usual spread. Accounts of other climates widen
// nobody's window: more than 80 in 100 of all that is kept out lie inside as it is.
double spread_days(const CropResult& crop);

// The crops and, last, all of them: facts, mean and worst error in days, in and out of the fit.
std::string table(const std::vector<CropResult>& crops, bool markdown);
// The facts kept out of the fit, by crop, by kind of crop and by the climate of their place: how
// many, and the mean error in days. `climates`: the group of each place.
std::string climate_table(const std::vector<CropResult>& crops,
                          const std::map<std::string, std::string>& climates, bool markdown);
// How many facts, the middle of what the source gives, lie in the window that the program tells for
// such a planting, which is meant to hold 80 in 100.
std::string coverage_table(const std::vector<CropResult>& crops);
// Each fact with its error, worst first within its crop.
std::string fact_list(const std::vector<CropResult>& crops);

}  // namespace trug::calibrate
