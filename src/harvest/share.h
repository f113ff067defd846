// SPDX-License-Identifier: MIT
// What of a cut falls into a week.
#pragma once

#include "base/date.h"
#include "harvest/weeks.h"

namespace trug::harvest {

// Share of all its stems when its days are moved by so many, later: more than none.
double share_in(const Cut& cut, Date monday, int moved);

}  // namespace trug::harvest
