// SPDX-License-Identifier: MIT
// What is cut in each week, what it comes to in vases, and what lies bare meanwhile.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"
#include "base/quantity.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "garden/sheet.h"
#include "harvest/vase.h"

namespace trug::harvest {

// A forecast is a span: the least and the most over early, likely and late dates, each with the
// yields that go with it.
struct Span {
  double low = 0;
  double likely = 0;
  double high = 0;
  bool operator==(const Span&) const = default;
};

// What one sowing gives.
struct Cut {
  std::size_t planting = 0;  // in the plan's list
  std::string crop;          // the sheet's name: all its plantings are one kind in a vase
  Role role = Role::Focal;
  std::vector<std::string> colours;  // of its variety; empty: a mix of which nothing is known
  Date first_early, first, first_late;
  Date in_ground;
  Date lift;
  bool moves_with_first = false;  // late flowers are cut later: no lift, frost or heat ends them
  std::vector<double> shares;     // of all stems, by day from the first cut to its last
  Span stems;                     // all of them, after losses
  Millimetres length;             // of the ground it takes; none where it grows elsewhere
};

struct KindInWeek {
  std::string crop;
  std::size_t planting = 0;
  Span stems;
};

// Stems whose colours nobody wrote down.
inline constexpr std::string_view kUnknownColours = "mixed";

// A calendar week of the flowering year.
struct Week {
  Date monday;
  bool wished = false;
  Vase vase;    // as is likely
  Span usable;  // stems that find a place in the vases
  Span stems;   // all of them
  std::map<Role, Span> by_role;
  std::map<std::string, Span> by_colour;
  std::vector<KindInWeek> kinds;   // those with stems, in the plan's order
  Millimetres flower, leaf, bare;  // of the plan's ground, on the mean of the week's days
};

// What the wish wants each week.
Wanted wanted(const Wish& wish);
// The days of the wish in the flowering year, both ends inside; nullopt: the plan wishes nothing.
std::optional<DateRange> wish_days(const Plan& plan, const climate::Climate& climate);

// The weeks of the wish, or of the whole flowering year without one, with all that is cut in them.
std::vector<Week> count_weeks(const Plan& plan, const climate::Climate& climate,
                              const std::vector<Cut>& cuts);

// How many weeks have so much.
int count(const std::vector<Week>& weeks, WeekState state);

}  // namespace trug::harvest
