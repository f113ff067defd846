// SPDX-License-Identifier: MIT
// When bulbs, corms and tubers that stand begin their year.
#pragma once

#include <cstddef>
#include <optional>

#include "base/date.h"
#include "ground/judge.h"

namespace trug::ground {

// As if planted in the middle of their usual days. What the warmth of a spring's soil wakes, on the
// first on which it could be planted in its place anew: what comes up sooner the frost takes
// (memory). `way`: by its place in the sheet. nullopt: there are no such days.
std::optional<Date> wakes_on(const Case& of, std::size_t way);

}  // namespace trug::ground
