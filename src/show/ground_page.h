// SPDX-License-Identifier: MIT
// How much ground the wish takes, and what the beds there are give beyond it.
#pragma once

#include <string>
#include <vector>

#include "ask/spare_plants.h"
#include "ask/wish_ground.h"
#include "show/document_head.h"
#include "show/json.h"
#include "show/style.h"

namespace trug::show {

// The plan has a wish.
struct GroundFacts {
  const ask::WishGround& ground;
  const std::vector<ask::Spare>& spare;
  const std::vector<harvest::Week>& weeks;
};

std::string ground_page(const Plan& plan, const GroundFacts& facts, Style style);
// "trug.ground/1".
std::string ground_json(const DocumentHead& head, const Reckoned& reckoned,
                        const GroundFacts& facts);

}  // namespace trug::show
