// SPDX-License-Identifier: MIT
// What would give most on ground that nothing of the plan uses.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "ask/change.h"
#include "ask/findings.h"
#include "ask/garden.h"

namespace trug::ask {

// Free ground: a stretch's, after a planting or before all that grow there; or a planting's own.
// All by index.
struct Ground {
  std::size_t bed = 0;
  std::size_t stretch = 0;
  std::optional<std::size_t> after;
  std::optional<std::size_t> instead_of;
};
Ground ground_of(const Plan& plan, std::size_t planting);

inline constexpr std::size_t kFillers = 3;

// The crops of `garden.sheets` that would give most there, best first, three at most: each tried on
// its stretch alone, one that costs another its place left out. `mondays`: stems of these weeks
// alone count; empty: all do. Asks as many choices as there are sheets.
std::vector<Filler> fill(const Garden& garden, const Ground& ground,
                         const std::vector<Date>& mondays);

}  // namespace trug::ask
