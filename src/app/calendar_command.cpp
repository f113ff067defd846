// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>

#include "app/commands.h"
#include "app/events.h"
#include "app/output_file.h"
#include "app/reckoning.h"
#include "base/text.h"
#include "show/pages.h"

namespace trug::app {
namespace {

using calendar::Regenerated;

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

  Regenerated regenerated(CalendarContent content, std::optional<std::string_view> previous) const {
    Regenerated result = next_version(options_, environment_, r_, content, previous);
    if (!result.refused.empty() && options_.force) {
      content.lost = true;
      result = next_version(options_, environment_, r_, content, std::nullopt);
    }
    return result;
  }

  int write(const std::string& part, const std::vector<const work::Job*>& jobs) {
    const std::string path = part_path(options_.output, part);
    OutputFile file(path);
    const auto previous = file.previous();
    const CalendarContent content{
        part, jobs, options_.feed ? calendar::Profile::Feed : calendar::Profile::Import,
        options_.lost};
    const Regenerated result = regenerated(content, previous);
    if (!result.refused.empty()) {
      environment_.err << fmt::format(
          "error: {} stays as it is, since trug did not write it for this garden: {}\n  hint: name "
          "another file, or replace it with --force\n",
          path, result.refused);
      return kRefused;
    }
    if (!options_.dry_run && !result.unchanged) file.replace(result.bytes);
    if (result.bytes.size() > calendar::kLargeCalendarOctets) {
      environment_.err << fmt::format(
          "warning: {} has {} kB; some calendars take no more than 1000: --split makes smaller "
          "ones\n",
          path, result.bytes.size() / 1000);
    }
    show::CalendarFile shown = changes_of(path, previous.has_value(), r_, content, result);
    shown.dry_run = options_.dry_run;
    if (!options_.json) environment_.out << show::changes_page(shown);
    files_.push_back(std::move(shown));
    return kDone;
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
  const bool first = !r->plan.began && !OutputFile(options.output).previous();
  if (!r->plan.garden || first) {
    environment.err << ask_for_identity(r->plan, today(options, environment), environment);
    return kBadInput;
  }
  if (const int code = Writer(options, environment, *r).run(); code != kDone) return code;
  environment.out.flush();
  environment.err << show::findings_line(r->findings, r->plan.file);
  return exit_code(options, *r);
}

}  // namespace trug::app
