// SPDX-License-Identifier: MIT
// What comes of a start that keeps the rules: its stems, the days of its lift, its usual window.
#pragma once

#include "garden/sheet.h"
#include "ground/candidates.h"
#include "ground/judge.h"

namespace trug::ground {

// Needs the timeline.
void set_outcome(const Case& of, Candidate& c, const Way& way);

}  // namespace trug::ground
