// SPDX-License-Identifier: MIT
// What the chart shows and where on the page it lies; the drawing itself is in chart.h.
//
// Lengths on the page are millimetres, those on the ground centimetres.
#pragma once

#include <string>
#include <vector>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "ground/schedule.h"

namespace trug::show {

// One sowing on its ground: a planting, or one of its successions.
struct ChartBlock {
  std::size_t bed = 0;
  int at_cm = 0;  // from the bed's start
  int length_cm = 0;
  DateRange in_ground;
  bool stood_before = false;  // established plants: they were there before the picture begins
  bool stays = false;         // and those that are there after it ends
  DateRange in_flower;        // from the likely first cut to the last
  Date perhaps_from;          // the first cut in an early year, one of ten
  std::vector<std::string> colours;
  std::string label;  // the crop's name
  std::string words;  // crop, way and dates, for people who cannot see or measure the block
};

struct ChartFacts {
  DateRange days;  // whole months, from the first thing in the ground to the year's end
  std::vector<ChartBlock> blocks;
  std::vector<std::string> left_out;  // names of the plantings that found no place
};

ChartFacts chart_facts(const Plan& plan, const ground::Schedule& schedule,
                       const climate::Climate& climate);

// The colours a planting is drawn in: the plan's; else those of the wish that the sheet has; else
// the sheet's first.
std::vector<std::string> drawn_colours(const Plan& plan, const CropEntry& entry,
                                       const Sheet& sheet);

// A4 upright, in millimetres. Several pages lie one below the other; no bed crosses a fold.
inline constexpr double kPageWidth = 210;
inline constexpr double kPageHeight = 297;
inline constexpr double kPageMargin = 10;
inline constexpr double kMonthColumn = 15;  // left of the beds: the months
inline constexpr double kFrostColumn = 17;  // right of them: the frosts
inline constexpr double kPageHead = 27;     // title and legend, first page
inline constexpr double kBedHead = 15;      // a bed's name and its metres
inline constexpr double kBetweenBeds = 7;

struct BedPlace {
  double x = 0;  // of the ground's upper left corner
  double y = 0;
  bool first_in_row = false;
  bool last_in_row = false;
};

struct ChartLayout {
  int pages = 1;
  double per_metre = 0;  // millimetres on the page, the same for all beds
  double per_day = 0;
  std::vector<BedPlace> beds;  // in the plan's order
};

// The same scales for all beds, so that lengths and times can be compared; the beds below or beside
// each other, as gives the easiest picture on the fewest pages. `foot` is kept free on every page.
ChartLayout chart_layout(const Plan& plan, DateRange days, double foot);

}  // namespace trug::show
