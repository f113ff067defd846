// SPDX-License-Identifier: MIT
// How long a job takes, so that a week can be seen to be too full.
#pragma once

#include "work/jobs.h"

namespace trug::work {

// Minutes of one person at a gardener's pace, setting out and clearing away included: so many for
// the job, for each plant and for each metre of its ground (memory, all of it; good to half as much
// again). Hardening off and watering are told of all their days together. Nothing is counted for
// cutting beyond the first day of it: that is the pleasure.
double minutes(const Job& job);

}  // namespace trug::work
