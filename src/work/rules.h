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
  bool where_it_stands = false;     // `where` is where its plants stand on the day it is done
  bool pinned = false;              // the plan insists on the day
  bool recorded = false;            // it was done that day
  bool apart = false;               // has an event of its own, though its kind is told with another
  bool soonest = false;             // not on an earlier of the gardener's days
  std::optional<Date> no_later;     // it is lifted then
  std::optional<std::string> note;  // recorded with it
  bool frost_may_come = false;      // while it lasts
  std::optional<double> soil_c;
  std::optional<Date> sow_by;
  bool winter_takes_some = false;
  std::optional<double> alive_if_left;
  Clearing clearing = Clearing::Feed;
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
// Days until seed is up, at the latest.
int days_to_come_up(const Sheet& sheet);
// The day on which plants raised in warmth begin to be hardened off, so that it ends on the day
// they go out, or that on which they were told to be, once it is past; nullopt: they are not.
std::optional<Date> hardened_from(const ground::Sowing& sowing, const RuleContext& context);
// Where its plants stand on a day, and from when to when they stand there; nowhere in particular
// (nullopt) while they are carried out and in.
struct Standing {
  std::optional<Raised> where;
  DateRange days;
};
Standing standing(const ground::Sowing& sowing, const RuleContext& context, Date day);
// Something done to its plants on a day, where they stand then: the window ends where that does.
JobDraft where_it_stands(JobKind kind, Window window, const ground::Sowing& sowing,
                         const RuleContext& context);
// The day until which one year in twenty still has a frost; nullopt: frosts are unknown there.
std::optional<Date> frost_safe_day(const RuleContext& context);
// A yearly job of the sheet, in the bed.
std::optional<JobDraft> in_its_window(JobKind kind, const ground::Sowing& sowing,
                                      const RuleContext& context);

}  // namespace trug::work
