// SPDX-License-Identifier: MIT
// What follows from what was recorded, and should be known.
#pragma once

#include <vector>

#include "ask/findings.h"
#include "ask/reckon.h"
#include "ground/schedule.h"
#include "work/jobs.h"

namespace trug::ask {

// Starts that failed and what becomes of them; records that a pin says otherwise by more than a
// week; what was not done and is too late now; how the garden runs by all of them.
std::vector<Finding> seen_in_records(const Garden& garden, const ground::Schedule& schedule,
                                     const std::vector<work::Job>& jobs);

}  // namespace trug::ask
