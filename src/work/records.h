// SPDX-License-Identifier: MIT
// What was recorded of a sowing's jobs, and what is in hand for them, in place of what the rules
// ask for.
#pragma once

#include <vector>

#include "work/rules.h"

namespace trug::work {

// A recorded day stands instead of the reckoned one; what came to nothing, was lifted, or is behind
// what was recorded asks for no more jobs; what was not done is due from the day on which that was
// said, on the first of the gardener's days, while it is still worth doing.
void take_records(const ground::Sowing& sowing, const RuleContext& context,
                  std::vector<JobDraft>& drafts);

// By sowing: of so many of its plants the seed, bulb or young plant is in hand. What there is of a
// crop goes to its sowings in order of their starts.
std::vector<int> in_hand(const Plan& plan, const ground::Schedule& schedule);

}  // namespace trug::work
