// SPDX-License-Identifier: MIT
// A plan that trug writes: only where no file stands yet.
#pragma once

#include <string>

#include "app/environment.h"

namespace trug::app {

// The exit code; says on `err` where it was not written, and why. Throws IoError.
int write_new_plan(const Environment& environment, const std::string& path,
                   const std::string& text);

}  // namespace trug::app
