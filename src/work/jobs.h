// SPDX-License-Identifier: MIT
// The year's jobs: what to do, when, with how many plants, and what depends on it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"
#include "garden/plan.h"

namespace trug::work {

enum class JobKind {
  OrderSeed,
  OrderBulbs,
  OrderPlants,
  PreTreat,
  Sow,
  PrickOut,
  PotOn,
  HardenOff,
  PlantOut,
  Plant,
  Thin,
  Pinch,
  Support,
  Protect,
  WatchForFrost,
  FirstCut,
  CutBack,
  Lift,
  LiftAndStore,
  ClearAndFeed,
  Divide,
  Prune,
  // With care = true in [work]:
  LookForSeedlings,
  WaterIn,
  Slugs,
  Pick,
  DeadHead
};

// "sow", "prick-out", "first-cut": the stable word in files and options.
std::string_view to_string(JobKind kind);
std::optional<JobKind> parse_job_kind(std::string_view text);
// "prick out", "first cut": the word for people.
std::string words(JobKind kind);
// Every kind, in the order above.
const std::vector<JobKind>& all_job_kinds();
// Its place among the jobs of one day: first what frees the ground, then what goes into it, then
// what tends it.
int order_in_ground(JobKind kind);
// Jobs that spoil the year when their day is missed: they carry the one reminder by default.
bool cannot_wait(JobKind kind, bool another_crop_follows);

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

struct Job {
  JobKey key;
  std::size_t planting = 0;   // in the plan's list
  std::string planting_name;  // "west bed/zinnia"
  std::string bed;
  int stretch = 0;  // from 1
  int at_cm = 0;    // from the bed's start
  int length_cm = 0;
  std::string crop;
  std::optional<std::string> variety;
  std::string way;
  std::optional<std::string> where;  // heated, frame, nursery, bed
  Date day;                          // the chosen day
  Date first;                        // the window in which it is still right, both ends inclusive
  Date last;
  enum class State { Due, Recorded, Assumed } state = State::Due;
  std::optional<int> plants;
  std::optional<int> rows;
  std::optional<double> spacing_cm;
  std::optional<int> depth_mm;
  std::optional<std::string> person;
  std::string title;                  // "Sow: late cornflower 2"
  std::string text;                   // what to do and why, sentences
  std::vector<std::string> cautions;  // one sentence each
  bool reminder = false;              // of the jobs that cannot wait
  std::vector<std::size_t> after;     // jobs (by index in the list) that must come first
};

}  // namespace trug::work
