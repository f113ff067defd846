// SPDX-License-Identifier: MIT
// A plan that trug writes: only where no file stands yet.
#pragma once

#include <string>

#include "app/environment.h"
#include "ask/mend.h"

namespace trug::app {

// Throws BadOutput where a file stands there, IoError where the world refuses.
void write_new_plan(const Environment& environment, const std::string& path,
                    const std::string& text);
// Tells on a terminal, where one waits, which crop is looked for.
ask::Progress additions_told(const Environment& environment);

}  // namespace trug::app
