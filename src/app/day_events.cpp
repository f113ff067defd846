// SPDX-License-Identifier: MIT
#include "app/day_events.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>
#include <utility>

#include "base/text.h"
#include "show/job_phrases.h"

namespace trug::app {
namespace {

using calendar::Event;

constexpr int kTitleRoom = 38;  // columns that a telephone shows of a title, about (memory)

// "Garden: sow cosmos, plant out zinnia, 3 more": as many as there is room for, one at least.
std::string title_of(const std::vector<const JobEvent*>& jobs) {
  std::vector<std::string> phrases;
  for (const JobEvent* job : jobs) {
    const std::string one = uncapitalised(job->job->title);
    if (std::ranges::find(phrases, one) == phrases.end()) phrases.push_back(one);
  }
  std::string title = "Garden: " + phrases.front();
  std::size_t said = 1;
  while (said < phrases.size() &&
         display_width(title) + 2 + display_width(phrases[said]) <= kTitleRoom) {
    title += ", " + phrases[said++];
  }
  return said == phrases.size() ? title : fmt::format("{}, {} more", title, phrases.size() - said);
}

// A job with its place and what to do.
std::string text_of(const JobEvent& one) {
  const show::JobRow& job = *one.job;
  const std::string place = job.parts.empty() ? ", " + job.bed : "";
  return job.title + place + ". " + job.text + (one.note.empty() ? "" : "\n" + one.note);
}

// Of all their plants, each once, and whole where one of the jobs says all of it.
std::string cautions_of(const std::vector<const JobEvent*>& jobs) {
  std::map<std::string, std::vector<std::string>> all;
  for (const JobEvent* one : jobs) {
    for (const auto& [crop, lines] : one->job->cautions) {
      std::vector<std::string>& told = all[crop];
      if (told.empty() || lines == one->job->cautions_of.at(crop)) told = lines;
    }
  }
  std::string text;
  for (const auto& [crop, lines] : all) {
    for (const std::string& line : lines) text += fmt::format("\n\n{}: {}", crop, line);
  }
  return text.empty() ? "" : text + " Local rules and qualified advice stand above this note.";
}

std::string text_of(const std::vector<const JobEvent*>& jobs) {
  std::string text;
  double minutes = 0;
  for (const JobEvent* one : jobs) {
    text += (text.empty() ? "" : "\n\n") + text_of(*one);
    minutes += one->job->minutes;
  }
  return fmt::format("{}\n\nAll of it takes about {}.{}", text, show::time_words(minutes),
                     cautions_of(jobs));
}

Event event_of(const Uuid& space, const std::vector<const JobEvent*>& jobs) {
  const Event& first = jobs.front()->event;
  Event event;
  event.uid = calendar::day_uid(space, first.start, first.flowering_year);
  event.start = first.start;
  event.end = first.end;
  event.summary = title_of(jobs);
  event.description = text_of(jobs);
  event.category = kDayCategory;
  event.flowering_year = first.flowering_year;
  for (const JobEvent* job : jobs) {
    event.recorded |= job->event.recorded;
    if (!event.reminder) event.reminder = job->event.reminder;
    event.jobs.push_back({job->event.uid, job->event.category, job->event.order});
  }
  return event;
}

}  // namespace

std::vector<Event> day_events(const Uuid& space, const std::vector<JobEvent>& jobs) {
  std::map<std::pair<Date, int>, std::vector<const JobEvent*>> days;
  for (const JobEvent& job : jobs) {
    days[{job.event.start, job.event.flowering_year}].push_back(&job);
  }
  std::vector<Event> events;
  for (auto& [day, its_jobs] : days) {
    std::ranges::stable_sort(its_jobs, {}, [](const JobEvent* one) {
      return work::trait(one->job->key.kind).place_in_day;
    });
    events.push_back(event_of(space, its_jobs));
  }
  return events;
}

}  // namespace trug::app
