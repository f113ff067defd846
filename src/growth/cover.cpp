// SPDX-License-Identifier: MIT
#include "growth/cover.h"

namespace trug::growth {

CoverGain cover_gain(Cover cover) {
  switch (cover) {
    case Cover::None:
      return {};
    case Cover::Fleece:
      return {.mean_c = 1.5, .coldest_c = 3, .frost_days = 14};
    case Cover::Tunnel:
      return {.mean_c = 3, .coldest_c = 3, .frost_days = 21};
  }
  return {};
}

CoverGain cover_gain(Cover cover, const Way& way) {
  CoverGain gain = cover_gain(cover);
  if (way.needs == Needs::Tunnel) gain = {.coldest_c = gain.coldest_c};
  return gain;
}

}  // namespace trug::growth
