// SPDX-License-Identifier: MIT
// What the plan's calendar told of its choice, as picks among the options there are now.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "garden/plan.h"
#include "ground/candidates.h"
#include "ground/options.h"
#include "ground/plan_weeks.h"
#include "ground/schedule.h"
#include "ground/search.h"
#include "ground/stream.h"

namespace trug::ground {

// The stream that was told, by places in the list; nullopt: none was, or it cannot be had any more.
std::optional<Stream> told_stream(const Candidates& candidates, const std::vector<Begun>& begun);

// By stretch, as the problem's. A stretch is free where an edit touched it, or where what was told
// of it cannot be had any more. nullopt: there is no earlier calendar.
std::optional<Remembered> remembered(const Plan& plan, const std::vector<Weighed>& weighed,
                                     const std::vector<std::vector<std::size_t>>& chains,
                                     const PlanProblem& problem, const DayCount& count);

// Whether nothing of it is to be chosen again: nothing was edited since, and all can be had.
bool stands_whole(const Plan& plan, const Remembered& remembered);

}  // namespace trug::ground
