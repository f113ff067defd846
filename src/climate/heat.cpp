// SPDX-License-Identifier: MIT
#include "climate/heat.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "climate/frost.h"

namespace trug::climate {

double expected_excess(double mean_c, double base_c, double spread_c) {
  const double excess = mean_c - base_c;
  if (spread_c <= 0) return std::max(0.0, excess);
  const double z = excess / spread_c;
  const double density = std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi);
  return excess * normal_cdf(z) + spread_c * density;
}

double capped_excess(double mean_c, double base_c, double top_c, double spread_c) {
  return expected_excess(mean_c, base_c, spread_c) - expected_excess(mean_c, top_c, spread_c);
}

double vernalisation(double mean_c) {
  constexpr double kLeast = -1.3;
  constexpr double kBest = 4.9;
  constexpr double kMost = 15.7;
  if (mean_c <= kLeast || mean_c >= kMost) return 0;
  static const double kShape = std::log(2.0) / std::log((kMost - kLeast) / (kBest - kLeast));
  static const double kPeak = std::pow(kBest - kLeast, kShape);
  const double share = std::pow(mean_c - kLeast, kShape) / kPeak;
  return (2 - share) * share;
}

double cold_day(const Chill& chill, double mean_c) {
  return std::clamp((chill.zero_c - mean_c) / (chill.zero_c - chill.full_c), 0.0, 1.0);
}

double effective_day(const AfterLight& light, double mean_c) {
  const double warm = (mean_c - light.cold_a_c) / (light.cold_b_c - light.cold_a_c);
  const double cool = (light.hot_d_c - mean_c) / (light.hot_d_c - light.hot_c_c);
  return std::clamp(warm, 0.0, 1.0) * std::clamp(cool, light.low, 1.0);
}

double day_length_pace(const DayLengthResponse& response, double hours, bool rising) {
  using Kind = DayLengthResponse::Kind;
  const double beyond = hours - response.from_hours;
  switch (response.kind) {
    case Kind::Neutral:
      return 1;
    case Kind::Long: {
      const double least = rising ? response.floor_rising.value_or(response.floor) : response.floor;
      return std::clamp(beyond / (response.to_hours - response.from_hours), least, 1.0);
    }
    case Kind::Short:
      return std::max(response.floor, 1 - response.slower_per_hour * std::max(0.0, beyond));
    case Kind::CriticalShort:
      return beyond > 0 ? response.floor : 1;
  }
  return 1;
}

double light_factor(double sunrise_to_sunset_hours) {
  return std::clamp(1 - 0.4 * (10 - sunrise_to_sunset_hours), 0.2, 1.0);
}

}  // namespace trug::climate
