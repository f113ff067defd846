// SPDX-License-Identifier: MIT
// The whole plan's choice: every way and date of every crop laid out, the best found for all
// stretches together, and the sowings that follow from it.
#pragma once

#include <optional>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "ground/schedule.h"

namespace trug::ground {

struct ChoiceOptions {
  std::optional<Date> first_day = {};  // nothing is begun before it; absent: any day
  std::optional<Date> today = {};      // as Setting's
  bool with_bound = false;             // reckons Schedule::bound too: as dear as the choice
};

Schedule choose_plan(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
                     ChoiceOptions options = {});

}  // namespace trug::ground
