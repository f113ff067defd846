// SPDX-License-Identifier: MIT
// What a job says that ends a crop on its ground: lifting, clearing, storing, and what is left
// below.
#pragma once

#include <string>

#include "show/job_phrases.h"

namespace trug::show {

// Whether it is cleared when its pods are ripe.
bool gives_pods(const Subject& of);

// Each of the job of its name.
std::string lift(const Subject& of);
std::string lift_and_store(const Subject& of);
std::string let_die_down(const Subject& of);
std::string replant(const Subject& of);
std::string look_at_stored(const Subject& of);
std::string clear_and_feed(const Subject& of);

}  // namespace trug::show
