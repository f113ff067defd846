// SPDX-License-Identifier: MIT
// The place most tests are in.
#pragma once

#include "garden/plan.h"

namespace trug {

// A maritime place like lowland England: monthly means near Nottingham 1920-39 (R data set nottem,
// rounded), frost dates from memory.
inline Place lowland() {
  Place place;
  place.latitude = 52.5;
  place.last_frost = {std::chrono::May, std::chrono::day{15}};
  place.first_frost = {std::chrono::October, std::chrono::day{15}};
  place.temperatures = MonthlyMeans{
      {4.5, 4.8, 6.8, 9.0, 12.2, 15.2, 17.0, 16.8, 14.3, 10.9, 7.2, 4.9}, std::nullopt};
  return place;
}

}  // namespace trug
