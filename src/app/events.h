// SPDX-License-Identifier: MIT
// A plan's jobs as the calendar has them: what `calendar` and `feed` share.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/reckoning.h"
#include "calendar/regenerate.h"
#include "show/change_words.h"

namespace trug::app {

// Which of a garden's calendars a file is. Each has UIDs of its own, so none of them takes another
// for an earlier version of itself.
struct Part {
  std::string name;  // of a split file: a bed, a person, a kind of job; empty: the whole garden
  std::string only;  // the kinds of job it is confined to, "plant-out and sow"; empty: to none
};

// The space of that calendar's UIDs. The plan must have a garden.
Uuid space_of(const Plan& plan, const Part& part);

// Those that have events of their own: all but what others tell of.
std::vector<const show::JobRow*> jobs_with_events(const std::vector<show::JobRow>& rows);

// What one calendar file is to hold.
struct CalendarContent {
  Part part;
  std::vector<const show::JobRow*> jobs;
  calendar::Profile profile = calendar::Profile::Import;
  bool lost = false;  // as calendar::Run
  // An event a day, or one a job; absent: as the earlier file has it, else one a job.
  std::optional<bool> per_day = {};
};

// The next version of that file. The plan must have a garden; `previous` as calendar::regenerate().
calendar::Regenerated next_version(const Options& options, const Environment& environment,
                                   const Reckoning& reckoning, const CalendarContent& content,
                                   std::optional<std::string_view> previous);

// What that version changed and why, for show::changes_page().
show::CalendarFile changes_of(const std::string& path, bool had_previous,
                              const Reckoning& reckoning, const CalendarContent& content,
                              const calendar::Regenerated& version);

// The error where the plan names a calendar that is none of its own and is not the file to write;
// empty: there is none.
std::string refused_memory(const Reckoning& reckoning, const std::string& output);

// How to give the plan what a first calendar needs, its garden and the day it began, to paste.
std::string ask_for_identity(const Plan& plan, Date today, const Environment& environment);

}  // namespace trug::app
