// SPDX-License-Identifier: MIT
#include "app/reckoning.h"

#include <fmt/format.h>

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "app/measured_weather.h"
#include "app/plan_facts.h"
#include "app/version.h"
#include "ask/advise.h"
#include "ask/findings.h"
#include "base/text.h"
#include "calendar/event.h"
#include "read/plan_reader.h"
#include "work/orders.h"

namespace trug::app {
namespace {

ground::Sheets sheets_of(const Plan& plan, read::SheetLibrary& library, Diagnostics& diagnostics) {
  ground::Sheets sheets;
  for (const Planting& planting : plan.plantings) {
    sheets[planting.asked.crop] = library.find(planting.asked.crop, diagnostics);
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

void check_job_word(const Happened& happened, Diagnostics& diagnostics) {
  if (!happened.job || work::parse_job_kind(*happened.job)) return;
  std::vector<std::string> meant;
  for (const work::JobTrait& kind : work::kTraits) {
    if (kind.word.starts_with(*happened.job)) meant.push_back(fmt::format("\"{}\"", kind.word));
  }
  diagnostics.error(happened.at, fmt::format("there is no job '{}'", *happened.job),
                    meant.empty()
                        ? "write its word as `trug jobs --json` has it: job = \"prick-out\""
                        : "write job = " + listed(meant, "or"));
}

// What is still to come has not happened; with --today it is left out, and said.
void check_happened(const Options& options, const Environment& environment, Plan& plan,
                    Diagnostics& diagnostics) {
  const Date day = today(options, environment);
  int later = 0;
  for (Planting& planting : plan.plantings) {
    for (const Happened& happened : planting.happened) {
      check_job_word(happened, diagnostics);
      if (happened.on <= day) continue;
      ++later;
      if (options.today) continue;
      diagnostics.error(
          happened.at,
          fmt::format("{} is still to come: it cannot have happened", plain_day(happened.on)),
          "for a run on another day there is --today");
    }
    if (options.today) {
      std::erase_if(planting.happened, [&](const Happened& h) { return h.on > day; });
    }
  }
  if (options.today && later > 0) {
    environment.err << fmt::format("note: {} of [[happened]] after {} left out\n",
                                   counted(later, "line"), plain_day(day));
  }
}

std::vector<std::string> uids_of(const Plan& plan, const std::vector<work::Job>& jobs) {
  std::vector<std::string> uids;
  if (!plan.garden) return uids;
  const Uuid space = calendar::namespace_of(*plan.garden, "");
  for (const work::Job& job : jobs) uids.push_back(calendar::job_uid(space, job.key));
  return uids;
}

// None need be there; what is there must be readable, else others' figures would stand in unseen.
void add_sheets_beside(const std::string& plan, const FileReader& files,
                       read::SheetLibrary& library, Diagnostics& diagnostics) {
  const std::string beside = (std::filesystem::path(plan).parent_path() / "crops").string();
  if (library.add_folder(files, beside, diagnostics)) return;
  const FileState state = files.read(beside, 0).state;
  if (state == FileState::Missing) return;
  diagnostics.error({beside, 0, 0},
                    state == FileState::Folder ? "this folder cannot be read"
                                               : "this is no folder of crop sheets",
                    "sheets beside the plan stand in a folder crops/ that you may read; name it "
                    "otherwise if it is not for trug");
}

// Which event of the plan's calendar tells of each, in the shape that calendar has.
void name_events(const Plan& plan, std::vector<show::JobRow>& rows) {
  if (!plan.garden) return;
  const Uuid space = calendar::namespace_of(*plan.garden, "");
  for (show::JobRow& row : rows) {
    const show::JobRow& carrier = row.told_with ? rows[*row.told_with] : row;
    row.event = plan.per_day ? calendar::day_uid(space, carrier.day, carrier.key.flowering_year)
                             : carrier.uid;
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
    add_sheets_beside(plan, environment.files, *library, diagnostics);
  }
  for (const std::string& folder : options.crop_folders) {
    if (!library->add_folder(environment.files, folder, diagnostics)) {
      diagnostics.error({folder, 0, 0}, "there is no such folder",
                        "--crops takes a folder of crop sheets (*.toml)");
    }
  }
  return library;
}

int refuse(const Options& options, const Environment& environment, const std::string& format,
           const Diagnostics& diagnostics) {
  environment.err << diagnostics.render();
  if (options.is_json()) {
    environment.out << show::errors_json(document_head(options, environment, format),
                                         diagnostics.sorted());
  }
  return kBadInput;
}

int refuse_without_wish(const Options& options, const Environment& environment,
                        const std::string& format, const Plan& plan) {
  Diagnostics diagnostics;
  diagnostics.error({plan.file, 1, 1}, "the plan has no [wish]",
                    "say how many vases you want, and from when to when: trug help wish");
  return refuse(options, environment, format, diagnostics);
}

show::Style page_style(const Options& options, const Environment& environment) {
  return {options.colour.value_or(environment.colour) && !options.plain, environment.width};
}

std::optional<Reckoning> reckon(const Options& options, const Environment& environment,
                                const std::string& format, const std::string& own_calendar) {
  Diagnostics diagnostics;
  const std::string& path = options.plans.front();
  auto library = open_library(options, path, environment, diagnostics);
  auto plan = read::read_plan(environment.files, path, *library, diagnostics);
  ground::Sheets sheets;
  std::optional<MeasuredWeather> weather;
  if (plan) {
    sheets = sheets_of(*plan, *library, diagnostics);
    check_curves(*plan, diagnostics);
    check_happened(options, environment, *plan, diagnostics);
    if (plan->place.weather) {
      weather = read_weather(environment.files, today(options, environment), *plan, diagnostics);
    }
  }
  if (!plan || diagnostics.has_errors()) {
    refuse(options, environment, format, diagnostics);
    return std::nullopt;
  }
  if (!diagnostics.empty()) environment.err << diagnostics.render();
  if (options.verbose) environment.err << "read " << path << "\n";
  const std::string memory = plan->calendar ? calendar_path(*plan) : own_calendar;
  calendar::Facts facts = plan->garden ? facts_of(*plan, sheets, weather) : calendar::Facts();
  Remembered remembered = remember(memory, facts, today(options, environment), *plan);
  Reckoning result{ask::reckon(*plan, sheets, weather, today(options, environment)),
                   std::move(*plan),
                   std::move(library),
                   std::move(sheets),
                   std::move(weather),
                   {},
                   std::move(facts),
                   std::move(remembered)};
  // With --force the file is replaced.
  if (const auto& trouble = result.remembered.trouble; !trouble.empty() && !options.force) {
    ask::Finding finding;
    finding.at = {result.plan.file, 1, 1};
    finding.key = "calendar";
    finding.found = ask::MemoryUnreadable{memory, trouble};
    result.findings.push_back(std::move(finding));
    ask::sort_by_rank(result.findings);
  }
  const auto listed = work::with_joint_orders(result.plan, result.schedule, result.jobs,
                                              today(options, environment));
  result.rows = show::job_rows(result.plan, result.schedule, listed, uids_of(result.plan, listed));
  name_events(result.plan, result.rows);
  return result;
}

ground::Sheets all_sheets(const Reckoning& r) {
  Diagnostics of_no_matter;  // a sheet of no crop of the plan
  ground::Sheets sheets = r.sheets;
  for (const std::string& name : r.sheet_library->names()) {
    if (const Sheet* sheet = r.sheet_library->find(name, of_no_matter)) sheets[sheet->name] = sheet;
  }
  return sheets;
}

ask::Garden garden_of(const Options& options, const Environment& environment, const Reckoning& r) {
  return {r.plan, r.sheets, r.climate, today(options, environment), r.weather};
}

void advise(const Options& options, const Environment& environment, Reckoning& r) {
  const ask::Garden garden = garden_of(options, environment, r);
  r.findings = ask::advised(garden, r, [&r] { return all_sheets(r); });
}

int exit_code(const Options& options, const Reckoning& reckoning) {
  return options.strict && !reckoning.findings.empty() ? kFindings : kDone;
}

}  // namespace trug::app
