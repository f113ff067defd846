// SPDX-License-Identifier: MIT
// One plan from its nouns to its jobs: the same for every command, and for every question that
// reckons again with something changed. Pure: the same garden gives the same.
#pragma once

#include <optional>
#include <vector>

#include "ask/findings.h"
#include "ask/garden.h"
#include "base/date.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "garden/weather.h"
#include "ground/schedule.h"
#include "harvest/weeks.h"
#include "work/jobs.h"

namespace trug::ask {

// The schedule as measured weather and the garden's records move its forecasts, and what comes of it; the findings judge
// the choice.
struct Outcome {
  ground::Schedule schedule;
  std::vector<harvest::Week> weeks;
  std::vector<Finding> findings;
  std::vector<work::Job> jobs;
};

// As the averages choose it.
ground::Schedule choose(const Garden& garden);

// How far that choice can be from the best there is. As dear as the choice.
std::optional<ground::Bound> bound(const Garden& garden);

// With the usual spread of the dates: a question compares the likely ones.
Outcome reckon(const Garden& garden);

struct Reckoned : Outcome {
  climate::Climate climate;  // of averages
};

// As it stands today, with the spread that recorded years tell. The sheets must outlive the result.
Reckoned reckon(const Plan& plan, const ground::Sheets& sheets,
                const std::optional<MeasuredWeather>& weather, Date today);

}  // namespace trug::ask
