// SPDX-License-Identifier: MIT
// First flowers where heat does not decide.
#pragma once

#include <optional>

#include "base/date.h"
#include "climate/season.h"
#include "garden/crop_spec.h"

namespace trug::growth {

// By the trade's first-flower window: cut to its first third when it is long; the start's place in
// its own window gives the place in this one (biennials, perennials and bulbs: the middle), and
// days too late for the one are days later in the other. nullopt: the sheet has no such window.
std::optional<Date> window_flower(const climate::Season& season, const CropSpec& crop,
                                  const Way& way, Date in_ground);

}  // namespace trug::growth
