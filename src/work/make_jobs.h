// SPDX-License-Identifier: MIT
// From what was chosen to what must be done.
#pragma once

#include <vector>

#include "climate/climate.h"
#include "garden/plan.h"
#include "ground/schedule.h"
#include "work/jobs.h"

namespace trug::work {

// Every job of every planting that was chosen, by day, then bed, stretch and kind. Days the choice
// did not fix are moved to the gardener's days inside their windows. `today` tells which are due.
std::vector<Job> make_jobs(const Plan& plan, const ground::Schedule& schedule,
                           const climate::Climate& climate, Date today);

}  // namespace trug::work
