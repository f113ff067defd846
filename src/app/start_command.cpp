// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <optional>
#include <ostream>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "app/commands.h"
#include "app/inputs.h"
#include "app/interview.h"
#include "app/new_plan.h"
#include "app/reckoning.h"
#include "app/start_judge.h"
#include "app/start_questions.h"
#include "ask/growings.h"
#include "ask/propose.h"
#include "ask/wish_ground.h"
#include "base/uuid.h"
#include "harvest/vase.h"
#include "show/plan_toml.h"
#include "show/start_page.h"
#include "work/purchases.h"

namespace trug::app {
namespace {

constexpr const char* kUsualFile = "garden.toml";
constexpr const char* kByOptions =
    "trug start --latitude 52.4 --last-frost \"12 May\" --first-frost \"18 October\" --beds \"2.6 "
    "x "
    "1.1\" --from \"20 June\" --to \"20 September\"";

// The plan that is to be, where it will lie, before it is written.
class WithDraft : public FileReader {
 public:
  WithDraft(const FileReader& files, std::string path, std::string text)
      : files_(files), path_(std::move(path)), text_(std::move(text)) {}
  FileBytes read(const std::string& path, std::size_t limit) const override {
    return path == path_ ? FileBytes{FileState::Read, text_} : files_.read(path, limit);
  }
  std::optional<std::vector<std::string>> list(const std::string& folder,
                                               std::string_view ending) const override {
    return files_.list(folder, ending);
  }

 private:
  const FileReader& files_;
  std::string path_, text_;
};

void refuse_taken(const Environment& environment, const std::string& path) {
  if (environment.files.read(path, 0).state == FileState::Missing) return;
  throw BadOutput(fmt::format("{} stands already, and a plan is never written over", path));
}

// All answers of the options, or nullopt: which are wrong or missing was said.
std::optional<StartAnswers> by_options(const Options& options, const Environment& environment,
                                       StartJudge& judge) {
  StartAnswers answers = options.answers;
  bool is_wrong = false;
  for (const Question& question : start_questions()) {
    if (answers.contains(question.name)) continue;
    const std::string usual = judge.usual(question, answers);
    if (!usual.empty()) {
      answers[std::string(question.name)] = usual;
    } else {
      environment.err << fmt::format("error: --{} is needed, {}\n", question.name, question.help);
      is_wrong = true;
    }
  }
  for (const Complaint& complaint : judge.judge(answers).complaints) {
    const bool is_error = complaint.severity == Severity::Error;
    environment.err << fmt::format("{}: --{}: {}\n", is_error ? "error" : "warning",
                                   complaint.question, complaint.message);
    if (!complaint.hint.empty()) environment.err << "  hint: " << complaint.hint << "\n";
    is_wrong = is_wrong || is_error;
  }
  if (is_wrong) return std::nullopt;
  return answers;
}

std::optional<StartAnswers> by_asking(const Options& options, const Environment& environment,
                                      StartJudge& judge) {
  auto answers = Interview(environment, judge, page_style(options, environment)).run();
  if (!answers) {
    environment.err << "error: the answers ended before the last question; nothing is written\n"
                    << "  hint: without questions: " << kByOptions << "\n";
  }
  return answers;
}

Uuid identity(const Options& options, const Environment& environment) {
  if (options.seed) return uuid_v5(Uuid{}, "trug start " + *options.seed);
  return uuid_v4(environment.random());
}

// "vases.toml": "vases.ics"; nothing where such a file lies there already.
std::optional<std::string> calendar_beside(const Environment& environment,
                                           const std::string& path) {
  const std::filesystem::path file = std::filesystem::path(path).replace_extension(".ics");
  if (environment.files.read(file.string(), 0).state != FileState::Missing) return std::nullopt;
  return file.filename().string();
}

int crops_to_choose_from(const ask::Garden& garden) {
  const auto mondays = ask::wish_mondays(garden);
  const auto sheets = ask::wished_sheets(garden);
  return static_cast<int>(std::ranges::count_if(sheets, [&](const Sheet* sheet) {
    return std::ranges::any_of(ask::growings(garden, *sheet, mondays), &ask::Growing::usual);
  }));
}

// Reckons the beds that the answers tell of, plants them, writes and tells.
class Starter {
 public:
  Starter(const Options& options, const Environment& environment, std::string path)
      : options_(options), environment_(environment), path_(std::move(path)) {
    options_.plans = {path_};
  }

  int run(const std::string& draft, const Plan& as_answered) {
    const WithDraft files(environment_.files, path_, draft);
    std::ostringstream trouble;  // warnings were said with the answers
    const auto r = reckon(options_, with(environment_, files, environment_.out, trouble), "");
    if (!r) {
      environment_.err << trouble.str();
      return kBadInput;
    }
    const ground::Sheets sheets = all_sheets(*r);
    ask::Garden garden{r->plan, sheets, r->climate, today(options_, environment_), r->weather};
    ask::Proposal proposal = ask::propose(garden, *r, additions_told(environment_));
    if (environment_.colour) environment_.err << "\r";
    garden.plan.wish->like.clear();
    finish(proposal.plan, as_answered);
    write(show::plan_toml(proposal.plan, true));
    tell(garden, proposal);
    const bool is_short = harvest::count(proposal.after.weeks, harvest::WeekState::Full) <
                          static_cast<int>(proposal.after.weeks.size());
    return options_.strict && is_short ? kFindings : kDone;
  }

 private:
  // What the plan has besides its crops. The averages of a record stay the record's.
  void finish(Plan& plan, const Plan& as_answered) const {
    plan.place = as_answered.place;
    if (!plan.garden) plan.garden = identity(options_, environment_);
    if (!is_to_stream()) plan.calendar = calendar_beside(environment_, path_);
  }

  void write(const std::string& text) const {
    if (is_to_stream()) {
      environment_.out << text;
    } else {
      write_new_plan(environment_, path_, text);
    }
  }

  void tell(const ask::Garden& garden, const ask::Proposal& proposal) const {
    const auto buy =
        work::purchases(proposal.plan, proposal.after.schedule, proposal.after.jobs, garden.today);
    const ask::WishGround ground = ask::wish_ground(garden);
    const show::StartFacts facts{.plan = proposal.plan,
                                 .outcome = proposal.after,
                                 .ground = ground,
                                 .bounds = proposal.bounds,
                                 .unused = proposal.unused,
                                 .purchases = buy,
                                 .weighed = crops_to_choose_from(garden),
                                 .next = next(proposal.plan)};
    std::ostream& out = is_to_stream() ? environment_.err : environment_.out;
    out << show::start_page(facts, page_style(options_, environment_));
  }

  std::string next(const Plan& plan) const {
    return fmt::format("trug check {0}, then trug calendar {0}{1}", path_,
                       plan.calendar ? "" : " -o FILE.ics");
  }
  bool is_to_stream() const { return options_.output == kStandardStream; }

  Options options_;
  const Environment& environment_;
  std::string path_;
};

}  // namespace

int run_start(const Options& options, const Environment& environment) {
  const bool to_file = options.output != kStandardStream;
  const std::string path = options.output.empty() || !to_file ? kUsualFile : options.output;
  if (to_file) refuse_taken(environment, path);
  StartJudge judge(options, environment, path);
  if (const std::string trouble = judge.trouble(); !trouble.empty()) {
    environment.err << trouble;
    return kBadInput;
  }
  const auto answers = options.answers.empty() ? by_asking(options, environment, judge)
                                               : by_options(options, environment, judge);
  if (!answers) return kBadInput;
  const Verdict verdict = judge.judge(*answers);
  if (!verdict.plan) {
    environment.err << "error: these answers make no plan\n" << verdict.unplaced;
    return kBadInput;
  }
  return Starter(options, environment, path)
      .run(judge.text(*answers, *verdict.plan), *verdict.plan);
}

}  // namespace trug::app
