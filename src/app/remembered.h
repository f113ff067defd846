// SPDX-License-Identifier: MIT
// The plan's calendar as its memory: what was told of each planting, read and written.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "calendar/memory.h"
#include "calendar/planting_line.h"
#include "calendar/render.h"
#include "garden/plan.h"
#include "ground/schedule.h"

namespace trug::app {

// The file that the plan names, from where the program runs; empty: it names none.
std::string calendar_path(const Plan& plan);

struct Remembered {
  std::optional<calendar::ReadMemory> read;  // the file, where there is one
  std::string trouble;  // why what is there cannot be the plan's memory; empty: all is well
};

// Takes what that calendar holds into the plan (Plan::remembers, Planting::told); nothing where
// there is no such file, or the plan has no garden. `facts`: those of today (facts_of). Throws
// IoError where the machine cannot read it.
Remembered remember(const std::string& path, const calendar::Facts& facts, Date today, Plan& plan);

// What the next calendar is to keep of the choice.
std::vector<calendar::PlantingLine> planting_lines(const Plan& plan,
                                                   const ground::Schedule& schedule);

}  // namespace trug::app
