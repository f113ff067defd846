// SPDX-License-Identifier: MIT
#include "app/events.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <map>
#include <utility>

#include "app/change_reasons.h"
#include "app/day_events.h"
#include "app/planting_changes.h"
#include "app/remembered.h"
#include "calendar/memory.h"
#include "show/pages.h"

namespace trug::app {
namespace {

using calendar::Event;
using calendar::Regenerated;

std::string note_of(const show::JobRow& job, const climate::Climate& climate) {
  return job.key.kind == work::JobKind::FirstCut ? show::trust_note(climate) : std::string();
}

std::string description(const show::JobRow& job, const climate::Climate& climate) {
  std::string text = job.text;
  for (const std::string& line : show::caution_lines(job)) text += "\n\n" + line;
  if (!job.cautions.empty()) text += " Local rules and qualified advice stand above this note.";
  if (const std::string note = note_of(job, climate); !note.empty()) text += "\n\n" + note;
  return job.way.empty() ? text : text + fmt::format("\n\nHow: {}.", job.way);
}

std::optional<calendar::Order> order_of(const Plan& plan, const work::Job& job) {
  if (job.parts.empty()) return std::nullopt;
  calendar::Order order{job.key.succession, job.key.repeat, {}};
  for (const work::OrderPart& part : job.parts) {
    const auto& variety = plan.plantings[part.planting].asked.variety;
    order.plants[calendar::order_part_id(*plan.garden, part.key, variety)] += part.plants;
  }
  return order;
}

Event event_of(const Reckoning& r, const show::JobRow& job, const Uuid& space) {
  Event event;
  event.uid = calendar::job_uid(space, job.key);
  event.start = job.day;
  event.end = job.day + Days{1};
  event.summary = job.title;
  event.description = description(job, r.climate);
  if (job.parts.empty()) {
    event.location = fmt::format("{}, {} to {} cm", job.bed, job.at_cm, job.at_cm + job.length_cm);
  }
  event.category = work::word_for(job.key.kind, r.schedule.at(job.sowing).sheet->life_cycle);
  event.flowering_year = job.key.flowering_year;
  event.recorded = job.state == work::Job::State::Recorded || job.due_again;
  event.order = order_of(r.plan, job);
  if (job.reminder) {
    event.reminder = std::chrono::minutes{r.plan.work.remind_days_before * 24 * 60 -
                                          r.plan.work.remind_at_minutes};
  }
  return event;
}

std::string kind_word(calendar::ChangeKind kind) {
  switch (kind) {
    case calendar::ChangeKind::New:
      return "new";
    case calendar::ChangeKind::Moved:
      return "moved";
    case calendar::ChangeKind::Reworded:
      return "reworded";
    case calendar::ChangeKind::Revived:
      return "revived";
    case calendar::ChangeKind::Cancelled:
      return "cancelled";
    case calendar::ChangeKind::Removed:
      return "removed";
    case calendar::ChangeKind::Expired:
      return "expired";
  }
  return "";
}

std::vector<show::CalendarChange> shown(const std::vector<calendar::Change>& list,
                                        const Reckoning& r, const Uuid& space) {
  std::vector<show::CalendarChange> result;
  if (list.empty()) return result;
  const PlantingsOfEvents plantings(r, space);
  for (const calendar::Change& change : list) {
    result.push_back({kind_word(change.kind),
                      change.uid,
                      calendar::category_text(change.category),
                      change.summary,
                      change.from,
                      change.to,
                      plantings.planting(change),
                      {}});
  }
  return result;
}

// Where a planting is grown otherwise, another text is more than other words.
void tell_altered(show::CalendarFile& file) {
  for (show::CalendarChange& change : file.changes) {
    const bool altered = std::ranges::find(file.altered, change.planting,
                                           &show::PlantingChange::planting) != file.altered.end();
    if (altered && change.kind == "reworded") change.kind = "changed";
  }
}

// "Lane vases, north, only plant-out and sow"
std::string title_of(const Plan& plan, const Part& part) {
  std::string title = plan.title;
  if (!part.name.empty()) title += ", " + part.name;
  if (!part.only.empty()) title += ", only " + part.only;
  return title;
}

}  // namespace

Uuid space_of(const Plan& plan, const Part& part) {
  // No name of a plan can hold a control character.
  const std::string confined = part.only.empty() ? "" : "\x1f" + part.only;
  return calendar::namespace_of(*plan.garden, part.name + confined);
}

std::vector<const show::JobRow*> jobs_with_events(const std::vector<show::JobRow>& rows) {
  std::vector<const show::JobRow*> jobs;
  for (const show::JobRow& row : rows) {
    if (!row.told_with) jobs.push_back(&row);
  }
  return jobs;
}

Regenerated next_version(const Options& options, const Environment& environment, const Reckoning& r,
                         const CalendarContent& content, std::optional<std::string_view> previous) {
  const Uuid space = space_of(r.plan, content.part);
  const bool per_day =
      content.per_day.value_or(previous && calendar::has_an_event_a_day(*previous));
  std::vector<JobEvent> jobs;
  for (const show::JobRow* job : content.jobs) {
    jobs.push_back({job, event_of(r, *job, space), note_of(*job, r.climate)});
  }
  std::vector<Event> events;
  if (per_day) {
    events = day_events(space, jobs);
  } else {
    for (JobEvent& job : jobs) events.push_back(std::move(job.event));
  }
  const calendar::Run run{.profile = content.profile,
                          .now = environment.now,
                          .today = today(options, environment),
                          .lost = content.lost,
                          .flowering_years = {r.plan.flowering_year}};
  const bool whole = content.part.name.empty() && content.part.only.empty();
  const calendar::CalendarHead head{.space = space,
                                    .name = title_of(r.plan, content.part),
                                    .product = product(),
                                    .facts = r.facts,
                                    .plantings = whole ? planting_lines(r.plan, r.schedule)
                                                       : std::vector<calendar::PlantingLine>(),
                                    .per_day = per_day};
  if (const auto& read = r.remembered.read; read && previous == read->bytes) {
    return calendar::regenerate(events, head, &*read, run);
  }
  return calendar::regenerate(events, head, previous, run);
}

show::CalendarFile changes_of(const std::string& path, bool had_previous, const Reckoning& r,
                              const CalendarContent& content, const Regenerated& version) {
  const Uuid space = space_of(r.plan, content.part);
  show::CalendarFile file{.path = path,
                          .had_previous = had_previous,
                          .events = static_cast<int>(version.events),
                          .changes = shown(version.changes, r, space),
                          .altered = altered_plantings(r),
                          .renamed = renamed_beds(r, space, version.changes),
                          .overtaken = shown(version.overtaken, r, space)};
  tell_altered(file);
  if (!had_previous) file.what_changed.emplace();
  if (!version.facts_before) return file;
  const ChangeReasons reasons(*version.facts_before, version.product_before, r.facts, r);
  file.what_changed = reasons.of_plan();
  if (file.changes.empty() && file.overtaken.empty()) return file;
  std::map<std::string, const work::Job*> jobs;
  for (const show::JobRow* job : content.jobs) jobs[calendar::job_uid(space, job->key)] = job;
  const auto add_reasons = [&](show::CalendarChange& change) {
    const auto job = jobs.find(change.uid);
    if ((change.kind != "moved" && change.kind != "changed") || job == jobs.end()) return;
    change.reasons = job->second->parts.empty()
                         ? reasons.of_job(*job->second, days_between(change.from, change.to))
                         : reasons.of_plan();
  };
  std::ranges::for_each(file.changes, add_reasons);
  std::ranges::for_each(file.overtaken, add_reasons);
  return file;
}

std::string refused_memory(const Reckoning& r, const std::string& output) {
  const std::string memory = calendar_path(r.plan);
  if (r.remembered.trouble.empty() || memory.empty() || memory == output) return "";
  return fmt::format(
      "error: {} is no calendar of this plan: {}\n"
      "  hint: name another in the plan, calendar = \"...\", or move this file away\n",
      memory, r.remembered.trouble);
}

std::string ask_for_identity(const Plan& plan, Date today, const Environment& environment) {
  std::string lines;
  if (!plan.garden) {
    lines += fmt::format("    garden = \"{}\"\n", to_string(uuid_v4(environment.random())));
  }
  if (!plan.began) lines += fmt::format("    began = {}\n", iso(today));
  return fmt::format(
      "{}:1:1: error: a calendar needs {}\n  hint: paste at the top of the plan:\n{}", plan.file,
      !plan.garden ? "a garden of its own, so that its events keep their identity"
                   : "the day the plan began, so that nothing of before is taken as done",
      lines);
}

}  // namespace trug::app
