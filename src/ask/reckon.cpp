// SPDX-License-Identifier: MIT
#include "ask/reckon.h"

#include <utility>

#include "ask/day_one.h"
#include "ask/find.h"
#include "ask/recorded.h"
#include "ground/own_clock.h"
#include "ground/plan_choice.h"
#include "ground/weather_forecast.h"
#include "work/make_jobs.h"

namespace trug::ask {
namespace {

// Its forecasts moved by the weather that was measured and by the garden's own records.
ground::Schedule as_it_goes(const Garden& garden, ground::Schedule schedule) {
  const int year = garden.plan.flowering_year;
  climate::Climate climate = garden.climate;
  if (garden.weather) {
    climate = climate.with_record(garden.weather->record);
    schedule = ground::retimed(std::move(schedule), climate, year);
  }
  const ground::OwnClock own = ground::own_clock(garden.plan, schedule, climate);
  return ground::by_own_clock(std::move(schedule), own, climate, year);
}

Outcome outcome_of(const Garden& garden, const ground::Schedule& chosen,
                   ground::Schedule schedule) {
  const Plan& plan = garden.plan;
  auto weeks = harvest::count_weeks(plan, garden.climate, ground::cuts(plan, schedule));
  auto findings = find({garden, chosen, schedule, weeks});
  auto jobs = work::make_jobs(plan, schedule, garden.climate,
                              {garden.today, plan.began.value_or(garden.today)});
  for (Finding& finding : taken_for_granted(garden, schedule, jobs)) {
    findings.push_back(std::move(finding));
  }
  for (Finding& finding : seen_in_records(garden, schedule, jobs)) {
    findings.push_back(std::move(finding));
  }
  sort_by_rank(findings);
  return {std::move(schedule), std::move(weeks), std::move(findings), std::move(jobs)};
}

}  // namespace

ground::Schedule choose(const Garden& garden) {
  return ground::choose_plan(garden.plan, garden.sheets, garden.climate,
                             {.first_day = garden.first_day(), .today = garden.today});
}

std::optional<ground::Bound> bound(const Garden& garden) {
  return ground::choose_plan(
             garden.plan, garden.sheets, garden.climate,
             {.first_day = garden.first_day(), .today = garden.today, .with_bound = true})
      .bound;
}

Outcome reckon(const Garden& garden) {
  const ground::Schedule chosen = choose(garden);
  return outcome_of(garden, chosen, as_it_goes(garden, chosen));
}

Reckoned reckon(const Plan& plan, const ground::Sheets& sheets,
                const std::optional<MeasuredWeather>& weather, Date today) {
  const Garden garden{
      plan, sheets,
      climate::Climate::from(plan.place, weather ? weather->spread_c : climate::kDefaultSpreadC),
      today, weather};
  const ground::Schedule chosen = choose(garden);
  ground::Schedule schedule = as_it_goes(garden, chosen);
  if (weather) {
    schedule = ground::spread_by_years(std::move(schedule), garden.climate, weather->record,
                                       plan.flowering_year);
  }
  return {outcome_of(garden, chosen, std::move(schedule)), garden.climate};
}

}  // namespace trug::ask
