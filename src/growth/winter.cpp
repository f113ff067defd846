// SPDX-License-Identifier: MIT
#include "growth/winter.h"

#include <algorithm>

#include "climate/frost.h"
#include "climate/heat.h"

namespace trug::growth {

std::optional<Cold> winter_cold(const climate::Season& season, const CropSpec& crop, Date planted) {
  const climate::Climate& climate = season.climate();
  const auto& chill = crop.sheet().chill;
  const bool vernal = crop.growth() && crop.growth()->vernal_days;
  if (!climate.has_temperatures() || !(chill || vernal)) return std::nullopt;
  Cold cold{.needed = chill ? chill->days : *crop.growth()->vernal_days};
  const DateRange months = season.cold_months();
  for (Date day = std::max(planted, months.from); day < months.until; day += Days{1}) {
    const double mean_c = climate.average_c(day);
    cold.found += chill ? climate::cold_day(*chill, mean_c) : climate::vernalisation(mean_c);
  }
  return cold;
}

double share_alive(double coldest_c, double cover_c, double survives_c) {
  constexpr double kHalfBelow = 4;
  constexpr double kDeviation = 3;
  return climate::normal_cdf((coldest_c + cover_c - survives_c + kHalfBelow) / kDeviation);
}

double snow_cover_c(const climate::Climate& climate) {
  constexpr double kSnowyMonth = -3;
  constexpr double kUnderSnow = 6;
  const auto coldest = climate.coldest_month_c();
  return coldest && *coldest <= kSnowyMonth ? kUnderSnow : 0;
}

}  // namespace trug::growth
