// SPDX-License-Identifier: MIT
// One plan from its file to its jobs: the way every command but `crop` begins.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "app/environment.h"
#include "app/options.h"
#include "base/diagnostics.h"
#include "climate/climate.h"
#include "ground/findings.h"
#include "ground/plan_choice.h"
#include "read/sheet_library.h"
#include "show/json.h"
#include "work/jobs.h"

namespace trug::app {

struct Reckoning {
  Plan plan;
  std::unique_ptr<read::SheetLibrary> sheet_library;  // owns the sheets below
  ground::Sheets sheets;
  std::unique_ptr<climate::Climate> climate;
  std::shared_ptr<const DailyRecord> record;  // of the plan's weather, up to yesterday; else null
  ground::PlanChoice choice;
  std::vector<ground::Finding> findings;
  std::vector<work::Job> jobs;
  std::vector<std::string> uids;  // of the jobs; empty where the plan has no garden

  show::Reckoned shown() const { return {plan, choice, findings, jobs, uids}; }
};

// The day the run counts as today.
Date today(const Options& options, const Environment& environment);
// Name and version of the program, "trug 0.1.0".
std::string product();
show::DocumentHead document_head(const Options& options, const Environment& environment,
                                 std::string format);

// The sheets compiled in, those of a crops/ folder beside `plan` and those of --crops.
std::unique_ptr<read::SheetLibrary> open_library(const Options& options, const std::string& plan,
                                                 const Environment& environment,
                                                 Diagnostics& diagnostics);

// Null where the plan or a sheet is wrong: then the problems are printed (`format` names the JSON
// document they go into) and the exit code is kBadInput.
std::unique_ptr<Reckoning> reckon(const Options& options, const Environment& environment,
                                  const std::string& format);

// Exit code of a run that did its work.
int exit_code(const Options& options, const Reckoning& reckoning);

}  // namespace trug::app
