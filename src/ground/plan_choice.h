// SPDX-License-Identifier: MIT
// The whole plan's choice: every stretch by itself first, then round and round for the weeks the
// others leave short, until nothing changes.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "garden/plan.h"
#include "garden/sheet.h"
#include "ground/candidates.h"
#include "ground/choose.h"

namespace trug::ground {

// The sheets of a plan's crops, by the name the plan's entries hold.
using Sheets = std::map<std::string, const Sheet*>;

// Whole plants on the ground: rows along the length and plants across the width by the nearest
// whole number, at least one each (flooring loses a third in half-metre stretches).
struct Layout {
  int rows = 1;
  int per_row = 1;
  double spacing_cm = 0;
  int plants = 1;  // the plan's own number where it gives one
  int room() const { return rows * per_row; }
};
Layout layout(const Bed& bed, const Stretch& stretch, const CropEntry& entry, const Sheet& sheet);

struct Chosen {
  Candidate candidate;
  Date lift;
  std::optional<Date> next_in_ground;  // the next crop of the stretch wants the ground
  bool another_follows() const { return next_in_ground.has_value(); }
};

struct PlantingChoice {
  PlantingRef ref;
  const Sheet* sheet = nullptr;
  Layout layout;
  std::optional<Chosen> chosen;                  // empty: left out, see the findings
  std::shared_ptr<const Candidates> candidates;  // all that was weighed
};

// A calendar week of the flowering year.
struct Week {
  Date monday;
  bool wished = false;
  double wanted = 0;  // stems
  double stems = 0;   // likely, of all plantings
};

struct PlanChoice {
  std::vector<PlantingChoice> plantings;  // in the plan's order
  std::vector<Week> weeks;                // of the wish; of the whole flowering year without one
  int rounds = 0;                         // gone round, the last without a change
  bool settled = true;                    // false: stopped after the most rounds
  bool exact = false;  // one stretch: proved best; several: best for each, given the others
};

inline constexpr int kMostRounds = 20;

struct ChoiceOptions {
  bool rounds = true;  // false: every stretch by itself
};

PlanChoice choose_plan(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
                       ChoiceOptions options = {});

// Likely stems of a planting, by day from its first cut to its lift, after losses.
std::vector<double> stems_by_day(const PlantingChoice& planting);

// The likely stems of every week, as PlanChoice::weeks holds them.
std::vector<Week> count_weeks(const Plan& plan, const climate::Climate& climate,
                              const std::vector<PlantingChoice>& plantings);

// The days of the wish in a flowering year, both ends inside.
std::optional<DateRange> wish_days(const Plan& plan, const climate::Climate& climate);

}  // namespace trug::ground
