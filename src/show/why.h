// SPDX-License-Identifier: MIT
// The reckoning behind one planting's dates, stage by stage, with the sources of its constants.
#pragma once

#include <string>

#include "climate/climate.h"
#include "garden/plan.h"
#include "ground/schedule.h"
#include "show/json.h"
#include "show/pages.h"

namespace trug::show {

std::string why_page(const Plan& plan, const ground::Schedule& schedule, std::size_t planting,
                     const climate::Climate& climate, Style style);
std::string why_json(const DocumentHead& head, const Plan& plan, const ground::Schedule& schedule,
                     std::size_t planting, const climate::Climate& climate);

}  // namespace trug::show
