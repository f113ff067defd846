// SPDX-License-Identifier: MIT
// One plan from its nouns to its jobs: the same for every command, and for every question that
// reckons again with something changed.
#pragma once

#include <optional>
#include <vector>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "garden/weather.h"
#include "ground/findings.h"
#include "ground/schedule.h"
#include "harvest/weeks.h"
#include "work/jobs.h"

namespace trug::ask {

struct Reckoned {
  climate::Climate climate;  // of averages
  // As the averages chose it, with the forecasts as measured weather moved them.
  ground::Schedule schedule;
  std::vector<harvest::Week> weeks;
  std::vector<ground::Finding> findings;
  std::vector<work::Job> jobs;
};

// Pure: the same plan, sheets, weather and day give the same. The sheets must outlive the result.
Reckoned reckon(const Plan& plan, const ground::Sheets& sheets,
                const std::optional<MeasuredWeather>& weather, Date today);

}  // namespace trug::ask
