// SPDX-License-Identifier: MIT
// What a job says to people: the one place where calendar, page, table, JSON and CSV have it from.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "garden/plan.h"
#include "ground/schedule.h"
#include "work/jobs.h"
#include "work/purchases.h"

namespace trug::show {

// A job with its words.
struct JobRow : work::Job {
  std::string uid;                    // empty: the plan has no garden
  std::string event;                  // that tells of it, its own or another's; empty likewise
  std::string doing;                  // "Sow"
  std::string crop_words;             // "late cornflower 2": by the planting's id where it has one
  std::string text;                   // what to do and why, one paragraph of sentences
  std::vector<std::string> cautions;  // one sentence each, where someone handles the plant
  std::map<std::string, std::vector<std::string>> cautions_of;  // likewise, by crop
  std::vector<work::Purchase> items;                            // of a joint order
  double minutes = 0;  // work::minutes(), with those of the jobs that it tells of; of these none

  std::string title() const { return doing + ": " + crop_words; }
};

// What to look for when a job is due, a clause; empty: nothing is told but its days.
std::string sign_of(const Sheet& sheet, work::JobKind kind);

// A row for each job, in their order; a major one's text tells of the minor ones with it; `uids`
// likewise, or none.
std::vector<JobRow> job_rows(const Plan& plan, const ground::Schedule& schedule,
                             const std::vector<work::Job>& jobs,
                             const std::vector<std::string>& uids);

}  // namespace trug::show
