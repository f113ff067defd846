// SPDX-License-Identifier: MIT
// What could still grow on ground that nothing of the plan uses.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "ask/findings.h"
#include "ask/garden.h"
#include "ask/growings.h"
#include "ask/reckon.h"

namespace trug::ask {

// Free ground: a stretch's, after a planting or before all that grow there; or that of a planting
// that is left out. All by index.
struct Ground {
  std::size_t bed = 0;
  std::size_t stretch = 0;
  std::optional<std::size_t> after;
  std::optional<std::size_t> instead_of;
};
Ground ground_of(const Plan& plan, const ground::Schedule& schedule, std::size_t planting);

inline constexpr std::size_t kFillers = 3;

// Names the crops for one ground after another; every start of every crop is laid out once. Of the
// garden's sheets those the wish likes, of a plan without a wish all. What is planted keeps its
// days. `garden` and `now`, what comes of it, outlive it.
class Filling {
 public:
  Filling(const Garden& garden, const Outcome& now);

  // Those worth most there, best first, three at most: as the choice weighs the weeks.
  std::vector<Filler> fill(const Ground& ground) const;

 private:
  // Whether the choice for the stretch alone would have the crop, all that grows there and no start
  // later than before.
  bool is_had(const Change& change, std::size_t bed, std::size_t stretch) const;
  std::optional<Filler> asked_for(const Change& change, const Sheet& sheet) const;

  const Garden& garden_;
  const Outcome& now_;
  std::vector<Growing> growings_;
};

}  // namespace trug::ask
