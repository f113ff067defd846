// SPDX-License-Identifier: MIT
// The jobs as a table for people.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/text.h"
#include "show/job_phrases.h"
#include "show/job_words.h"
#include "show/jobs_output.h"
#include "show/pages.h"
#include "show/table.h"
#include "work/job_kinds.h"

namespace trug::show {
namespace {

// "Sat  5", as a column.
std::string weekday_and_number(Date day) {
  return fmt::format("{} {:>2}", short_weekday(day), day_of_month(day));
}

// Plants; of an order of other things than seed what is to be bought, with what is to spare.
std::string amount(const JobRow& job) {
  if (!job.items.empty() && job.items.front().goods != work::Goods::Seed) {
    int number = 0;
    for (const work::Purchase& item : job.items) number += item.number;
    return fmt::format("{}", number);
  }
  const work::JobTrait& kind = work::trait(job.key.kind);
  const bool told = kind.group == work::JobGroup::Buying || kind.counted;
  return job.plants && told ? fmt::format("{}", *job.plants) : "";
}

std::string where_words(const work::Job& job) {
  if (!job.where || *job.where == Raised::InPlace) return "";
  if (*job.where == Raised::Heated) return "in warmth";
  return *job.where == Raised::NurseryBed ? "nursery" : std::string(to_string(*job.where));
}

// ", and 5 told with them" of those that a list leaves to the texts of others.
std::string told_with_words(const JobsShown& jobs) {
  const std::set<std::size_t> listed_ones(jobs.rows.begin(), jobs.rows.end());
  const std::vector<JobRow>& rows = jobs.reckoned.rows;
  int told = 0;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto& with = rows[i].told_with;
    if (with && listed_ones.contains(*with) && !listed_ones.contains(i)) ++told;
  }
  return told == 0 ? "" : fmt::format(", and {} told with them (--full)", told);
}

CautionLines cautions_of(const JobsShown& jobs) {
  CautionLines lines;
  for (const std::size_t i : jobs.rows) {
    for (const auto& [crop, its] : jobs.reckoned.rows[i].cautions_of) lines[crop] = its;
  }
  return lines;
}

// "Poisonous: daffodil and foxglove. Irritant: dahlia." Of lines that begin with the harm.
std::string by_harm(const CautionLines& cautions) {
  std::map<std::string, std::vector<std::string>> crops;
  for (const auto& [crop, lines] : cautions) {
    for (const std::string& line : lines) {
      std::vector<std::string>& of_harm = crops[line.substr(0, line.find(':'))];
      if (of_harm.empty() || of_harm.back() != crop) of_harm.push_back(crop);
    }
  }
  std::vector<std::string> sentences;
  for (const auto& [harm, names] : crops) {
    sentences.push_back(fmt::format("{}: {}.", harm, listed(names)));
  }
  return fmt::format("{}", fmt::join(sentences, " "));
}

std::string short_cautions(const CautionLines& cautions, Style style) {
  const std::string harms = by_harm(cautions);
  if (harms.empty()) return "";
  return "\n" + indented("Crops marked ! harm. " + harms +
                             " What to do: --cautions, and each job in the calendar. Local rules "
                             "and qualified advice stand above it.",
                         0, style);
}

std::string before_words(int before) {
  if (before == 0) return "";
  return fmt::format("{} before: --all shows {}.", counted(before, "job"),
                     before == 1 ? "it" : "them");
}

std::string name_words(const JobRow& job) {
  if (!job.parts.empty()) return job.crop_words;
  const std::string sowing = job.key.succession > 0 ? fmt::format(" {}", job.key.succession) : "";
  return job.planting_name + sowing;
}

// A note for each line of the text.
void add_notes(std::string_view text, Table& table) {
  for (std::size_t end = 0; end != std::string_view::npos;) {
    end = text.find('\n');
    table.add_note(std::string(text.substr(0, end)));
    text.remove_prefix(std::min(end, text.size() - 1) + 1);
  }
}

std::string window_words(const JobRow& job) {
  if (job.state == work::Job::State::Assumed) return "taken as done";
  if (job.first == job.last) return "";
  return fmt::format("{} to {}", brief_day(job.first), brief_day(job.last));
}

// "Time, by memory: week of 3 May 1 h 20 min, week of 10 May 35 min. In all 14 h."
std::string weeks_of_work(const JobsShown& jobs) {
  std::map<Date, double> weeks;  // by their Mondays
  double all = 0;
  for (const std::size_t i : jobs.rows) {
    const JobRow& job = jobs.reckoned.rows[i];
    const std::chrono::weekday day{job.day};
    weeks[job.day - (day - std::chrono::Monday)] += job.minutes;
    all += job.minutes;
  }
  std::vector<std::string> words;
  for (const auto& [monday, minutes] : weeks) {
    words.push_back(fmt::format("week of {} {}", short_day(monday), time_words(minutes)));
  }
  if (words.empty()) return "";
  return fmt::format("\nHow long it takes one person, from memory: {}. In all {}.",
                     fmt::join(words, ", "), time_words(all));
}

}  // namespace

std::string jobs_page(const JobsShown& jobs) {
  const Plan& plan = jobs.reckoned.plan;
  std::string text = headline(
      plan.title,
      fmt::format(", flowering {}: {}{}", plan.flowering_year,
                  counted(static_cast<int>(jobs.rows.size()), "job"), told_with_words(jobs)),
      jobs.style);
  if (const std::string note = trust_note(jobs.climate); !note.empty()) {
    text += indented(note, 0, jobs.style);
  }
  if (const std::string note = before_words(jobs.before); !note.empty()) {
    text += indented(note, 0, jobs.style);
  }
  Table table({{"day", false},
               {"job"},
               {"planting"},
               {"", false},
               {"plants"},
               {"where"},
               {"still right"},
               {"takes"}},
              3);
  std::string month;
  for (const std::size_t i : jobs.rows) {
    const JobRow& job = jobs.reckoned.rows[i];
    const std::string heading = month_and_year(job.day);
    if (heading != month) table.add_heading(heading);
    month = heading;
    table.add({weekday_and_number(job.day), uncapitalised(job.doing), name_words(job),
               job.cautions.empty() ? "" : "!", amount(job), where_words(job), window_words(job),
               jobs.hours && job.minutes > 0 ? time_words(job.minutes) : ""},
              job.state == work::Job::State::Assumed);
    if (jobs.full) add_notes(job.text, table);
  }
  if (!jobs.rows.empty()) text += table.text(jobs.style);
  if (jobs.hours) text += indented(weeks_of_work(jobs), 0, jobs.style);
  const CautionLines cautions = cautions_of(jobs);
  return text + (jobs.cautions ? caution_footer(cautions, jobs.style)
                               : short_cautions(cautions, jobs.style));
}

}  // namespace trug::show
