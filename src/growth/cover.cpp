// SPDX-License-Identifier: MIT
#include "growth/cover.h"

#include <algorithm>

namespace trug::growth {
namespace {

constexpr double kTunnelOfSun = 0.13;
constexpr double kOpenedC = 18;

}  // namespace

CoverGain cover_gain(Cover cover) {
  switch (cover) {
    case Cover::None:
      return {};
    case Cover::Fleece:
      return {.of_sun = kTunnelOfSun / 2, .coldest_c = 3, .frost_days = 14};
    case Cover::Tunnel:
      return {.of_sun = kTunnelOfSun, .coldest_c = 3, .frost_days = 21};
  }
  return {};
}

climate::Sheltered sheltered(const CoverGain& gain) { return {gain.frost_days, gain.of_sun}; }

double warmer_c(const CoverGain& gain, double sun_mj, double mean_c) {
  return std::min(gain.of_sun * sun_mj, std::max(0.0, kOpenedC - mean_c));
}

CoverGain cover_gain(Cover cover, const Way& way) {
  CoverGain gain = cover_gain(cover);
  if (way.needs == Needs::Tunnel) gain.frost_days = 0;
  return gain;
}

}  // namespace trug::growth
