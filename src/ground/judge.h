// SPDX-License-Identifier: MIT
// The rules that every start must keep, and what a start that keeps them is worth.
#pragma once

#include <optional>

#include "ground/begun.h"
#include "ground/candidates.h"
#include "growth/crop_clock.h"

namespace trug::ground {

// All that the rules ask about besides the start itself. What it points to must outlive it.
struct Case {
  const Setting& setting;
  const Sheet& sheet;
  const CropEntry& entry;
  const Group* group;
  const Begun& begun;
  const growth::CropClock& clock;
  std::optional<growth::WarmSoil> warm_soil;
  bool must_stand = false;  // no day keeps the rules, but it is to be set out
};

// What was told to be still under cover today goes out from today on; nullopt: any day.
std::optional<Date> soonest_out(const Begun& begun, const Setting& setting);

// Fills in a candidate of which way, start and in_ground are given; the first rule it breaks comes
// back. What has begun keeps its place whatever it breaks; what stands already or is pinned to a
// day keeps it whatever winter or season do to it, and says so (Candidate::against).
std::optional<Refusal> judge(const Case& of, Candidate& c);

// Whether a refusal is nearer to being allowed than another: the one met later in the judging, then
// the smaller miss.
bool is_nearer(const Refusal& one, const Refusal& other);

}  // namespace trug::ground
