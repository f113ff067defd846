// SPDX-License-Identifier: MIT
#include "climate/soil.h"

namespace trug::climate {
namespace {

constexpr int kLagDays = 3;
constexpr double kWarmerThanAirC = 0.5;
constexpr int kHeldDays = 7;

}  // namespace

double sowing_soil_c(FrostClass frost_class) {
  switch (frost_class) {
    case FrostClass::Hardy:
      return 7;
    case FrostClass::HalfHardy:
      return 10;
    case FrostClass::Tender:
      return 15;
  }
  return 15;
}

double soil_c(const Climate& climate, Date day) {
  return climate.mean_c(day - Days{kLagDays}) + kWarmerThanAirC;
}

std::optional<Date> soil_warm_from(const Climate& climate, double threshold_c, DateRange days) {
  int held = 0;
  for (Date day = days.from; day < days.until; day += Days{1}) {
    held = soil_c(climate, day) >= threshold_c ? held + 1 : 0;
    if (held == kHeldDays) return day - Days{kHeldDays - 1};
  }
  return std::nullopt;
}

}  // namespace trug::climate
