// SPDX-License-Identifier: MIT
// Whether the answers of `trug start` make a plan: the reader of plans is asked, and what it says
// of a line is said of the answer that made it.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/environment.h"
#include "app/options.h"
#include "app/start_questions.h"
#include "base/diagnostics.h"
#include "garden/plan.h"
#include "read/sheet_library.h"

namespace trug::app {

struct Complaint {
  std::string_view question;
  Severity severity = Severity::Error;
  std::string message, hint;
};

struct Verdict {
  std::vector<Complaint> complaints;
  std::optional<Plan> plan;  // absent: something is wrong, or not answered yet
  std::string unplaced;      // what is wrong with the plan that no answer says
  bool is_wrong() const;
};

class StartJudge {
 public:
  // `path`: of the plan that is to be. Both must outlive it.
  StartJudge(const Options& options, const Environment& environment, std::string path);

  Verdict judge(const StartAnswers& answers);
  // What an empty answer is taken for: frost dates as the record tells them.
  std::string usual(const Question& question, const StartAnswers& answers) const;
  // The text of the plan that the answers make, which flowers in their year, or in the first whose
  // wish can still be sown for.
  std::string text(const StartAnswers& answers, const Plan& plan) const;
  // What is wrong with the sheets; empty: nothing.
  std::string trouble() const { return sheets_.has_errors() ? sheets_.render() : ""; }
  Date today() const { return today_; }

 private:
  void check_colours(const Plan& plan, std::vector<Complaint>& complaints);

  const Environment& environment_;
  std::string path_, folder_;
  Date today_;
  Diagnostics sheets_;
  std::unique_ptr<read::SheetLibrary> library_;
  std::vector<std::string> colours_;  // of all sheets, when they were looked for
};

}  // namespace trug::app
