// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <set>

#include "app/commands.h"
#include "app/output_file.h"
#include "app/reckoning.h"
#include "app/version.h"
#include "base/text.h"
#include "calendar/regenerate.h"
#include "show/change_words.h"
#include "show/pages.h"

namespace trug::app {
namespace {

using calendar::Event;
using calendar::Regenerated;

std::string capitalised(std::string text) {
  if (!text.empty()) {
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  }
  return text;
}

std::string description(const work::Job& job, const climate::Climate& climate) {
  std::string text = job.text;
  for (const std::string& caution : job.cautions) text += "\n\n" + caution;
  if (!job.cautions.empty()) text += " Local rules and qualified advice stand above this note.";
  if (const std::string note = show::trust_note(climate);
      !note.empty() && job.key.kind == work::JobKind::FirstCut) {
    text += "\n\n" + note;
  }
  return text + fmt::format("\n\nWay: {}.", job.way);
}

Event event_of(const Reckoning& r, const work::Job& job, const Uuid& space) {
  Event event;
  event.uid = calendar::job_uid(space, job.key);
  event.start = job.day;
  event.end = job.day + Days{1};
  event.summary = fmt::format("{}: {}{}", capitalised(work::words(job.key.kind)), job.crop,
                              job.key.succession > 0 ? fmt::format(" {}", job.key.succession) : "");
  event.description = description(job, *r.climate);
  event.location =
      fmt::format("{}, {} to {} cm", job.bed, job.at_cm, job.at_cm + job.length_cm);
  event.category = std::string(to_string(job.key.kind));
  event.flowering_year = job.key.flowering_year;
  event.recorded = job.state == work::Job::State::Recorded;
  if (job.reminder) {
    event.reminder = std::chrono::minutes{r.plan.work.remind_days_before * 24 * 60 -
                                          r.plan.work.remind_at_minutes};
  }
  return event;
}

// What a job's file is named after; empty: the one file.
std::string part_of(const Options& options, const work::Job& job) {
  if (options.split == "bed") return job.bed;
  if (options.split == "person") return job.person.value_or("everyone");
  if (options.split == "kind") return std::string(to_string(job.key.kind));
  return "";
}

// "garden.ics" and "west bed": "garden-west-bed.ics".
std::string part_path(const std::string& output, const std::string& part) {
  if (part.empty()) return output;
  std::string word = folded(part);
  for (char& c : word) {
    const bool letter = std::isalnum(static_cast<unsigned char>(c)) != 0 || (c & 0x80) != 0;
    if (!letter) c = '-';
  }
  const std::size_t dot = output.rfind(".ics");
  return dot == std::string::npos ? output + "-" + word
                                  : output.substr(0, dot) + "-" + word + output.substr(dot);
}

std::string ask_for_garden(const Plan& plan, const Environment& environment) {
  return fmt::format(
      "{}:1:1: error: a calendar needs a garden of its own, so that its events keep their identity\n"
      "  hint: paste this line at the top of the plan: garden = \"{}\"\n",
      plan.file, to_string(uuid_v4(environment.random())));
}

class Writer {
 public:
  Writer(const Options& options, const Environment& environment, const Reckoning& reckoning)
      : options_(options), environment_(environment), r_(reckoning) {}

  int run() {
    std::map<std::string, std::vector<const work::Job*>> parts;
    if (options_.split.empty()) parts[""];
    for (const work::Job& job : r_.jobs) {
      const auto& only = options_.only;
      if (!only.empty() && std::ranges::find(only, job.key.kind) == only.end()) continue;
      parts[part_of(options_, job)].push_back(&job);
    }
    for (const auto& [part, jobs] : parts) {
      if (const int code = write(part, jobs); code != kDone) return code;
    }
    if (options_.json) environment_.out << show::changes_json(head(), files_);
    return kDone;
  }

 private:
  show::DocumentHead head() const {
    return document_head(options_, environment_, "trug.calendar/1");
  }

  Regenerated regenerated(const std::string& part, const std::vector<const work::Job*>& jobs,
                          std::optional<std::string_view> previous) const {
    const Uuid space = calendar::namespace_of(*r_.plan.garden, part);
    std::vector<Event> events;
    for (const work::Job* job : jobs) events.push_back(event_of(r_, *job, space));
    calendar::Run run{.profile = options_.feed ? calendar::Profile::Feed
                                               : calendar::Profile::Import,
                      .now = options_.today ? calendar::Instant{*options_.today} : environment_.now,
                      .today = today(options_, environment_),
                      .lost = options_.lost,
                      .flowering_years = {r_.plan.flowering_year}};
    const std::string title = part.empty() ? r_.plan.title : r_.plan.title + ", " + part;
    const calendar::CalendarHead head{space, title, "", std::string("trug ") + kVersion};
    Regenerated result = calendar::regenerate(events, head, previous, run);
    if (!result.refused.empty() && options_.force) {
      run.lost = true;
      result = calendar::regenerate(events, head, std::nullopt, run);
    }
    return result;
  }

  int write(const std::string& part, const std::vector<const work::Job*>& jobs) {
    const std::string path = part_path(options_.output, part);
    OutputFile file(path);
    const auto previous = file.previous();
    const Regenerated result = regenerated(part, jobs, previous);
    if (!result.refused.empty()) {
      environment_.err << fmt::format(
          "error: {} stays as it is: {}\n  hint: name another file, or replace it with --force\n",
          path, result.refused);
      return kRefused;
    }
    if (!options_.dry_run && !result.unchanged) file.replace(result.bytes);
    if (result.bytes.size() > calendar::kLargeCalendarOctets) {
      environment_.err << fmt::format(
          "warning: {} has {} kB; some calendars take no more than 1000: --split makes smaller ones\n",
          path, result.bytes.size() / 1000);
    }
    const show::CalendarFile shown{path,
                                   previous.has_value(),
                                   options_.dry_run,
                                   static_cast<int>(result.events),
                                   changes(result.changes),
                                   changes(result.overtaken)};
    if (!options_.json) environment_.out << show::changes_page(shown);
    files_.push_back(shown);
    return kDone;
  }

  static std::vector<show::CalendarChange> changes(const std::vector<calendar::Change>& list) {
    std::vector<show::CalendarChange> result;
    for (const calendar::Change& change : list) {
      result.push_back({kind_word(change.kind), change.uid, change.summary, change.from, change.to});
    }
    return result;
  }

  static std::string kind_word(calendar::ChangeKind kind) {
    switch (kind) {
      case calendar::ChangeKind::New: return "new";
      case calendar::ChangeKind::Moved: return "moved";
      case calendar::ChangeKind::Reworded: return "reworded";
      case calendar::ChangeKind::Revived: return "revived";
      case calendar::ChangeKind::Cancelled: return "cancelled";
      case calendar::ChangeKind::Removed: return "removed";
      case calendar::ChangeKind::Expired: return "expired";
    }
    return "";
  }

  const Options& options_;
  const Environment& environment_;
  const Reckoning& r_;
  std::vector<show::CalendarFile> files_;
};

}  // namespace

int run_calendar(const Options& options, const Environment& environment) {
  const auto r = reckon(options, environment, "trug.calendar/1");
  if (!r) return kBadInput;
  if (!r->plan.garden) {
    environment.err << ask_for_garden(r->plan, environment);
    return kBadInput;
  }
  if (const int code = Writer(options, environment, *r).run(); code != kDone) return code;
  environment.out.flush();
  environment.err << show::findings_line(r->findings, r->plan.file);
  return exit_code(options, *r);
}

}  // namespace trug::app
