// SPDX-License-Identifier: MIT
// The whole plan's choice: every stretch by itself first, then round and round for the weeks the
// others leave short, until nothing changes.
#pragma once

#include <optional>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "ground/schedule.h"

namespace trug::ground {

inline constexpr int kMostRounds = 20;

struct ChoiceOptions {
  bool rounds = true;                  // false: every stretch by itself
  std::optional<Date> first_day = {};  // nothing is begun before it; absent: any day
  std::optional<Date> today = {};      // as Setting's
};

Schedule choose_plan(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
                     ChoiceOptions options = {});

}  // namespace trug::ground
