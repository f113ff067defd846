// SPDX-License-Identifier: MIT
#include "ask/day_one.h"

#include <algorithm>
#include <functional>
#include <optional>
#include <utility>

#include "work/orders.h"

namespace trug::ask {
namespace {

constexpr std::size_t kNamedJobs = 3;

Position top_of(const Plan& plan) { return {plan.file, 1, 1}; }

// Orders counted as they are written: jointly.
std::optional<TakenAsDone> taken_as_done(const Garden& garden, const ground::Schedule& schedule,
                                         const std::vector<work::Job>& jobs) {
  TakenAsDone found;
  for (const work::Job& job : work::with_joint_orders(garden.plan, schedule, jobs, garden.today)) {
    if (job.state != work::Job::State::Assumed) continue;
    ++found.jobs;
    // What the rest of the year hangs on.
    if (work::trait(job.key.kind).chosen)
      found.starts.push_back({job.key.kind, job.planting, job.day});
  }
  if (found.jobs == 0) return std::nullopt;
  std::ranges::stable_sort(found.starts, std::greater{}, &TakenAsDone::Start::day);
  if (found.starts.size() > kNamedJobs) found.starts.resize(kNamedJobs);
  return found;
}

bool raises_something(const ground::Schedule& schedule) {
  return std::ranges::any_of(schedule.weighed, [](const ground::Weighed& weighed) {
    return std::ranges::any_of(weighed.sheet->ways, [](const Way& way) {
      return way.raised == Raised::Heated || way.raised == Raised::Frame;
    });
  });
}

}  // namespace

std::vector<Finding> taken_for_granted(const Garden& garden, const ground::Schedule& schedule,
                                       const std::vector<work::Job>& jobs) {
  const Plan& plan = garden.plan;
  std::vector<Finding> list;
  if (!plan.began && !plan.remembers && !plan.plantings.empty()) {
    list.push_back({top_of(plan), "began", {}, BeginsAnew{garden.today}, {}});
  }
  if (auto done = taken_as_done(garden, schedule, jobs)) {
    list.push_back({top_of(plan), "happened", {}, std::move(*done), {}});
  }
  if (!plan.shelter.given && raises_something(schedule)) {
    list.push_back({top_of(plan), "shelter", {}, ShelterAssumed{plan.place.heated_c}, {}});
  }
  return list;
}

}  // namespace trug::ask
