// SPDX-License-Identifier: MIT
// What `trug start` chose, and why.
#pragma once

#include <string>
#include <vector>

#include "ask/mend.h"
#include "ask/reckon.h"
#include "ask/wish_ground.h"
#include "garden/plan.h"
#include "show/style.h"
#include "work/purchases.h"

namespace trug::show {

struct StartFacts {
  const Plan& plan;
  const ask::Outcome& outcome;  // of the plan
  const ask::WishGround& ground;
  const std::vector<ask::WeekBound>& bounds;     // of the empty beds
  const std::vector<std::string>& unused;        // crops liked that are not in it
  const std::vector<work::Purchase>& purchases;  // of the plan
  int weighed = 0;                               // crops that could be cut in the wish's weeks
  std::string next;                              // the command
};

// The crops with where, how many and when; the weeks; why these; whether the beds are enough; what
// to buy first; the next command. Cautions of what is in it at the end.
std::string start_page(const StartFacts& facts, Style style);

}  // namespace trug::show
