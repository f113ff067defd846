// SPDX-License-Identifier: MIT
#include "show/pages.h"

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <sstream>

#include "base/text.h"
#include "show/finding_words.h"
#include "show/remedy_words.h"
#include "show/table.h"
#include "show/week_words.h"

namespace trug::show {
namespace {

// "Sat  5", as a column.
std::string weekday_and_number(Date day) {
  return fmt::format("{} {:>2}", short_weekday(day), day_of_month(day));
}

std::string amount(const work::Job& job) {
  const bool told = job.key.kind == work::JobKind::OrderSeed || work::trait(job.key.kind).counted;
  return job.plants && told ? fmt::format("{}", *job.plants) : "";
}

std::string where_words(const work::Job& job) {
  if (!job.where || *job.where == Raised::InPlace) return "";
  if (*job.where == Raised::Heated) return "in warmth";
  return *job.where == Raised::NurseryBed ? "nursery" : std::string(to_string(*job.where));
}

// ", and 5 told with them" of those that a list leaves to the texts of others.
std::string told_with_words(const std::vector<JobRow>& jobs, const std::vector<std::size_t>& shown) {
  const std::set<std::size_t> listed_ones(shown.begin(), shown.end());
  int told = 0;
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    const auto& with = jobs[i].told_with;
    if (with && listed_ones.contains(*with) && !listed_ones.contains(i)) ++told;
  }
  return told == 0 ? "" : fmt::format(", and {} told with them (--full)", told);
}

CautionLines cautions_of(const std::vector<JobRow>& jobs, const std::vector<std::size_t>& shown) {
  CautionLines lines;
  for (const std::size_t i : shown) lines[jobs[i].crop] = jobs[i].cautions;
  return lines;
}

std::string name_words(const JobRow& job) {
  const std::string sowing = job.key.succession > 0 ? fmt::format(" {}", job.key.succession) : "";
  return job.planting_name + sowing;
}

std::string window_words(const JobRow& job) {
  if (job.state == work::Job::State::Assumed) return "taken as done";
  if (job.first == job.last) return "";
  return fmt::format("{} to {}", brief_day(job.first), brief_day(job.last));
}

std::string finding_text(const Plan& plan, const ask::Finding& finding, Style style) {
  std::string text =
      hanging(fmt::format("{}:{}:{}: {}: {}", finding.at.file, finding.at.line, finding.at.column,
                          ask::to_string(finding.rank()), message(plan, finding)),
              0, 2, style);
  if (const std::string remedy = remedy_text(plan, finding); !remedy.empty()) {
    text += hanging("remedy: " + remedy, 2, 4, style);
  }
  if (const auto toml = remedy_toml(plan, finding)) {
    text += "  paste:\n";
    std::istringstream lines(*toml);
    for (std::string line; std::getline(lines, line);) text += "    " + line + "\n";
  }
  return text;
}

constexpr double kCloseBound = 0.05;  // farther off a bound says little

// " No other is worth more than 3.2 in 100 more." Where that was asked.
std::string bound_words(const std::optional<ground::Bound>& bound) {
  if (!bound) return "";
  const double above = bound->value > 0 ? bound->most / bound->value - 1 : 1;
  return above < kCloseBound
             ? fmt::format(" None can be worth over {:.1f} in 100 more.",
                           std::ceil(above * 1000) / 10)
             : std::string(" How much better another could be is not known within 5 in 100.");
}

}  // namespace

std::string trust_note(const climate::Climate& climate) {
  if (climate.has_temperatures()) return "";
  return "No temperatures are given: first cuts come from frost dates alone and are good to three "
         "weeks either side, heat lovers to five.";
}

std::string caution_footer(const CautionLines& cautions, Style style) {
  std::string lines;
  for (const auto& [crop, of_crop] : cautions) {
    for (const std::string& line : of_crop) lines += indented(crop + ": " + line, 2, style);
  }
  if (lines.empty()) return "";
  return "\n" + bold("Cautions", style) + " (crops marked !)\n" + lines +
         indented(
             "No list of harmful plants is complete; local rules and qualified advice stand above "
             "it.",
             2, style);
}

std::string jobs_page(const Plan& plan, const std::vector<JobRow>& jobs,
                      const std::vector<std::size_t>& shown, const climate::Climate& climate,
                      Style style, bool full) {
  std::string text = headline(plan.title,
                              fmt::format(", flowering {}: {}{}", plan.flowering_year,
                                          counted(static_cast<int>(shown.size()), "job"),
                                          told_with_words(jobs, shown)),
                              style);
  if (const std::string note = trust_note(climate); !note.empty()) text += indented(note, 0, style);
  Table table(
      {{"day", false}, {"job"}, {"planting"}, {"", false}, {"plants"}, {"where"}, {"still right"}},
      3);
  std::string month;
  for (const std::size_t i : shown) {
    const JobRow& job = jobs[i];
    const std::string heading = month_and_year(job.day);
    if (heading != month) table.add_heading(heading);
    month = heading;
    const std::string kind(work::trait(job.key.kind).words);
    table.add({weekday_and_number(job.day), kind, name_words(job), job.cautions.empty() ? "" : "!",
               amount(job), where_words(job), window_words(job)},
              job.state == work::Job::State::Assumed);
    if (full) table.add_note(job.text);
  }
  text += table.text(style);
  return text + caution_footer(cautions_of(jobs, shown), style);
}

std::string check_page(const Plan& plan, const ground::Schedule& schedule,
                       const std::vector<harvest::Week>& weeks,
                       const std::vector<ask::Finding>& findings, const climate::Climate& climate,
                       Style style) {
  std::string text;
  for (const ask::Finding& finding : findings) text += finding_text(plan, finding, style);
  int grown = 0;
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) grown += schedule.of(i).empty() ? 0 : 1;
  text += headline(plan.title,
                   fmt::format(": {} of {} plantings fit.", grown, plan.plantings.size()), style);
  if (plan.wish) text += indented(weeks_paragraph(weeks), 0, style);
  if (!schedule.exact) {
    text += indented(
        fmt::format(
            "The best found ({} of a stretch weighed), not proved best for the whole plan.{}",
            counted(schedule.calls, "choice"), bound_words(schedule.bound)),
        0, style);
  }
  if (const std::string note = trust_note(climate); !note.empty()) text += indented(note, 0, style);
  return text;
}

std::string findings_line(const std::vector<ask::Finding>& findings, const std::string& file) {
  std::map<ask::Rank, int> counts;
  for (const ask::Finding& finding : findings) ++counts[finding.rank()];
  if (counts.empty()) return "";
  std::vector<std::string> parts;
  for (const auto& [rank, count] : counts) {
    parts.push_back(fmt::format("{} {}", count, ask::to_string(rank)));
  }
  return fmt::format("{} {}: trug check {}\n", listed(parts),
                     findings.size() == 1 ? "finding" : "findings", file);
}

}  // namespace trug::show
