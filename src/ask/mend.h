// SPDX-License-Identifier: MIT
// What to add to a plan for the weeks that go short.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "ask/change.h"
#include "ask/garden.h"
#include "ask/reckon.h"
#include "base/date.h"
#include "garden/plan.h"

namespace trug::ask {

struct Addition {
  Change change;  // of the plan with the additions before it
  const Sheet* sheet = nullptr;
  std::string on;             // "stretch 2 of long bed"'s bed
  std::vector<Date> mondays;  // the weeks it makes fuller
  double stems = 0;           // that find a place in the vases, of all weeks
};

// A week of the wish that goes short: what it has, and more than which no candidate that keeps the
// rules could bring it to, with what is planted as it is. Stems that find a place in the vases.
struct WeekBound {
  Date monday;
  double has = 0;
  double most = 0;
};

struct Mended {
  std::vector<Addition> additions;
  Plan plan;  // with all of them
  Outcome after;
  std::vector<WeekBound> bounds;  // of the plan as it was
};

inline constexpr int kMostAdditions = 12;
// Called before each addition is looked for, with its number from 1.
using Progress = std::function<void(int)>;

// Adds one crop after another, each time that which fills the weeks most, of `garden.sheets` as
// the wish likes: on ground that lies free, and with `replant` in the place of annuals that are not
// begun. What is planted stays; no week goes emptier, nothing breaks that held. Bounded by steps.
// The plan has a wish. `now`: of the garden; `most`: additions.
Mended mend(const Garden& garden, const Outcome& now, bool replant, const Progress& progress = {},
            int most = kMostAdditions);

}  // namespace trug::ask
