// SPDX-License-Identifier: MIT
#include "ask/reckon.h"

#include <utility>

#include "ground/plan_choice.h"
#include "ground/weather_forecast.h"
#include "work/make_jobs.h"

namespace trug::ask {

Reckoned reckon(const Plan& plan, const ground::Sheets& sheets,
                const std::optional<MeasuredWeather>& weather, Date today) {
  const auto averages =
      climate::Climate::from(plan.place, weather ? weather->spread_c : climate::kDefaultSpreadC);
  const Date first_day = plan.began.value_or(today);
  const ground::Schedule chosen =
      ground::choose_plan(plan, sheets, averages, {.first_day = first_day});
  ground::Schedule schedule = chosen;
  if (weather) {
    schedule = ground::retimed(std::move(schedule), averages.with_record(weather->record),
                               plan.flowering_year);
    schedule = ground::spread_by_years(std::move(schedule), averages, weather->record,
                                       plan.flowering_year);
  }
  // The findings judge the choice as the averages made it, but the weeks as they will be.
  auto weeks = harvest::count_weeks(plan, averages, ground::cuts(schedule));
  auto findings = ground::find(plan, sheets, averages, chosen, weeks);
  auto jobs = work::make_jobs(plan, schedule, averages, {today, first_day});
  return {averages, std::move(schedule), std::move(weeks), std::move(findings), std::move(jobs)};
}

}  // namespace trug::ask
