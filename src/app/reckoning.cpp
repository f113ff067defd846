// SPDX-License-Identifier: MIT
#include "app/reckoning.h"

#include <filesystem>

#include "app/measured_weather.h"
#include "app/version.h"
#include "calendar/event.h"
#include "ground/weather_forecast.h"
#include "read/plan_reader.h"
#include "work/make_jobs.h"

namespace trug::app {
namespace {

ground::Sheets sheets_of(const Plan& plan, read::SheetLibrary& library, Diagnostics& diagnostics) {
  ground::Sheets sheets;
  for (const PlantingRef ref : plantings(plan)) {
    const std::string& crop = entry(plan, ref).crop;
    sheets[crop] = library.find(crop, diagnostics);
  }
  return sheets;
}

// The smoothed curves may cross between months whose own figures do not.
void check_curves(const Plan& plan, Diagnostics& diagnostics) {
  const auto climate = climate::Climate::from(plan.place);
  const Date from = make_date(plan.flowering_year, 1, 1);
  for (Date day = from; day < from + Days{365}; day += Days{1}) {
    const auto maximum = climate.max_c(day);
    if (!maximum || *maximum >= climate.mean_c(day)) continue;
    diagnostics.error(plan.place.at,
                      "smoothed through the year, the mean minimum passes the mean maximum about " +
                          short_day(day),
                      "look for a slip in 'mean_max' or 'mean_min' of that month or its "
                      "neighbours");
    return;
  }
}

}  // namespace

Date today(const Options& options, const Environment& environment) {
  return options.today.value_or(environment.today);
}

std::string product() { return std::string("trug ") + kVersion; }

show::DocumentHead document_head(const Options& options, const Environment& environment,
                                 std::string format) {
  return {std::move(format), product(), today(options, environment)};
}

std::unique_ptr<read::SheetLibrary> open_library(const Options& options, const std::string& plan,
                                                 const Environment& environment,
                                                 Diagnostics& diagnostics) {
  auto library = std::make_unique<read::SheetLibrary>();
  if (!plan.empty()) {
    const auto beside = std::filesystem::path(plan).parent_path() / "crops";
    library->add_folder(environment.files, beside.string(), diagnostics);
  }
  for (const std::string& folder : options.crop_folders) {
    if (!library->add_folder(environment.files, folder, diagnostics)) {
      diagnostics.error({folder, 0, 0}, "there is no such folder",
                        "--crops takes a folder of crop sheets (*.toml)");
    }
  }
  return library;
}

std::unique_ptr<Reckoning> reckon(const Options& options, const Environment& environment,
                                  const std::string& format) {
  Diagnostics diagnostics;
  const std::string& path = options.plans.front();
  auto result = std::make_unique<Reckoning>();
  result->sheet_library = open_library(options, path, environment, diagnostics);
  auto plan = read::read_plan(environment.files, path, *result->sheet_library, diagnostics);
  if (plan) result->sheets = sheets_of(*plan, *result->sheet_library, diagnostics);
  if (plan) check_curves(*plan, diagnostics);
  std::optional<MeasuredWeather> weather;
  if (plan && plan->place.weather) {
    weather = read_weather(environment.files, today(options, environment), *plan, diagnostics);
  }
  if (!diagnostics.empty()) environment.err << diagnostics.render();
  if (!plan || diagnostics.has_errors()) {
    if (options.json) {
      environment.out << show::errors_json(document_head(options, environment, format),
                                           diagnostics.sorted());
    }
    return nullptr;
  }
  if (options.verbose) environment.err << "read " << path << "\n";
  result->plan = std::move(*plan);
  result->climate = std::make_unique<climate::Climate>(climate::Climate::from(
      result->plan.place, weather ? weather->spread_c : climate::kDefaultSpreadC));
  result->choice = ground::choose_plan(result->plan, result->sheets, *result->climate);
  // The findings judge the choice as the averages made it, but the weeks as they will be.
  ground::PlanChoice judged = result->choice;
  if (weather) {
    result->record = weather->record;
    ground::forecast_in(result->climate->with_record(weather->record), result->plan,
                        result->choice);
    ground::spread_by_years(*result->climate, weather->record, result->plan, result->choice);
    judged.weeks = result->choice.weeks;
  }
  result->findings = ground::find(result->plan, result->sheets, *result->climate, judged);
  result->jobs =
      work::make_jobs(result->plan, result->choice, *result->climate, today(options, environment));
  if (result->plan.garden) {
    const Uuid space = calendar::namespace_of(*result->plan.garden, "");
    for (const work::Job& job : result->jobs) {
      result->uids.push_back(calendar::job_uid(space, job.key));
    }
  }
  return result;
}

int exit_code(const Options& options, const Reckoning& reckoning) {
  return options.strict && !reckoning.findings.empty() ? kFindings : kDone;
}

}  // namespace trug::app
