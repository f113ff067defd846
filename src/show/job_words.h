// SPDX-License-Identifier: MIT
// What a job says to people: the one place where calendar, page, table, JSON and CSV have it from.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "garden/plan.h"
#include "ground/schedule.h"
#include "work/jobs.h"
#include "work/purchases.h"

namespace trug::show {

// A job with its words.
struct JobRow : work::Job {
  std::string uid;         // empty: the plan has no garden
  std::string event;       // that tells of it, its own or another's; empty likewise
  std::string doing;       // "Sow"
  std::string crop_words;  // "late cornflower 2": by the planting's id where it has one
  std::string title;       // "Sow late cornflower (2)": what a narrow column shows
  std::string text;        // what to do and why, one paragraph of sentences
  // By crop, a line each, where someone handles or buys the plant: all there is to say, and what
  // the job says of it. That is all where it is handled first and cut first, elsewhere where that
  // stands.
  std::map<std::string, std::vector<std::string>> cautions_of;
  std::map<std::string, std::vector<std::string>> cautions;
  std::vector<work::Purchase> items;  // of a joint order
  double minutes = 0;  // work::minutes(), with those of the jobs that it tells of; of these none
};

// "late cornflower" of the title of such a job, also as versions before this one wrote them, "Sow:
// late cornflower"; the whole title where it is none.
std::string_view name_in_title(work::JobKind kind, std::string_view title);

// What the job says of harm, of a joint order with the crop's name before each line.
std::vector<std::string> caution_lines(const JobRow& row);

// What to look for when a job is due, a clause; empty: nothing is told but its days.
std::string sign_of(const Sheet& sheet, work::JobKind kind);

// A row for each job, in their order; a major one's text tells of the minor ones with it; `uids`
// likewise, or none.
std::vector<JobRow> job_rows(const Plan& plan, const ground::Schedule& schedule,
                             const std::vector<work::Job>& jobs,
                             const std::vector<std::string>& uids);

}  // namespace trug::show
