// SPDX-License-Identifier: MIT
// Jobs beside what the plan's calendar told of them.
#pragma once

#include <span>

#include "base/date.h"
#include "garden/plan.h"
#include "ground/schedule.h"
#include "work/jobs.h"
#include "work/rules.h"

namespace trug::work {

// What was told and lies behind keeps its day; what was not does not lie before today. Days that
// stand, forecasts never told, and first cuts to come are as reckoned. False: what was begun did
// without this job, and it is too late for it now.
bool agree_with_told(const ground::Sowing& sowing, const JobDraft& draft,
                     const RuleContext& context, Job& job);

// Plants of it in the joint orders that lie behind, as far as nothing is said to have come to
// nothing since.
int plants_ordered(const Planting& planting, const ground::Sowing& sowing, Date today);
// Of what was ordered for a planting's other starts, those that are no more or want fewer plants,
// what is left for this one of its sowings.
int plants_spare(const Planting& planting, std::span<const ground::Sowing> sowings,
                 const ground::Sowing& sowing, Date today);

}  // namespace trug::work
