// SPDX-License-Identifier: MIT
// The reckoning behind one planting's dates, stage by stage, with the sources of its constants.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "ask/gave_way.h"
#include "climate/climate.h"
#include "show/json.h"
#include "show/style.h"

namespace trug::show {

std::string why_page(const Reckoned& reckoned, std::size_t planting,
                     const climate::Climate& climate, Style style);
std::string why_json(const DocumentHead& head, const Reckoned& reckoned, std::size_t planting,
                     const climate::Climate& climate,
                     const std::optional<ask::GaveWay>& gave_way = {});

}  // namespace trug::show
