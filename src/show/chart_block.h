// SPDX-License-Identifier: MIT
// One block of the chart: its leaves, flowers and labels.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"
#include "show/chart_layout.h"
#include "show/svg.h"

namespace trug::show {

inline constexpr std::string_view kPaper = "#fffdf8";

// Where a block lies on the page.
struct PlacedBlock {
  const ChartBlock* block = nullptr;
  Box box;
  double per_day = 0;
  // Of a day, kept within the block.
  double y_of(Date day) const;
};

// The paint of ground taken but not in flower, to be put among the picture's definitions.
std::string leaf_pattern();
// The fill of a colour word; a word that is not known has a pale one of its own.
std::string_view fill_of(std::string_view colour);

void draw_leaf(Svg& svg, const Box& box);
// Flecks of the flowers' colours, where there are flowers only in some years.
void draw_flecks(Svg& svg, const Box& box, const std::vector<std::string>& colours);
// Upright stripes of equal share.
void draw_flowers(Svg& svg, const Box& box, const std::vector<std::string>& colours);

void draw_block(Svg& svg, const PlacedBlock& placed);
// The crop's name and the days in words, as far as the block has room for them.
void draw_labels(Svg& svg, const PlacedBlock& placed);

}  // namespace trug::show
