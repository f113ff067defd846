// SPDX-License-Identifier: MIT
// What might be planted on free ground, weighed as the choice weighs a week, beside all that grows.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "ask/change.h"
#include "ask/garden.h"
#include "ask/growings.h"
#include "ask/plots.h"
#include "ask/reckon.h"
#include "base/date.h"
#include "garden/plan.h"
#include "harvest/vase.h"

namespace trug::ask {

using Kinds = std::map<std::string, harvest::Kind>;

// The likely stems of every week by crop, less one planting's.
std::vector<Kinds> kinds_of(const Outcome& outcome, std::optional<std::size_t> without = {});
void add_to(std::vector<Kinds>& weeks, const Growing& growing, int plants);

// What weeks are worth.
struct Weighing {
  std::optional<harvest::Wanted> wanted;  // absent: a plan without a wish, every stem counts one
  double usable_worth = 1;                // of a stem that finds its place in a vase
  double stem_worth = 0;                  // of every stem, in a vase or not

  double of(const std::vector<Kinds>& weeks) const;
};

inline constexpr int kFewestOfAKind = 3;  // plants (common practice)
int plants_on(const Plot& plot, const Sheet& sheet);

// What plants a crop there, in the colours wished for and under a name that no other of its bed
// has.
Change change_of(const Garden& garden, const Plot& plot, const Sheet& sheet);

// Whether a start has the ground: between its neighbours, and with no longer a wait than the choice
// allows. `summer`: the days on which bare ground counts.
bool fits(const Growing& growing, const Plot& plot, DateRange summer);

struct Idea {
  const Plot* plot = nullptr;
  const Growing* growing = nullptr;
  int plants = 0;
  double gain = 0;  // of the weighing
};

// The best start of every crop on every plot, what gains most first: usual ones only, of a crop
// that does not stand before or behind already, and `least_gain` at least. A kind that grows
// nowhere yet costs `price_of_a_kind`.
struct IdeaRules {
  Weighing weighing;
  double price_of_a_kind = 0;
  double least_gain = 0;
};
std::vector<Idea> ideas(const Garden& garden, const Outcome& now, const std::vector<Plot>& plots,
                        const std::vector<Growing>& growings, const IdeaRules& rules);

}  // namespace trug::ask
