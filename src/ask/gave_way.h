// SPDX-License-Identifier: MIT
// What a crop that is late or left out gave way to, and what the other choice would have given.
#pragma once

#include <cstddef>
#include <optional>

#include "ask/garden.h"
#include "ask/reckon.h"
#include "base/date.h"
#include "garden/plan.h"
#include "ground/schedule.h"

namespace trug::ask {

// A crop that goes in only when the one before it leaves the ground.
struct Waiting {
  std::size_t before = 0;  // the planting that holds the ground
  Date lift;               // of it
  Date in_ground;
  Date wanted_by;         // the last day inside the trade's window that gives nearly all
  double stems = 0;       // as it is chosen
  double free_stems = 0;  // the most on free ground, inside the trade's window
};
// nullopt: it is left out, one of several sowings, or no earlier start would give more.
std::optional<Waiting> waiting(const Plan& plan, const ground::Schedule& schedule,
                               std::size_t planting);
// The day on which the one before would have to be lifted; nullopt: it is not cut for a week by
// then, or stays in the ground.
std::optional<Date> earlier_lift(const Plan& plan, const ground::Schedule& schedule,
                                 const Waiting& waiting);

struct GaveWay {
  std::size_t to = 0;             // the planting that has the ground
  std::optional<Date> lift;       // the other choice lifts it then; absent: leaves it out
  std::optional<Date> in_ground;  // of the crop, by the other choice
  double stems = 0;               // of the crop, as it is
  double other_stems = 0;         // by the other choice
  double plan_stems = 0;          // that the whole plan gives more by it
  int plan_weeks = 0;             // with their vases, likewise
};
// nullopt: nothing on its ground is in its way.
std::optional<GaveWay> gave_way(const Garden& garden, const Outcome& now, std::size_t planting);

}  // namespace trug::ask
