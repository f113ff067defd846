// SPDX-License-Identifier: MIT
// A whole planting for beds in which nothing stands.
#pragma once

#include <string>
#include <vector>

#include "ask/garden.h"
#include "ask/mend.h"
#include "ask/reckon.h"
#include "garden/plan.h"

namespace trug::ask {

struct Proposal {
  Plan plan;
  Outcome after;
  std::vector<WeekBound> bounds;    // of the beds as they were, but for the crops liked
  std::vector<std::string> unused;  // of the crops liked: nothing of them fits, or helps a week
};

// Mends the empty plan: of each crop the wish likes a piece first, then whatever fills the weeks
// most, and on ground that is left a third kind, and half as much again, since years differ. Pieces
// of one bed that grow the same are drawn together where no week is the worse for it. The plan that
// comes back likes nothing any more: what was liked is planted. Bounded by steps. The plan has a
// wish. `now`: of the garden.
Proposal propose(const Garden& garden, const Outcome& now, const Progress& progress = {});

}  // namespace trug::ask
