// SPDX-License-Identifier: MIT
// The commands: each reads, reckons, writes its product to `out` and returns the exit code.
#pragma once

#include "app/environment.h"
#include "app/options.h"

namespace trug::app {

int run_check(const Options& options, const Environment& environment);
int run_jobs(const Options& options, const Environment& environment);
int run_weeks(const Options& options, const Environment& environment);
int run_ground(const Options& options, const Environment& environment);
int run_mend(const Options& options, const Environment& environment);
int run_order(const Options& options, const Environment& environment);
int run_start(const Options& options, const Environment& environment);
int run_calendar(const Options& options, const Environment& environment);
int run_chart(const Options& options, const Environment& environment);
int run_feed(const Options& options, const Environment& environment);
int run_why(const Options& options, const Environment& environment);
int run_frost(const Options& options, const Environment& environment);
int run_crop(const Options& options, const Environment& environment);
int run_help(const Options& options, const Environment& environment);
// Without a command: what to do next.
int run_nothing(const Environment& environment);

}  // namespace trug::app
