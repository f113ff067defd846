// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "app/calendar_parts.h"
#include "app/commands.h"
#include "app/events.h"
#include "app/inputs.h"
#include "app/many_gardens.h"
#include "app/output_file.h"
#include "app/reckoning.h"
#include "app/remembered.h"
#include "show/pages.h"

namespace trug::app {
namespace {

using calendar::Regenerated;

class Writer {
 public:
  Writer(const Options& options, const Environment& environment, const Reckoning& reckoning)
      : options_(options), environment_(environment), r_(reckoning) {}

  int run() {
    std::vector<PartFile> files = part_files(options_, r_.rows);
    if (options_.output == kStandardStream) return write_to_standard_output(files.front());
    if (const std::string trouble = trouble_of(files); !trouble.empty()) {
      environment_.err << trouble;
      return kBadInput;
    }
    for (PartFile& file : files_left_behind(options_, r_.plan, environment_.files, files)) {
      files.push_back(std::move(file));
    }
    add_memory(files);
    if (files.empty()) environment_.err << "note: there are no jobs, so no file to split into\n";
    for (const PartFile& file : files) {
      if (const int code = write(file); code != kDone) return code;
    }
    if (options_.is_json()) environment_.out << show::changes_json(head(), r_.shown(), files_);
    return kDone;
  }

 private:
  show::DocumentHead head() const {
    return document_head(options_, environment_, "trug.calendar/1");
  }

  // Parts hold no memory: the plan's calendar goes with them.
  void add_memory(std::vector<PartFile>& files) const {
    const std::string path = calendar_path(r_.plan);
    if (options_.split.empty() || !options_.only.empty() || path.empty()) return;
    PartFile whole{{}, path, {}};
    whole.jobs = jobs_with_events(r_.rows);
    files.push_back(std::move(whole));
  }

  Regenerated regenerated(CalendarContent content, std::optional<std::string_view> previous) const {
    Regenerated result = next_version(options_, environment_, r_, content, previous);
    if (!result.refused.empty() && options_.force) {
      content.lost = true;
      result = next_version(options_, environment_, r_, content, std::nullopt);
    }
    return result;
  }

  // A first calendar each time: what is written there is not found again.
  int write_to_standard_output(const PartFile& whole) {
    const CalendarContent content{whole.part, whole.jobs, profile(), options_.lost,
                                  options_.per_day};
    const Regenerated result = next_version(options_, environment_, r_, content, std::nullopt);
    if (!options_.dry_run) environment_.out << result.bytes;
    show::CalendarFile shown = changes_of("the standard output", false, r_, content, result);
    shown.dry_run = options_.dry_run;
    environment_.err << show::changes_page(shown, options_.verbose);
    return kDone;
  }

  calendar::Profile profile() const {
    return options_.feed ? calendar::Profile::Feed : calendar::Profile::Import;
  }

  int write(const PartFile& part) {
    const std::string& path = part.path;
    require_writable(environment_, path);
    std::optional<OutputFile> file;
    if (!options_.dry_run) file.emplace(path);
    const auto previous = file ? file->previous() : OutputFile::look(path);
    const CalendarContent content{part.part, part.jobs, profile(), options_.lost, options_.per_day};
    const Regenerated result = regenerated(content, previous);
    if (!result.refused.empty()) {
      tell_refused(path, result);
      return kRefused;
    }
    if (file && !result.unchanged) file->replace(result.bytes);
    tell_of_ended(part, result);
    if (options_.lost && previous && result.product_before != "") {
      environment_.err << fmt::format("note: {} was there: its events are numbered anew\n", path);
    }
    if (result.bytes.size() > calendar::kLargeCalendarOctets) {
      environment_.err << fmt::format(
          "warning: {} has {} kB; some calendars take no more than 1000: --split makes smaller "
          "ones\n",
          path, result.bytes.size() / 1000);
    }
    show::CalendarFile shown = changes_of(path, previous.has_value(), r_, content, result);
    shown.dry_run = options_.dry_run;
    if (!options_.is_json()) environment_.out << show::changes_page(shown, options_.verbose);
    files_.push_back(std::move(shown));
    return kDone;
  }

  void tell_refused(const std::string& path, const Regenerated& result) const {
    std::string_view since = "since trug did not write it for this garden: ",
                     hint = "name another file, or replace it with --force";
    if (result.previous == calendar::PreviousFile::Remains) {
      since = "since it is damaged: ";
      hint = "name another file; --lost replaces what is left of this one";
    } else if (result.previous == calendar::PreviousFile::OtherCalendar) {
      since = "since ";
      hint = "name another file; --force throws that calendar away";
    } else if (result.previous == calendar::PreviousFile::OtherShape) {
      since = "since ";
      hint = *options_.per_day ? "--per job goes on with it; a calendar of days is another file"
                               : "--per day goes on with it; a calendar of jobs is another file";
    }
    environment_.err << fmt::format("error: {} stays as it is, {}{}\n  hint: {}\n", path, since,
                                    result.refused, hint);
  }

  void tell_of_ended(const PartFile& part, const Regenerated& result) const {
    if (options_.split.empty() || !part.jobs.empty() || result.unchanged) return;
    environment_.err << fmt::format(
        "note: the plan has no jobs for '{}' any more: {} says so to the calendars that have it; "
        "delete it once they have taken that up\n",
        part.part.name, part.path);
  }

  const Options& options_;
  const Environment& environment_;
  const Reckoning& r_;
  std::vector<show::CalendarFile> files_;
};

// Where the calendar is to be written, -o or the plan's; empty, and said: nowhere.
std::string output_of(const Options& given, const Plan& plan, const Environment& environment) {
  if (!given.output.empty()) return given.output;
  std::string path = calendar_path(plan);
  if (path.empty()) {
    environment.err << "error: the calendar needs a file\n"
                       "  hint: -o garden.ics, or calendar = \"garden.ics\" in the plan\n";
  } else if (!given.only.empty()) {
    environment.err << "error: the plan's calendar holds all jobs, and --only asks for some\n"
                       "  hint: name another file with -o\n";
    path.clear();
  }
  return path;
}

int run_one_calendar(const Options& given, const Environment& environment) {
  const bool whole = given.split.empty() && given.only.empty() && given.output != kStandardStream;
  auto r = reckon(given, environment, "trug.calendar/1", whole ? given.output : "");
  if (!r) return kBadInput;
  Options options = given;
  options.output = output_of(given, r->plan, environment);
  if (options.output.empty()) return kBadInput;
  const bool first = !r->plan.began && !OutputFile(options.output).previous();
  if (!r->plan.garden || first) {
    environment.err << ask_for_identity(r->plan, today(options, environment), environment);
    return kBadInput;
  }
  if (const auto trouble = refused_memory(*r, options.output); !trouble.empty()) {
    environment.err << trouble;
    return kRefused;
  }
  if (options.is_json() || options.strict) advise(options, environment, *r);
  if (const int code = Writer(options, environment, *r).run(); code != kDone) return code;
  environment.out.flush();
  environment.err << show::findings_line(r->findings, r->plan.file);
  return exit_code(options, *r);
}

}  // namespace

int run_calendar(const Options& options, const Environment& environment) {
  if (options.out_folder.empty()) return run_one_calendar(options, environment);
  return each_garden(options, environment, run_one_calendar);
}

}  // namespace trug::app
