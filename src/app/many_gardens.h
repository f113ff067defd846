// SPDX-License-Identifier: MIT
// The calendars of many gardens in one run, on all cores.
#pragma once

#include <functional>

#include "app/environment.h"
#include "app/options.h"

namespace trug::app {

// Brings one plan's calendar up to date and returns the exit code. Called on several threads at
// once, each time with an environment of its own.
using OneGarden = std::function<int(const Options&, const Environment&)>;

// Does so for each of the plans, whose calendars stand in the folder, garden.ics for garden.toml. A
// plan of "-" is a list on the standard input, a plan a line. What is said of them comes in their
// order; one that is wrong is told and the others are written all the same. Returns the highest
// exit code of all, or kBadInput before any is written: no folder, or two plans for one file.
int each_garden(const Options& options, const Environment& environment, const OneGarden& one);

}  // namespace trug::app
