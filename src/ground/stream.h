// SPDX-License-Identifier: MIT
// Successions: one crop sown again and again so that its first cuts lie a gap apart.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace trug::ground {

// A sowing that keeps the rules, of one way and group, on one of the gardener's days.
struct StreamStart {
  int start = 0;      // sown, or planted where it is not sown
  int in_ground = 0;  // never before `start`
  int first_cut = 0;
  bool in_window = true;  // a stream goes on inside its window; it may begin after
};

inline constexpr int kFewestDaysBetweenSowings = 5;

struct StreamRules {
  int gap = 14;                 // days between first cuts
  std::optional<int> most;      // sowings asked for; absent: the whole season
  std::optional<int> cut_from;  // a stream begins no sooner, unless all would
};

// What goes on from a sowing: the latest start whose first cut is due within the gap, else the
// first that can be; never one less than five days or, cut, two thirds of the gap after. nullopt:
// none.
std::optional<std::size_t> next_sowing(const std::vector<StreamStart>& starts,
                                       const StreamStart& last, int gap);

// A stream: places in the list of starts, each sown after the one before.
struct Stream {
  std::vector<std::size_t> sowings;  // as many as are useful and asked for
  std::size_t useful = 0;            // as many as would be useful
  bool late = false;  // begins later than a free bed would have it: only where the ground was taken
};

// One stream for each first cut it can begin with: those of the first `gap` days, and later ones
// for ground that is not free before. `starts` in any order.
std::vector<Stream> streams(const std::vector<StreamStart>& starts, const StreamRules& rules);

}  // namespace trug::ground
