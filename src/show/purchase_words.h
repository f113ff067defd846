// SPDX-License-Identifier: MIT
// One thing to buy, in words.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "garden/plan.h"
#include "work/purchases.h"

namespace trug::show {

// "seed", "young plant".
std::string_view goods_unit(const work::Purchase& item);
// "zinnia 'Orchard Dusk'", "tulip (late)".
std::string what_is_bought(const work::Purchase& item);
// "2 packets of 50 (84 seeds for 28 plants)"; "149 bulbs, 7 of them spare".
std::string how_much(const work::Purchase& item);
// The names of the plantings that it is for.
std::vector<std::string> plantings_of(const Plan& plan, const work::Purchase& item);
// What one should know of the time; empty: nothing. Seed is to be had until spring.
std::string note_of(const work::Purchase& item);
// "cornflower, 1 packet of 100 (44 seeds for 22 plants)".
std::string purchase_words(const work::Purchase& item);

}  // namespace trug::show
