// SPDX-License-Identifier: MIT
// The year's jobs: what to do, when, with how many plants, and what depends on it. What a job says
// to people is made of this in show/job_words.h.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "garden/sheet.h"
#include "work/job_kinds.h"

namespace trug::work {

// Who a job is, whatever its date, wording or position: the ground of its UID.
struct JobKey {
  int flowering_year = 0;
  std::string bed;  // the bed's id, else its name
  std::string crop;
  std::string
      planting;  // the planting's id; "1" where it has none: the first of its crop in the bed
  JobKind kind{};
  int succession = 0;  // 0: no succession; else from 1
  int repeat = 0;      // 0: the first of its kind in the planting
};

// What of a joint order is for one sowing.
struct OrderPart {
  JobKey key;  // of its own order, were there one
  std::size_t planting = 0;
  std::size_t sowing = 0;
  int plants = 0;
  Date last;  // that leaves time to send it
};

// What is done to ground that is cleared. Lean: not fed, the next crop wants it so. Cover, Rest: in
// autumn, when rain washes out what it is fed; Rest where the next crop goes in before the winter.
enum class Clearing { Feed, Lean, Cover, Rest };

struct Job {
  JobKey key;
  std::size_t planting = 0;   // in the plan's list
  std::size_t sowing = 0;     // in the schedule: Schedule::at()
  std::string planting_name;  // "west bed/zinnia"
  std::string bed;
  int stretch = 0;  // from 1
  int at_cm = 0;    // from the bed's start
  int length_cm = 0;
  std::string crop;
  std::optional<std::string> variety;
  std::string way;
  std::optional<Raised> where;  // in place: in the bed; absent: nowhere, it is bought or treated
  Date day;                     // the chosen day
  Date first;                   // the window in which it is still right, both ends inclusive
  Date last;
  enum class State { Due, Recorded, Assumed } state = State::Due;
  std::optional<int> plants;
  std::optional<int> rows;
  std::optional<double> spacing_cm;
  std::optional<int> depth_mm;
  std::optional<std::string> person;
  bool frost_may_come = false;     // while it lasts
  std::optional<double> soil_c;    // sowing outdoors: what the soil may not hold yet
  std::optional<Date> sow_by;      // the last day on which what has not come up can be sown again
  bool winter_takes_some = false;  // more than the plants that are wanted must be started
  Clearing clearing = Clearing::Feed;
  std::optional<double> alive_if_left;  // of what is lifted and stored: the share, under mulch
  bool reminder = false;                // of the jobs that cannot wait
  bool due_again = false;               // what happened has overtaken the day that was told
  std::optional<std::string> note;      // recorded when it was done
  std::vector<std::size_t> after;       // jobs (by index in the list) that must come first
  // The job whose event tells of this one too, on its day; absent: it has an event of its own.
  std::optional<std::size_t> told_with;
  // A joint order (orders.h): what it is for. Of its place, crop and way such a job says nothing,
  // and `planting` and `sowing` are those of the first.
  std::vector<OrderPart> parts;
};

}  // namespace trug::work
