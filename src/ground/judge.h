// SPDX-License-Identifier: MIT
// The rules that every start must keep, and what a start that keeps them is worth.
#pragma once

#include <optional>

#include "ground/begun.h"
#include "ground/candidates.h"
#include "growth/crop_clock.h"

namespace trug::ground {

// The last frosts over a bed: on average, and the day from which the risk of one is as small as the
// plan accepts.
struct LastFrosts {
  Date average, safe;
};
LastFrosts frosts_of(const Setting& setting);

// Whether the rules bind what the plan pins, but for the day on which its calendar has it set out,
// or are only told.
enum class Pinned { Bound, BoundUnlessTold, Told };

// All that the rules ask about besides the start itself. What it points to must outlive it.
struct Case {
  const Setting& setting;
  const Sheet& sheet;
  const CropEntry& entry;
  const Group* group;
  const Begun& begun;
  const growth::CropClock& clock;
  Pinned pinned = Pinned::Bound;
  bool must_stand = false;  // no day keeps the rules, but it is to be set out
  std::optional<growth::WarmSoil> warm_soil = clock.warm_soil();
  LastFrosts last_frosts = frosts_of(setting);

  bool is_pinned() const { return entry.pins.start_on || entry.pins.plant_on; }
};

// Fills in a candidate of which way, start and in_ground are given; the first rule it breaks comes
// back. What has begun keeps its place whatever it breaks; what stands already, or is pinned where
// rules are told, keeps it and says so (Candidate::against).
std::optional<Refusal> judge(const Case& of, Candidate& c);

}  // namespace trug::ground
