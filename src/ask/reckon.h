// SPDX-License-Identifier: MIT
// One plan from its nouns to its jobs: the same for every command, and for every question that
// reckons again with something changed.
#pragma once

#include <optional>
#include <vector>

#include "ask/findings.h"
#include "base/date.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "garden/weather.h"
#include "ground/schedule.h"
#include "harvest/weeks.h"
#include "work/jobs.h"

namespace trug::ask {

// A plan with all that its reckoning needs. The sheets must outlive it.
struct Garden {
  Plan plan;
  const ground::Sheets& sheets;
  climate::Climate climate;  // of averages
  Date today;

  // Nothing is begun before it.
  Date first_day() const { return plan.began.value_or(today); }
};

// What comes of a schedule.
struct Outcome {
  ground::Schedule schedule;
  std::vector<harvest::Week> weeks;
  std::vector<Finding> findings;
  std::vector<work::Job> jobs;
};
Outcome outcome_of(const Garden& garden, ground::Schedule schedule);
// As the averages choose it.
Outcome reckon(const Garden& garden);

// As it stands today: the schedule and all that comes of it as measured weather moved the
// forecasts; the findings judge the choice.
struct Reckoned : Outcome {
  climate::Climate climate;  // of averages
  ground::Schedule chosen;   // as the averages made it
};

// Pure: the same plan, sheets, weather and day give the same. The sheets must outlive the result.
Reckoned reckon(const Plan& plan, const ground::Sheets& sheets,
                const std::optional<MeasuredWeather>& weather, Date today);

}  // namespace trug::ask
