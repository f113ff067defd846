// SPDX-License-Identifier: MIT
// The weeks of the wish, a line each: what is cut, what it comes to in vases, what is lacking.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ask/years.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "harvest/weeks.h"
#include "show/json.h"
#include "show/style.h"

namespace trug::show {

std::string weeks_page(const Plan& plan, const std::vector<harvest::Week>& weeks,
                       const climate::Climate& climate, Style style);

// `chances`: of those weeks, where they were asked for.
std::string weeks_json(const DocumentHead& head, const Reckoned& reckoned,
                       const std::vector<harvest::Week>& weeks,
                       const std::optional<ask::Chances>& chances);
// The same fields; a span is three of them, a list is joined with its likely stems.
std::string weeks_csv(const Plan& plan, const std::vector<harvest::Week>& weeks,
                      const std::optional<ask::Chances>& chances);

}  // namespace trug::show
