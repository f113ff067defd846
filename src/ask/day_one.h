// SPDX-License-Identifier: MIT
// What a reckoning takes for granted on the day it is made.
#pragma once

#include <vector>

#include "ask/findings.h"
#include "ask/reckon.h"
#include "ground/schedule.h"
#include "work/jobs.h"

namespace trug::ask {

// A plan without a day it began on; jobs that lie before today and of which nothing is recorded; a
// shelter the plan does not speak of, where something is raised.
std::vector<Finding> taken_for_granted(const Garden& garden, const ground::Schedule& schedule,
                                       const std::vector<work::Job>& jobs);

}  // namespace trug::ask
