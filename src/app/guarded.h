// SPDX-License-Identifier: MIT
// Nothing that is thrown goes further: it becomes one message and an exit code.
#pragma once

#include <functional>

#include "app/environment.h"

namespace trug::app {

// The exit code of `work`, or that of what it threw, which is told on the standard error.
int guarded(const Environment& environment, const std::function<int()>& work);

}  // namespace trug::app
