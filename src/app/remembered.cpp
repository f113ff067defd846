// SPDX-License-Identifier: MIT
#include "app/remembered.h"

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <map>
#include <optional>
#include <utility>

#include "app/output_file.h"
#include "app/plan_facts.h"
#include "calendar/memory.h"
#include "ground/told.h"
#include "work/job_kinds.h"

namespace trug::app {
namespace {

using calendar::Memory;
using work::JobKind;

work::JobKey key_of(const Plan& plan, const Planting& planting, int succession, int repeat) {
  const Bed* bed = bed_of(plan, planting);
  return {.flowering_year = planting.flowering_year,
          .bed = bed ? bed_identity(*bed) : "",
          .crop = planting.asked.crop,
          .planting = planting.asked.id.value_or("1"),
          .succession = succession,
          .repeat = repeat};
}

int starts_of(const Planting& planting, int succession) {
  return 1 + static_cast<int>(std::ranges::count_if(planting.happened, [&](const Happened& one) {
           return one.what == Happening::Failed && one.succession == succession;
         }));
}

// What one calendar holds, by who it is.
class Holdings {
 public:
  Holdings(const Memory& memory, int flowering_year, Date today)
      : space_(memory.space), today_(today) {
    for (const calendar::StoredEvent& stored : memory.events) {
      const calendar::Event& event = stored.event;
      if (event.cancelled) continue;
      if (event.jobs.empty())
        add_job(event, {event.uid, event.category, event.order}, flowering_year);
      for (const calendar::DayJob& job : event.jobs) add_job(event, job, flowering_year);
    }
    std::ranges::sort(orders_, {}, &ToldOrder::day);
    for (auto& [start, parts] : parts_) std::ranges::sort(parts, {}, &ToldPart::day);
    for (const calendar::PlantingLine& line : memory.plantings) starts_[line.id] = line.start;
  }

  Told told(const Uuid& garden, work::JobKey key, const std::optional<std::string>& variety) const {
    Told told{.succession = key.succession, .repeat = key.repeat};
    const auto start = starts_.find(calendar::planting_id(garden, key));
    if (start != starts_.end()) told.start = start->second;
    for (const work::JobTrait& kind : work::kTraits) {
      key.kind = kind.kind;
      const auto day = days_.find(calendar::job_uid(space_, key));
      if (day != days_.end()) told.jobs[std::string(kind.word)] = day->second;
    }
    const auto parts = parts_.find(calendar::order_part_id(garden, key, variety));
    if (parts != parts_.end()) take_orders(parts->second, told);
    take_old_tubers(told);
    told.degree = degree(told);
    return told;
  }

  // The joint orders of that year, by day.
  const std::vector<ToldOrder>& orders() const { return orders_; }

 private:
  // An event's only job, or one of a day's.
  void add_job(const calendar::Event& event, const calendar::DayJob& job, int flowering_year) {
    if (!job.order) {
      days_[job.uid] = event.start;
      return;
    }
    if (event.flowering_year == flowering_year) {
      orders_.push_back({job.category, job.order->month, job.order->repeat, event.start});
    }
    for (const auto& [start, plants] : job.order->plants) {
      parts_[start].push_back({job.category, event.start, plants});
    }
  }

  // The last of its orders that lies behind, else the first to come.
  void take_orders(const std::vector<ToldPart>& parts, Told& told) const {
    told.ordered = parts;
    for (const ToldPart& part : parts) {
      if (part.day < today_ || !told.jobs.contains(part.job)) told.jobs[part.job] = part.day;
    }
  }

  // Tubers were ordered with bulbs before they had a word of their own.
  static void take_old_tubers(Told& told) {
    const auto bulbs = told.jobs.find(std::string(to_string(JobKind::OrderBulbs)));
    if (bulbs == told.jobs.end()) return;
    told.jobs.try_emplace(std::string(to_string(JobKind::OrderTubers)), bulbs->second);
  }

  Degree degree(const Told& told) const {
    const auto is_past = [&](JobKind kind) {
      const auto job = told.jobs.find(std::string(to_string(kind)));
      return job != told.jobs.end() && job->second < today_;
    };
    const auto is_told = [&](JobKind kind) {
      return told.jobs.contains(std::string(to_string(kind)));
    };
    const bool begun = is_past(JobKind::Sow) || is_past(JobKind::Plant);
    // What was left out since has no such job any more, and stands in its pots all the same.
    const bool goes_out =
        is_told(JobKind::PlantOut) || (told.start && told.start->start < told.start->in_ground);
    if (is_past(JobKind::PlantOut) || (begun && !goes_out)) return Degree::InGround;
    if (begun || (told.start && is_past(JobKind::PreTreat))) return Degree::Started;
    const bool bought = is_past(JobKind::OrderSeed) || is_past(JobKind::OrderBulbs) ||
                        is_past(JobKind::OrderTubers) || is_past(JobKind::OrderPlants);
    return bought ? Degree::Bought : Degree::Chosen;
  }

  Uuid space_;
  Date today_;
  std::map<std::string, Date> days_;
  std::map<Uuid, ToldStart> starts_;
  std::vector<ToldOrder> orders_;
  std::map<Uuid, std::vector<ToldPart>> parts_;  // by start
};

void take(const Holdings& holdings, const Plan& plan, Planting& planting) {
  const auto& sowings = planting.asked.successions;
  for (int i = 1; i <= sowings.value_or(i); ++i) {
    const int succession = sowings == 1 ? 0 : i;
    const std::size_t before = planting.told.size();
    for (int repeat = 0; repeat < starts_of(planting, succession); ++repeat) {
      Told told = holdings.told(*plan.garden, key_of(plan, planting, succession, repeat),
                                planting.asked.variety);
      if (told.start || !told.jobs.empty()) planting.told.push_back(std::move(told));
    }
    if (!sowings && planting.told.size() == before) return;
  }
}

// The file's bytes, or why there are none to read. A machine that cannot read what may be there
// ends the run (IoError): a choice made without what was told would tell it anew.
std::optional<std::string> bytes_of(const std::string& path, std::string& trouble) {
  try {
    return OutputFile::look(path);
  } catch (const IoError& error) {
    if (error.code().value() != ENOENT) throw;
    trouble = error.what();
    return std::nullopt;
  }
}

}  // namespace

std::string calendar_path(const Plan& plan) {
  if (!plan.calendar) return "";
  return (std::filesystem::path(plan.file).parent_path() / *plan.calendar).string();
}

Remembered remember(const std::string& path, const calendar::Facts& facts, Date today, Plan& plan) {
  Remembered result;
  if (path.empty() || !plan.garden) return result;
  const auto bytes = bytes_of(path, result.trouble);
  if (!bytes) return result;
  const calendar::ReadMemory& read = result.read.emplace(calendar::read_memory(*bytes));
  if (!read.refused.empty()) {
    result.trouble = read.refused;
    return result;
  }
  if (read.memory.space != calendar::namespace_of(*plan.garden, "")) {
    result.trouble = "it is the calendar of another garden, or of a part of this one";
    return result;
  }
  const Holdings holdings(read.memory, plan.flowering_year, today);
  for (Planting& planting : plan.plantings) take(holdings, plan, planting);
  plan.orders = holdings.orders();
  plan.per_day = read.memory.per_day;
  compare_facts(read.memory.facts.value_or(calendar::Facts()), facts, plan);
  plan.remembers = true;
  return result;
}

std::vector<calendar::PlantingLine> planting_lines(const Plan& plan,
                                                   const ground::Schedule& schedule) {
  std::vector<calendar::PlantingLine> lines;
  for (const ground::Sowing& sowing : schedule.sowings) {
    const Planting& planting = plan.plantings[sowing.planting];
    const auto key = key_of(plan, planting, sowing.number, sowing.begun.repeat);
    lines.push_back({calendar::planting_id(*plan.garden, key), planting.flowering_year,
                     ground::told_start(planting, sowing)});
  }
  return lines;
}

}  // namespace trug::app
