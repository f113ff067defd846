// SPDX-License-Identifier: MIT
// Which jobs are shown, and in what form.
#include <algorithm>
#include <cstddef>
#include <optional>
#include <set>
#include <vector>

#include "app/commands.h"
#include "app/named_plantings.h"
#include "app/reckoning.h"
#include "show/jobs_output.h"
#include "show/pages.h"

namespace trug::app {
namespace {

constexpr Days kWeek{7};

// The days shown, both ends inside. A page begins today where nothing else is asked for; a document
// holds the year.
struct Shown {
  std::optional<Date> from, to;
};
Shown shown_days(const Options& options, Date today) {
  Shown days{options.from, options.to};
  const bool from_today = options.format == show::Format::Page || options.week || options.next;
  const bool whole = options.all && !options.week;
  if (!days.from && !whole && from_today) days.from = today;
  if (options.week) days.to = *days.from + kWeek - Days{1};
  return days;
}

bool is_kind(const Options& options, work::JobKind kind) {
  return options.only.empty() || std::ranges::find(options.only, kind) != options.only.end();
}

bool is_for(const work::Job& job, const std::set<std::size_t>& plantings) {
  if (job.parts.empty()) return plantings.contains(job.planting);
  return std::ranges::any_of(
      job.parts, [&](const work::OrderPart& part) { return plantings.contains(part.planting); });
}

// What another job's text tells of needs no line of its own.
bool is_told_with_another(const Options& options, const work::Job& job) {
  const bool may_be = options.format == show::Format::Page && !options.full && options.only.empty();
  return may_be && job.told_with;
}

std::vector<std::size_t> shown_jobs(const Options& options, const Reckoning& r, const Shown& days,
                                    const std::set<std::size_t>& plantings) {
  std::vector<std::size_t> shown;
  for (std::size_t i = 0; i < r.rows.size(); ++i) {
    const work::Job& job = r.rows[i];
    if (days.from && job.day < *days.from) continue;
    if (days.to && job.day > *days.to) continue;
    if (!is_kind(options, job.key.kind) || !is_for(job, plantings)) continue;
    if (is_told_with_another(options, job)) continue;
    if (options.next && shown.size() == static_cast<std::size_t>(*options.next)) break;
    shown.push_back(i);
  }
  return shown;
}

// Of what would be shown of the year, what lies before the page.
int jobs_before(const Options& options, const Reckoning& r, const Shown& days,
                const std::set<std::size_t>& plantings) {
  if (options.from || !days.from) return 0;
  return static_cast<int>(std::ranges::count_if(r.rows, [&](const work::Job& job) {
    return job.day < *days.from && is_kind(options, job.key.kind) && is_for(job, plantings) &&
           !is_told_with_another(options, job);
  }));
}

}  // namespace

int run_jobs(const Options& options, const Environment& environment) {
  auto r = reckon(options, environment, "trug.jobs/1");
  if (!r) return kBadInput;
  const auto named = named_plantings(options, r->plan);
  if (named.empty() && !(options.bed.empty() && options.crop.empty())) {
    return refuse_named(options, environment, r->plan);
  }
  const std::set<std::size_t> plantings(named.begin(), named.end());
  if (options.is_json() || options.strict) advise(options, environment, *r);
  const Shown days = shown_days(options, today(options, environment));
  environment.out << show::jobs_as(options.format,
                                   {.head = document_head(options, environment, "trug.jobs/1"),
                                    .reckoned = r->shown(),
                                    .rows = shown_jobs(options, *r, days, plantings),
                                    .before = jobs_before(options, *r, days, plantings),
                                    .climate = r->climate,
                                    .style = page_style(options, environment),
                                    .full = options.full,
                                    .hours = options.hours,
                                    .cautions = options.cautions});
  if (options.is_json()) return exit_code(options, *r);
  environment.out.flush();
  environment.err << show::findings_line(r->findings, r->plan.file);
  return exit_code(options, *r);
}

}  // namespace trug::app
