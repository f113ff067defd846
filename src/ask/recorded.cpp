// SPDX-License-Identifier: MIT
#include "ask/recorded.h"

#include <algorithm>
#include <cstdlib>
#include <optional>
#include <utility>

#include "work/make_jobs.h"

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

// The jobs of the start that a record is of.
std::vector<work::JobKind> kinds_of(const std::vector<work::Job>& jobs, std::size_t planting,
                                    const Happened& record) {
  std::vector<work::JobKind> kinds;
  for (const work::Job& job : jobs) {
    const bool is_of_it = job.planting == planting && job.key.succession == record.succession &&
                          job.key.repeat == record.repeat;
    if (is_of_it) kinds.push_back(job.key.kind);
  }
  return kinds;
}

// The job that was not done, where it is gone from the list: as it is too late now, or since such a
// start never has it.
std::optional<NotDone> gone(const Garden& garden, const ground::Schedule& schedule,
                            const std::vector<work::Job>& jobs, std::size_t planting,
                            const Happened& not_done) {
  const auto kind = not_done.job ? work::parse_job_kind(*not_done.job) : std::nullopt;
  const auto has = [&](const std::vector<work::JobKind>& kinds) {
    return std::ranges::find(kinds, *kind) != kinds.end();
  };
  if (!kind || schedule.of(planting).empty()) return std::nullopt;
  auto there = kinds_of(jobs, planting, not_done);
  if (has(there)) return std::nullopt;
  Plan without = garden.plan;
  std::erase(without.plantings[planting].happened, not_done);
  const auto had =
      kinds_of(work::make_jobs(without, schedule, garden.climate,
                               {garden.today, garden.plan.began.value_or(garden.today)}),
               planting, not_done);
  if (has(had)) there.clear();
  if (there.empty() && !has(had)) return std::nullopt;
  return NotDone{*kind, not_done.on, std::move(there)};
}

// What one record of a planting leaves to be said.
std::vector<Found> seen_in(const Garden& garden, std::size_t i, const Happened& happened,
                           const ground::Schedule& schedule, const std::vector<work::Job>& jobs) {
  const Plan& plan = garden.plan;
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
    if (auto found = gone(garden, schedule, jobs, i, happened))
      list.emplace_back(std::move(*found));
  }
  return list;
}

std::optional<Finding> own_clock_seen(const Plan& plan, const ground::OwnClock& own) {
  if (own.days_late == 0 && own.counts == 0) return std::nullopt;
  OwnClockSeen found{own, plan.place.days_late + own.days_late,
                     plan.place.stems_times * own.stems_times};
  return Finding{plan.place.at, "place", {}, found, {}};
}

}  // namespace

std::vector<Finding> seen_in_records(const Garden& garden, const ground::Schedule& schedule,
                                     const std::vector<work::Job>& jobs) {
  const Plan& plan = garden.plan;
  std::vector<Finding> list;
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    for (const Happened& happened : plan.plantings[i].happened) {
      for (Found& found : seen_in(garden, i, happened, schedule, jobs)) {
        list.push_back(at_record(plan, i, happened, std::move(found)));
      }
    }
  }
  if (auto own = own_clock_seen(plan, schedule.own)) list.push_back(std::move(*own));
  return list;
}

}  // namespace trug::ask
