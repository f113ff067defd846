// SPDX-License-Identifier: MIT
// What `crop` prints for people.
#pragma once

#include <string>
#include <vector>

#include "garden/sheet.h"
#include "show/style.h"

namespace trug::show {

// All sheets, a line each.
std::string crop_list(const std::vector<const Sheet*>& sheets, Style style);
// One sheet with its sources and cautions.
std::string crop_page(const Sheet& sheet, Style style);

}  // namespace trug::show
