// SPDX-License-Identifier: MIT
#include "app/start_judge.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <map>
#include <utility>

#include "app/reckoning.h"
#include "base/files.h"
#include "base/text.h"
#include "climate/climate.h"
#include "climate/frost_record.h"
#include "harvest/weeks.h"
#include "read/daily_csv.h"
#include "read/plan_reader.h"
#include "show/frost_report.h"

namespace trug::app {
namespace {

constexpr int kYearsOfRecord = 30;
// The middle of the wish must lie so far ahead: from seed to flower it takes the quick ones as long
// (memory).
constexpr Days kFromSeed{84};

// The first year the middle of whose wish can still be sown for.
int year_to_sow_for(Plan plan, Date today) {
  const climate::Climate climate = climate::Climate::from(plan.place);
  for (plan.flowering_year = year_of(today);; ++plan.flowering_year) {
    const DateRange wish = *harvest::wish_days(plan, climate);
    const Date middle = wish.from + Days{days_between(wish.from, wish.until) / 2};
    if (middle >= today + kFromSeed) return plan.flowering_year;
  }
}

}  // namespace

bool Verdict::is_wrong() const {
  return std::ranges::any_of(
      complaints, [](const Complaint& complaint) { return complaint.severity == Severity::Error; });
}

StartJudge::StartJudge(const Options& options, const Environment& environment, std::string path)
    : environment_(environment),
      path_(std::move(path)),
      folder_(std::filesystem::path(path_).parent_path().string()),
      today_(app::today(options, environment)),
      library_(open_library(options, path_, environment, sheets_)) {
  for (const std::string& name : library_->names()) {
    if (const Sheet* sheet = library_->find(name, sheets_)) {
      colours_.insert(colours_.end(), sheet->colours.begin(), sheet->colours.end());
    }
  }
  std::ranges::sort(colours_);
  colours_.erase(std::unique(colours_.begin(), colours_.end()), colours_.end());
}

Verdict StartJudge::judge(const StartAnswers& answers) {
  Verdict result;
  const Draft said = draft(answers, year_of(today_), today_, folder_);
  for (const WrongAnswer& wrong : said.wrong) {
    result.complaints.push_back({wrong.question, Severity::Error, wrong.message, wrong.hint});
  }
  Diagnostics diagnostics;
  const MemoryFiles files(std::map<std::string, std::string>{{path_, said.text}});
  result.plan = read::read_plan(files, path_, *library_, diagnostics);
  for (const Diagnostic& one : diagnostics.sorted()) {
    const auto line = static_cast<std::size_t>(one.position.line);
    // What stands at a heading is a key that is not answered yet.
    if (line == 0 || line > said.questions.size() || said.questions[line - 1].empty()) {
      result.unplaced += fmt::format("  {}\n", one.message);
      continue;
    }
    result.complaints.push_back({said.questions[line - 1], one.severity, one.message, one.hint});
  }
  if (result.plan && result.plan->wish) check_colours(*result.plan, result.complaints);
  if (result.is_wrong()) result.plan.reset();
  return result;
}

void StartJudge::check_colours(const Plan& plan, std::vector<Complaint>& complaints) {
  for (const std::string& colour : plan.wish->colours) {
    if (std::ranges::binary_search(colours_, colour)) continue;
    complaints.push_back({"colours", Severity::Error,
                          fmt::format("no crop is known in '{}'", colour),
                          fmt::format("colours are {}", listed(colours_))});
  }
}

std::string StartJudge::usual(const Question& question, const StartAnswers& answers) const {
  const std::string record = record_named(answers);
  const bool last = question.name == "last-frost";
  if (record.empty() || (!last && question.name != "first-frost")) {
    return std::string(question.usual);
  }
  Diagnostics of_no_matter;  // told where the plan is read
  auto days = read::read_daily_file(environment_.files, record, {}, of_no_matter);
  if (!days) return "";
  const bool southern = latitude_in(answers).value_or(0) < 0;
  const show::FrostReport report =
      show::frost_report(record, climate::last_years(*days, kYearsOfRecord), {}, southern);
  const auto& mean = (last ? report.garden.last : report.garden.first).mean;
  return mean ? short_day(climate::winter_day(*mean, southern)) : "";
}

std::string StartJudge::text(const StartAnswers& answers, const Plan& plan) const {
  return draft(answers, year_to_sow_for(plan, today_), today_, folder_).text;
}

}  // namespace trug::app
