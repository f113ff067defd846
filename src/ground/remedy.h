// SPDX-License-Identifier: MIT
// What would help: found by reckoning again with one thing changed, never by guessing.
#pragma once

#include <optional>
#include <string>

#include "base/date.h"
#include "garden/plan.h"
#include "ground/schedule.h"

namespace trug::ground {

// The nearest change that makes a finding go, and what it costs.
struct Remedy {
  enum class Kind {
    LiftEarlier,  // the crop before it, on `day`
    LeaveOut,     // the crop itself
    NextYear,     // the plan's year
    FewerPlants,  // as many as fit: `plants`
    StartLater,   // on `day` or after
    OtherPlace    // nothing on this ground and in this year helps
  };
  Kind kind = Kind::OtherPlace;
  std::string crop;  // the crop it speaks of, where that is another
  std::optional<Date> day;
  int plants = 0;
  double costs_stems = 0;
  std::optional<std::string> toml;  // to paste into the plan; absent where there is none
};

// For a crop that does not fit between its neighbours: an earlier lift of the one before it, below
// its fewest useful days; else the stretch without the crop.
Remedy remedy_for_ground(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
                         std::size_t planting);
// For a crop that has no date this year: the next year where that has one.
Remedy remedy_for_year(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
                       std::size_t planting);
// For one begun too early: the first day on which it is not.
std::optional<Remedy> remedy_for_too_early(const Schedule& schedule, std::size_t planting);
Remedy leave_out(const Plan& plan, std::size_t planting, double costs_stems);
Remedy fewer_plants(const Layout& layout);

}  // namespace trug::ground
