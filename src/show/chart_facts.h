// SPDX-License-Identifier: MIT
// What the chart shows, bed by bed: what stands where and when, how it is raised, what lies bare.
//
// Lengths are centimetres along the bed.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "garden/sheet.h"
#include "ground/schedule.h"

namespace trug::show {

// Elsewhere, before it goes to its place in the bed.
struct Raising {
  DateRange days;     // from the sowing, or potting up, to the day before it goes out
  std::string place;  // "frame"
};

// One sowing on its ground: a planting, or one of its successions.
struct ChartBlock {
  std::size_t bed = 0;
  int at_cm = 0;  // from the bed's start
  int length_cm = 0;
  DateRange in_ground;
  bool stood_before = false;  // established plants: they were there before the picture begins
  bool stays = false;         // and those that are there after it ends
  DateRange in_flower;        // from the likely first cut to the last; empty: nothing is cut
  Date perhaps_from;          // the first cut in an early year, one of ten
  std::vector<std::string> colours;
  std::optional<Raising> raising;
  std::string name;    // crop and variety
  std::string plants;  // "12 plants"
  std::string begin;   // "sown 29 Aug", "out 14 Jul"; empty: it stood before
  std::string end;     // "cleared 20 Jul"; empty: it stays, or is cut to its last day
  std::string words;   // crop, way and dates, for people who cannot see or measure the block
};

// Ground on which nothing stands for some weeks between the frosts.
struct BareGround {
  std::size_t bed = 0;
  int at_cm = 0;
  int length_cm = 0;
  DateRange days;
};

// A planting that found no place; `bed` is absent for what grows outside the beds.
struct LeftOut {
  std::optional<std::size_t> bed;
  std::string name;
};

struct ChartFacts {
  // Whole months: all that is raised, stands, is wished for, and the first frost.
  DateRange days;
  std::vector<DateRange> bed_days;  // likewise, of what is each bed's
  std::vector<ChartBlock> blocks;
  std::vector<BareGround> bare;
  std::vector<LeftOut> left_out;
};

// Bare for fewer days, or of less length, is not named (memory: too little for another crop).
inline constexpr int kBareDays = 21;
inline constexpr int kBareCm = 20;

ChartFacts chart_facts(const Plan& plan, const ground::Schedule& schedule,
                       const climate::Climate& climate);

// The colours a planting is drawn in: the plan's for it; else those of the wish that the sheet has;
// else the sheet's first. What the plan does not say of it is not drawn white or cream where there
// is another, since that looks like empty paper.
std::vector<std::string> drawn_colours(const Plan& plan, const CropEntry& entry,
                                       const Sheet& sheet);

}  // namespace trug::show
