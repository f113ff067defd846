// SPDX-License-Identifier: MIT
// What was chosen: every sowing on its ground, from its start to its lift.
#pragma once

#include <algorithm>
#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "garden/crop_spec.h"
#include "garden/plan.h"
#include "garden/sheet.h"
#include "ground/candidates.h"
#include "ground/stream.h"
#include "harvest/weeks.h"

namespace trug::ground {

// The sheets of a plan's crops, by the name the plan's plantings hold. They outlive all that is
// reckoned from them.
using Sheets = std::map<std::string, const Sheet*>;

// Whole plants on the ground: rows along the length and plants across the width by the nearest
// whole number, at least one each (flooring loses a third in half-metre stretches). A double row
// is two plants across, whatever the bed's width.
struct Layout {
  int rows = 1;
  int per_row = 1;
  double spacing_cm = 0;
  int plants = 1;  // the plan's own number where it gives one
  int room() const { return rows * per_row; }
};
// On as many strips of the patch as there are sowings.
Layout layout(const Planting& planting, const Sheet& sheet, int sowings = 1);

// One crop started once on its ground: the candidate that was chosen for it, where it stands, and
// until when. A succession is several.
struct Sowing : Candidate {
  std::size_t planting = 0;  // in the plan's list
  int number = 0;            // in its succession, from 1; 0: the planting's only one
  Millimetres offset;        // of its own part of the patch, from the bed's start
  Millimetres length;
  int plants = 1;
  int rows = 1;
  double spacing_cm = 0;
  double cut_share = 1;  // of the stems; the rest is left standing
  const Sheet* sheet = nullptr;
  Date lift;
  std::optional<Date> next_in_ground;  // the crop after the planting wants the ground
  const Sheet* next_sheet = nullptr;   // that crop's
  bool next_is_sown = false;           // there, as seed
  const Way& raised_by() const { return sheet->ways[way]; }
  CropSpec spec() const { return CropSpec(*sheet, group, pinched); }
  bool another_follows() const { return next_in_ground.has_value(); }
  // Whether its ground is its own, cut or not, until it is stored in autumn.
  bool stands_until_stored() const { return sheet->lift_and_store && !another_follows(); }
  // False: measured weather delays it until after it is lifted.
  bool is_cut() const {
    const bool came_to_cut = !begun.failed || begun.first_cut;
    return !without_flower && came_to_cut && timeline.first_cut.likely <= lift;
  }
  // False: it is too young to be cut this year.
  bool gives_stems() const { return stems_per_plant * stem_factor > 0; }
  // The last day of cutting, of what is cut: it ends by itself, or is lifted.
  Date last_cut() const { return std::min(lift, timeline.last_cut()); }
};

// What was weighed for one planting.
struct Weighed {
  const Sheet* sheet = nullptr;
  Layout layout;
  std::shared_ptr<const Candidates> candidates;
  std::vector<Begun> begun = {};
  // Of the candidates, by their places in the list: what the planting may be grown as where the
  // plan asks for successions; empty where it does not.
  std::vector<Stream> streams;
  int most_sowings() const;  // of any stream
  // Equal parts of the ground: one a sowing; where some have begun, as many as it was divided into,
  // or as are asked for.
  int strips(const CropEntry& asked, const Stream& stream) const;
};

// How good a choice is: its worth in stems as the choice weighs them, and more than which none is.
struct Bound {
  double value = 0;
  double most = 0;
};

// How a garden runs by its own records (own_clock.h); zeros and 1 where they are too few.
struct OwnClock {
  int dates = 0;      // first cuts it comes from
  int days_late = 0;  // than forecast
  int counts = 0;     // starts with all their stems counted
  double stems_times = 1;
};

struct Schedule {
  std::vector<Sowing> sowings;   // in the plan's order, then by number
  std::vector<Sowing> failed;    // starts that came to nothing, likewise, each until it failed
  std::vector<Weighed> weighed;  // one a planting of the plan
  int rounds = 0;                // gone round the stretches
  int calls = 0;                 // choices of a single stretch, each exact
  bool settled = true;           // false: stopped before nothing was left to gain
  bool exact = false;            // proved best; otherwise the best that was found
  std::optional<Bound> bound;    // where it was asked for
  OwnClock own = {};             // that moved the forecasts

  // The sowings of a planting; empty: it was left out, see the findings.
  std::span<const Sowing> of(std::size_t planting) const;
  // By place: those that stand, then those that failed.
  const Sowing& at(std::size_t place) const {
    return place < sowings.size() ? sowings[place] : failed[place - sowings.size()];
  }
};

// The colours a planting will have: as the plan says, else its sheet's only one. Empty: a mix, and
// nobody knows what is in the packet.
std::vector<std::string> known_colours(const CropEntry& asked, const Sheet& sheet);

// Likely stems of a sowing, by day from its first cut to its lift, after losses; up to the last cut
// of which the stems were counted, those. What was cut so far also tells of the rest, the more the
// longer it has been cut (memory).
std::vector<double> stems_by_day(const Sowing& sowing);
// All of them.
double stems(const Sowing& sowing);
double stems(std::span<const Sowing> sowings);

// All that is cut, for harvest::count_weeks().
std::vector<harvest::Cut> cuts(const Plan& plan, const Schedule& schedule);

}  // namespace trug::ground
