// SPDX-License-Identifier: MIT
#include "ask/recorded.h"

#include <algorithm>
#include <cstdlib>
#include <optional>
#include <utility>

namespace trug::ask {
namespace {

constexpr int kPinDays = 7;  // a record this near its pin is not worth a word

Finding at_record(const Plan& plan, std::size_t planting, const Happened& happened, Found found) {
  Finding finding = about_planting(plan, planting, std::move(found));
  finding.at = happened.at;
  finding.key = "happened";
  finding.sowing = happened.succession;
  return finding;
}

// When the start after the one that failed is begun.
std::optional<Date> begun_again(const ground::Schedule& schedule, std::size_t planting,
                                const Happened& failure) {
  for (const ground::Sowing& sowing : schedule.of(planting)) {
    if (sowing.number == failure.succession && sowing.begun.repeat == failure.repeat + 1) {
      return sowing.start;
    }
  }
  return std::nullopt;
}

std::optional<Date> pinned(const Pins& pins, Happening what) {
  if (what == Happening::Sown) return pins.start_on;
  if (what == Happening::Planted || what == Happening::PlantedOut) return pins.plant_on;
  return what == Happening::Lifted ? pins.lift_on : std::nullopt;
}

// The job that was not done, where it is one that the choice does not put off and that is gone from
// the list.
std::optional<NotDone> gone(const std::vector<work::Job>& jobs, std::size_t planting,
                            const Happened& not_done) {
  const auto kind = not_done.job ? work::parse_job_kind(*not_done.job) : std::nullopt;
  if (!kind || work::trait(*kind).chosen) return std::nullopt;
  const bool there = std::ranges::any_of(jobs, [&](const work::Job& job) {
    return job.planting == planting && job.key.kind == *kind &&
           job.key.succession == not_done.succession && job.key.repeat == not_done.repeat;
  });
  if (there) return std::nullopt;
  return NotDone{*kind, not_done.on};
}

// What one record of a planting leaves to be said.
std::vector<Found> seen_in(const Plan& plan, std::size_t i, const Happened& happened,
                           const ground::Schedule& schedule, const std::vector<work::Job>& jobs) {
  std::vector<Found> list;
  if (happened.what == Happening::Failed && !schedule.of(i).empty()) {
    list.emplace_back(StartFailed{happened.on, begun_again(schedule, i, happened)});
  }
  const auto pin =
      happened.repeat == 0 ? pinned(plan.plantings[i].asked.pins, happened.what) : std::nullopt;
  if (pin && std::abs(days_between(*pin, happened.on)) > kPinDays) {
    list.emplace_back(RecordedOtherwise{happened.what, happened.on, *pin});
  }
  if (happened.what == Happening::NotDone) {
    if (const auto found = gone(jobs, i, happened)) list.emplace_back(*found);
  }
  return list;
}

}  // namespace

std::vector<Finding> seen_in_records(const Garden& garden, const ground::Schedule& schedule,
                                     const std::vector<work::Job>& jobs) {
  const Plan& plan = garden.plan;
  std::vector<Finding> list;
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    for (const Happened& happened : plan.plantings[i].happened) {
      for (Found& found : seen_in(plan, i, happened, schedule, jobs)) {
        list.push_back(at_record(plan, i, happened, std::move(found)));
      }
    }
  }
  return list;
}

}  // namespace trug::ask
