// SPDX-License-Identifier: MIT
// Whether a start can still be made: today, the plan's first day and what was recorded.
#pragma once

#include <optional>

#include "base/date.h"
#include "ground/begun.h"
#include "ground/candidates.h"
#include "ground/judge.h"
#include "ground/refusal.h"

namespace trug::ground {

// nullopt: it can.
std::optional<Refusal> judge_dates(const Case& of, const Candidate& c, const Way& way);

// What was told to be still under cover today goes out from today on; nullopt: any day.
std::optional<Date> soonest_out(const Begun& begun, const Setting& setting);

}  // namespace trug::ground
