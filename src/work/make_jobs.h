// SPDX-License-Identifier: MIT
// From what was chosen to what must be done.
#pragma once

#include <optional>
#include <vector>

#include "climate/climate.h"
#include "garden/plan.h"
#include "ground/schedule.h"
#include "work/jobs.h"

namespace trug::work {

// The days that jobs are reckoned for.
struct When {
  Date today;                          // tells which jobs are due
  std::optional<Date> first_day = {};  // no job is asked for before it
};

// Every job of every planting that was chosen, by day, then bed, stretch and kind. Days the choice
// did not fix are moved to the gardener's days inside their windows.
std::vector<Job> make_jobs(const Plan& plan, const ground::Schedule& schedule,
                           const climate::Climate& climate, When when);

}  // namespace trug::work
