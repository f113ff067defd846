// SPDX-License-Identifier: MIT
// The choice for all stretches of a plan together: each exact for the others' stems, gone round
// until nothing is gained, from more than one beginning. A count of calls ends it, never a clock,
// so the same plan has the same answer.
#pragma once

#include <optional>
#include <vector>

#include "ground/plan_weeks.h"

namespace trug::ground {

// What was chosen before: it stands but for the stretches set free, and for what gains a lot.
struct Remembered {
  std::vector<Picks> picks;
  std::vector<bool> free;  // by stretch: touched by an edit, or its choice breaks a rule
};

struct Found {
  std::vector<Picks> picks;  // by stretch
  PlanScore score;
  int calls = 0;         // exact choices of a single stretch
  int rounds = 0;        // gone round
  bool settled = true;   // false: stopped at the most rounds or calls
  bool is_best = false;  // proved; otherwise the best that was found
};

inline constexpr int kMostRounds = 20;
inline constexpr int kMostCallsSmall = 250;  // of up to so many stretches:
inline constexpr int kSmallPlan = 10;
inline constexpr int kMostCalls = 1000;   // of more, or ...
inline constexpr int kCallsAStretch = 4;  // ... so many for each
inline constexpr int kMostForPairs = 60;  // stretches: beyond, rounds alone
inline constexpr int kMostForKicks = 20;  //
inline constexpr int kNeighbours = 4;     // tried together with a stretch
inline constexpr int kKicks = 30;
inline constexpr double kGainToMove = 0.02;  // of the plan's score, before what stands is moved

int most_calls(std::size_t stretches);

Found search(const PlanProblem& problem, const std::optional<Remembered>& remembered = {});

}  // namespace trug::ground
