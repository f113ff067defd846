// SPDX-License-Identifier: MIT
// What the documents about a plan share. Only .cpp files include this: the library stays behind
// this folder.
#pragma once

#include "ground/schedule.h"
#include "show/json.h"
#include "show/json_parts.h"
#include "work/purchases.h"

namespace trug::show {

// A document that holds its head, the plan and what was found in it so far.
Json json_of(const DocumentHead& head, const Reckoned& reckoned);

// A sowing with its dates; one of a succession with its number.
Json sowing_json(const Reckoned& reckoned, const ground::Sowing& sowing);

// One thing to buy.
Json purchase_json(const Plan& plan, const work::Purchase& item);

}  // namespace trug::show
