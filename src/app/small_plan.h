// SPDX-License-Identifier: MIT
// A small plan to begin with: shown by `trug help plan` and in the manual page.
#pragma once

#include <string_view>

namespace trug::app {

inline constexpr std::string_view kSmallPlan = R"(flowering_year = 2027
title = "Letterbox bed"
began = 2026-11-25            # the day you begin

[place]
latitude = 51.9
last_frost = "8 May"
first_frost = "20 October"
frost_meaning = "garden"      # trug help frost_meaning
year_mean_c = 10.3
warmest_month_c = 17.2

[wish]
vases_per_week = 1
stems_per_vase = 10
from = "20 July"
to = "25 September"

[work]
days = ["Sat", "Sun"]

[[bed]]
name = "letterbox bed"
length_m = 2.4
width_m = 1.1

[[bed.stretch]]               # stretches lie end to end
length_m = 1.5
crops = ["zinnia"]

[[bed.stretch]]
length_m = 0.9
crops = ["statice"]
)";

}  // namespace trug::app
