// SPDX-License-Identifier: MIT
// A day's work is of a piece: jobs of one kind in one bed come to fall on one day.
#pragma once

#include <vector>

#include "work/jobs.h"

namespace trug::work {

// Draws jobs that are due, of a kind that may be (JobTrait::together), to the day of an earlier one
// of their kind in their bed: by a week at most, inside their window, not before what they wait
// for, and not before `today`. `jobs` in any order; links stay as they are.
void draw_together(Date today, std::vector<Job>& jobs);

}  // namespace trug::work
