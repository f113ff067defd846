// SPDX-License-Identifier: MIT
// Orders as one makes them: one for each kind of goods and month, whatever it is for.
#pragma once

#include <vector>

#include "base/date.h"
#include "garden/plan.h"
#include "ground/schedule.h"
#include "work/jobs.h"

namespace trug::work {

// The jobs with a joint order in the place of the orders of single sowings. Seed, bulbs and tubers
// of one crop are bought once, for the first sowing that wants them; what lies behind stays the
// order that the plan's calendar told, what is added to the plan goes into the next. An order that
// an earlier calendar told for one sowing, and that lies behind, stays a job of its own. Who an
// order is: its kind and month, and its number among those of a month. Links are kept.
std::vector<Job> with_joint_orders(const Plan& plan, const ground::Schedule& schedule,
                                   const std::vector<Job>& jobs, Date today);

}  // namespace trug::work
