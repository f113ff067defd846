// SPDX-License-Identifier: MIT
// The six climates in which dates are asked of the sheets.
#pragma once

#include <array>
#include <map>
#include <string>

#include "climate/climate.h"

namespace trug {

// Monthly mean daily maxima and minima, frost dates and the usual coldest night of six places,
// rounded, from memory (Strathspey's months from two numbers, plus and minus 4.5).
inline const std::map<std::string, Place>& six_places() {
  using namespace std::chrono;
  using Months = std::array<double, 12>;
  const auto place = [](double latitude, MonthDay last, MonthDay first, FrostMeaning meaning,
                        double coldest, const Months& maxima, const Months& minima) {
    Place result;
    result.latitude = latitude;
    result.last_frost = last;
    result.first_frost = first;
    result.frost_meaning = meaning;
    result.coldest_c = coldest;
    MonthlyMeans means;
    for (std::size_t i = 0; i < 12; ++i) means.mean_c[i] = (maxima[i] + minima[i]) / 2;
    means.max_c = maxima;
    result.temperatures = means;
    return result;
  };
  static const std::map<std::string, Place> places = {
      {"Derby", place(52.9, May / 14, October / 14, FrostMeaning::Garden, -7,
                      {7.3, 7.9, 10.5, 13.6, 16.8, 19.7, 21.9, 21.5, 18.6, 14.3, 10.1, 7.6},
                      {1.7, 1.6, 3.0, 4.6, 7.3, 10.3, 12.3, 12.2, 10.1, 7.4, 4.2, 2.0})},
      {"Kansas City", place(39.1, April / 20, October / 20, FrostMeaning::Air, -21,
                            {4.2, 7.0, 13.2, 19.1, 24.3, 29.3, 31.8, 31.0, 26.6, 20.1, 12.6, 5.9},
                            {-6.6, -4.4, 1.3, 7.1, 13.0, 18.4, 20.9, 19.8, 14.8, 8.0, 1.3, -4.3})},
      {"Seattle", place(47.6, April / 15, November / 5, FrostMeaning::Garden, -7,
                        {8.7, 10.2, 12.4, 15.3, 19.1, 21.8, 25.3, 25.4, 22.0, 16.1, 11.4, 8.4},
                        {2.9, 3.0, 4.1, 6.0, 9.0, 11.6, 13.8, 14.0, 11.6, 8.2, 5.0, 2.9})},
      {"Christchurch",
       place(-43.5, October / 10, April / 25, FrostMeaning::Garden, -5,
             {22.7, 22.1, 20.5, 17.7, 14.7, 12.0, 11.3, 12.7, 15.3, 17.2, 19.3, 21.1},
             {12.3, 12.2, 10.4, 7.7, 4.9, 2.3, 1.9, 3.2, 5.2, 7.1, 8.9, 11.0})},
      {"Strathspey", place(57.2, May / 28, September / 20, FrostMeaning::Garden, -15,
                           {4.5, 5.0, 7.2, 10.5, 14.0, 16.8, 18.1, 17.5, 15.3, 12.0, 8.5, 5.8},
                           {-4.5, -4.0, -1.8, 1.5, 5.0, 7.8, 9.1, 8.5, 6.3, 3.0, -0.5, -3.2})},
      {"Los Angeles",
       place(34.0, February / 1, December / 20, FrostMeaning::Garden, 3,
             {20.0, 20.0, 21.0, 22.5, 23.5, 25.5, 28.4, 29.0, 28.3, 26.0, 23.0, 20.0},
             {9.5, 10.0, 11.0, 12.3, 14.3, 16.0, 18.0, 18.3, 17.6, 15.0, 11.8, 9.3})}};
  return places;
}

}  // namespace trug
