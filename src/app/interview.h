// SPDX-License-Identifier: MIT
// `trug start` on a terminal: one question after the other, a wrong answer asked again.
#pragma once

#include <optional>
#include <string>

#include "app/environment.h"
#include "app/start_judge.h"
#include "app/start_questions.h"
#include "show/style.h"

namespace trug::app {

class Interview {
 public:
  // All must outlive it.
  Interview(const Environment& environment, StartJudge& judge, show::Style style)
      : environment_(environment), judge_(judge), style_(style) {}

  // Every answer, right as far as can be told; nullopt: the input ended before.
  std::optional<StartAnswers> run();

 private:
  enum class Step { Next, Same, Back, End };

  Step ask(const Question& question, const std::string& number);
  Step take(const Question& question, const std::string& answer);
  void say(const std::string& text, int first_indent = 0) const;
  void explain(const Question& question) const;
  std::optional<std::string> line() const;

  const Environment& environment_;
  StartJudge& judge_;
  show::Style style_;
  StartAnswers answers_;
};

}  // namespace trug::app
