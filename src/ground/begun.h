// SPDX-License-Identifier: MIT
// What is known of a start before anything is chosen: what was recorded of it, and what its
// calendar told and lies behind. The choice takes it as it is, whatever the rules say.
#pragma once

#include <compare>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "climate/season.h"
#include "garden/plan.h"
#include "garden/sheet.h"

namespace trug::ground {

// Days for which raised plants are hardened off at least before they go out, where there is the
// time (common practice: ten to fourteen).
inline constexpr int kHardenedDays = 10;

// A way and days that were chosen before.
struct Earlier {
  std::size_t way = 0;
  std::string group;
  Date start, in_ground, lift;
  auto operator<=>(const Earlier&) const = default;
};

// Stems counted on a day: all that were cut since the count before it.
struct Counted {
  Date on;
  int stems = 0;
  auto operator<=>(const Counted&) const = default;
};

// One start of one sowing.
struct Begun {
  int number = 0;                  // in its succession, from 1; 0: the planting's only one
  int repeat = 0;                  // one more after each failure
  std::optional<std::size_t> way;  // in the sheet; absent: it has not begun, as far as is known
  std::optional<Date> start;       // sown, or planted where it is not sown
  std::optional<Date> in_ground;
  std::optional<Date> pinched;
  std::optional<Date> first_cut;
  std::vector<Counted> counts;  // by day
  std::optional<Date> lift;
  std::optional<Date> failed;
  std::optional<Date> gone_by;  // the crop after it is in its ground by then
  // Known not to have been done before this day: it is done as soon as it can be from then on.
  std::optional<Date> start_from, in_ground_from;
  // Raised plants that were not pricked out, potted on or hardened off in time: no sooner.
  std::optional<Date> ready_from;
  // Sown again after a failure: no sooner.
  std::optional<Date> again_from;
  bool young_plants = false;  // they are in hand
  bool in_hand = false;       // so is something it begins with, seed or bulbs
  // Told and taken as done, not recorded.
  bool start_told = false, in_ground_told = false;
  std::optional<Method> bought;      // what was ordered, and no other
  std::optional<std::string> group;  // of what was bought or begun
  std::optional<int> plants;         // so many were begun; bought: at least so many
  std::optional<int> strips;         // it was begun on one of so many strips of its patch
  std::optional<Earlier> earlier;    // as its calendar told it

  auto operator<=>(const Begun&) const = default;
};

// What is known of every start of a planting, by number, then repeat: one at least for each
// sowing.
std::vector<Begun> begun(const Planting& planting, const Sheet& sheet,
                         const climate::Season& season);
// Of all plantings of a plan, in its order; `sheets` likewise.
std::vector<std::vector<Begun>> begun(const Plan& plan, const std::vector<const Sheet*>& sheets,
                                      const climate::Season& season);

// The last start of a sowing, the one that may still flower; null: there is no such sowing.
const Begun* standing(const std::vector<Begun>& all, int number);

}  // namespace trug::ground
