// SPDX-License-Identifier: MIT
// One plan from its file to its jobs: the way every command but `crop` begins.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/environment.h"
#include "app/options.h"
#include "app/remembered.h"
#include "ask/reckon.h"
#include "base/diagnostics.h"
#include "read/sheet_library.h"
#include "show/json.h"
#include "show/style.h"

namespace trug::app {

// A plan read from its files and what was reckoned from it.
struct Reckoning : ask::Reckoned {
  Plan plan;
  std::unique_ptr<read::SheetLibrary> sheet_library;  // owns the sheets below
  ground::Sheets sheets;
  std::optional<MeasuredWeather> weather;  // the plan's, up to yesterday
  std::vector<show::JobRow> rows;          // the jobs, orders made jointly, with their words
  calendar::Facts facts;  // of a plan that has a garden: what the days hang on (facts_of)
  // The calendar that the plan names, where there is one, and why it is none of its own.
  Remembered remembered;

  show::Reckoned shown() const { return {plan, schedule, findings, rows}; }
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

// Reads the plan and all it names, and reckons it. nullopt where the plan or a sheet is wrong: then
// the problems are printed (`format` names the JSON document they go into) and the exit code is
// kBadInput. `own_calendar`: the file to go on from where the plan names none; empty: none.
std::optional<Reckoning> reckon(const Options& options, const Environment& environment,
                                const std::string& format, const std::string& own_calendar = "");

// Bad input: prints what is wrong, also into the JSON document of that format. Returns the exit
// code.
int refuse(const Options& options, const Environment& environment, const std::string& format,
           const Diagnostics& diagnostics);

// The same for a plan that wishes nothing, which the command is about.
int refuse_without_wish(const Options& options, const Environment& environment,
                        const std::string& format, const Plan& plan);

// How a page is set for people.
show::Style page_style(const Options& options, const Environment& environment);

// Every sheet there is.
ground::Sheets all_sheets(const Reckoning& reckoning);

// What a question about the plan begins with. The reckoning outlives it.
ask::Garden garden_of(const Options& options, const Environment& environment,
                      const Reckoning& reckoning);

// Adds what would help, and what crops cost: for those who show the findings, since each answer is
// a choice made anew.
void advise(const Options& options, const Environment& environment, Reckoning& reckoning);

// Exit code of a run that did its work.
int exit_code(const Options& options, const Reckoning& reckoning);

}  // namespace trug::app
