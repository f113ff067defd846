// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <optional>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "garden/weather.h"
#include "ground/schedule.h"

namespace trug::ask {

// A plan with all that its reckoning needs. The sheets must outlive it.
struct Garden {
  Plan plan;
  const ground::Sheets& sheets;
  climate::Climate climate;  // of averages
  Date today;
  std::optional<MeasuredWeather> weather = {};  // up to yesterday

  // Nothing is begun before it: with an earlier calendar, but for what that one holds, today.
  Date first_day() const {
    const Date begins = plan.began.value_or(today);
    return plan.remembers ? std::max(begins, today) : begins;
  }
  // What a question adds is begun today at the earliest; absent: so is all the plan.
  std::optional<Date> adds_from() const {
    return first_day() < today ? std::optional(today) : std::nullopt;
  }
};

}  // namespace trug::ask
