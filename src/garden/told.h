// SPDX-License-Identifier: MIT
// What a plan's calendar has told of its plantings: what lies behind is taken as done so.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "base/quantity.h"
#include "base/words.h"
#include "garden/sheet.h"

namespace trug {

// As calendars keep them.
inline constexpr Word<Method> kMethods[] = {
    {Method::Seed, "seed"},
    {Method::BoughtPlants, "plants"},
    {Method::Bulb, "bulb"},
    {Method::Established, "established"},
};
static_assert(names_all(kMethods));

// How a start was chosen, by value: sheets change.
struct ToldStart {
  std::string way;
  std::string group;  // empty: the crop has none
  Method method{};
  Raised raised{};
  Date start, in_ground, lift;
  Millimetres at, length, width;  // its own part of the ground
  int plants = 0;
  std::string variety;  // empty: none was named
  bool operator==(const ToldStart&) const = default;
};

// How far a start has come, by the jobs that lie behind.
enum class Degree { Chosen, Bought, Started, InGround };

// The part of a joint order that was for one start.
struct ToldPart {
  std::string job;  // the order's word
  Date day;
  int plants = 0;
};

struct Told {
  int succession = 0;  // of which sowing, from 1; 0: the planting's only one
  int repeat = 0;      // of which start of it: one more after each failure
  Degree degree = Degree::Chosen;
  std::optional<ToldStart> start;    // absent: only its jobs tell of it
  std::map<std::string, Date> jobs;  // by the job's word
  std::vector<ToldPart> ordered;     // by day
};

// An order for several plantings that the calendar holds: who it is, and its day.
struct ToldOrder {
  std::string job;  // its word
  int month = 0;    // 202701: in which it was to be bought
  int repeat = 0;   // 0: the first of its kind in the month
  Date day;
};

}  // namespace trug
