// SPDX-License-Identifier: MIT
// One block of the chart: its leaves and flowers, the stalk of its raising; bare ground.
//
// Leaf is hatched, flowers dotted, an early year's flecked, bare ground stippled: none of it hangs
// on colour.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "show/chart_facts.h"
#include "show/chart_layout.h"
#include "show/svg.h"

namespace trug::show {

inline constexpr std::string_view kSoil = "#e9dfd0";

// The paints, to be put among the picture's definitions.
std::string chart_patterns();
// The fill of a colour word; a word that is not known has a pale one of its own.
std::string_view fill_of(std::string_view colour);

void draw_leaf(Svg& svg, const Box& box);
// Flecks of the flowers' colours, where there are flowers only in some years.
void draw_flecks(Svg& svg, const Box& box, const std::vector<std::string>& colours);
// Upright stripes of equal share.
void draw_flowers(Svg& svg, const Box& box, const std::vector<std::string>& colours);
void draw_bare(Svg& svg, const Box& box);
// From a seed at the top of the box down its left side.
void draw_stalk(Svg& svg, const Box& box);

// The parts of a block on its page.
Box whole_box(const BedPage& page, const ChartBlock& block);
Box leaf_box(const BedPage& page, const ChartBlock& block);  // until it may flower
Box flower_box(const BedPage& page, const ChartBlock& block);
// In the planting's own column, above its block; empty where it is not raised elsewhere.
Box stalk_box(const BedPage& page, const ChartBlock& block);

void draw_block(Svg& svg, const BedPage& page, const ChartBlock& block);

}  // namespace trug::show
