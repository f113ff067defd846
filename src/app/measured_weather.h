// SPDX-License-Identifier: MIT
// The record that a plan names as its weather.
#pragma once

#include <optional>

#include "base/diagnostics.h"
#include "base/files.h"
#include "garden/plan.h"
#include "garden/weather.h"

namespace trug::app {

// Reads the plan's weather file, named from the plan's folder, up to the day before `today`. A plan
// without temperatures of its own gets the record's averages: of its last thirty years before the
// year ahead of the flowering year, so that choices do not move with each new day. Reports a file
// that cannot be read and a record that cannot give what is wanted; nullopt then.
std::optional<MeasuredWeather> read_weather(const FileReader& files, Date today, Plan& plan,
                                            Diagnostics& diagnostics);

}  // namespace trug::app
