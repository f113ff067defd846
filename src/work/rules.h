// SPDX-License-Identifier: MIT
// One rule a kind of job: whether a sowing needs it, and when. Each looks at the sowing alone and
// knows nothing of the other jobs; make_jobs() puts them in order and on the gardener's days.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "climate/season.h"
#include "garden/plan.h"
#include "ground/schedule.h"
#include "work/jobs.h"
#include "work/make_jobs.h"

namespace trug::work {

// The chosen day in the window in which the job is still right, both ends inclusive.
struct Window {
  Date day, first, last;
};

// A job as its rule sees it.
struct JobDraft {
  JobKind kind{};
  Window window;
  std::optional<Raised> where;
  bool pinned = false;              // the plan insists on the day
  bool recorded = false;            // it was done that day
  bool soonest = false;             // not on an earlier of the gardener's days
  std::optional<std::string> note;  // recorded with it
  std::optional<double> soil_c;
  std::optional<Date> sow_by;
  bool winter_takes_some = false;
  std::optional<double> alive_if_left;
};

// What a rule may ask of besides the sowing.
struct RuleContext {
  const Plan& plan;
  const climate::Season& season;
  When when;

  const CropEntry& asked(const ground::Sowing& sowing) const {
    return plan.plantings[sowing.planting].asked;
  }
};

// nullopt: this sowing has no such job. Days that no sheet gives are common practice and memory.
using Rule = std::optional<JobDraft>(const ground::Sowing&, const RuleContext&);

// The rules in the order in which a sowing goes through its life: buying and raising, tending,
// cutting and what comes after it.
std::span<Rule* const> raising_rules();
std::span<Rule* const> tending_rules();
std::span<Rule* const> cutting_rules();

// The draft's window on the gardener's days: a day the choice or the plan fixed stays, another goes
// to the nearest of them inside the window. Nothing lies before the first day.
Window placed(const JobDraft& draft, const RuleContext& context);

// What several rules share.
Window around(Date day, int before, int after);
// A yearly job of the sheet, in the bed.
std::optional<JobDraft> in_its_window(JobKind kind, const ground::Sowing& sowing,
                                      const RuleContext& context);

}  // namespace trug::work
