// SPDX-License-Identifier: MIT
#include "app/interview.h"

#include <fmt/format.h>

#include <cstddef>
#include <string_view>
#include <vector>

#include "base/text.h"
#include "show/glossary.h"

namespace trug::app {
namespace {

constexpr std::string_view kHow =
    "Each question has an example. An empty answer takes what stands in brackets; ? tells more, "
    "back goes back. Nothing is written before the last answer.";

constexpr int kUnder = 3;  // columns: below its question

std::vector<const Question*> asked_questions() {
  std::vector<const Question*> list;
  for (const Question& question : start_questions()) {
    if (!question.asked.empty()) list.push_back(&question);
  }
  return list;
}

}  // namespace

std::optional<StartAnswers> Interview::run() {
  say(std::string(kHow));
  const auto questions = asked_questions();
  for (std::size_t i = 0; i < questions.size();) {
    switch (ask(*questions[i], fmt::format("{} of {}", i + 1, questions.size()))) {
      case Step::Next:
        ++i;
        break;
      case Step::Back:
        i -= i > 0;
        break;
      case Step::Same:
        break;
      case Step::End:
        environment_.err << "\n";
        return std::nullopt;
    }
  }
  for (const Question& question : start_questions()) {
    if (question.asked.empty()) answers_.emplace(question.name, question.usual);
  }
  return answers_;
}

Interview::Step Interview::ask(const Question& question, const std::string& number) {
  answers_.erase(std::string(question.name));
  const std::string usual = judge_.usual(question, answers_);
  environment_.err << "\n";
  say(fmt::format("{}. {}", number, question.asked));
  environment_.err << fmt::format("   for example {}{}: ", question.example,
                                  usual.empty() ? "" : fmt::format(" [{}]", usual));
  environment_.err.flush();
  const auto answer = line();
  if (!answer) return Step::End;
  if (*answer == "back") return Step::Back;
  if (*answer == "?") {
    explain(question);
    return Step::Same;
  }
  if (answer->empty() && usual.empty()) {
    say("This one must be answered.", kUnder);
    return Step::Same;
  }
  return take(question, answer->empty() ? usual : *answer);
}

Interview::Step Interview::take(const Question& question, const std::string& answer) {
  answers_[std::string(question.name)] = answer;
  const Verdict verdict = judge_.judge(answers_);
  for (const Complaint& complaint : verdict.complaints) {
    const bool is_error = complaint.severity == Severity::Error;
    if (!is_error && complaint.question != question.name) continue;  // it was said before
    std::string text = capitalised(complaint.message);
    if (!complaint.hint.empty()) text += "; " + complaint.hint;
    say(text + (text.ends_with('?') ? "" : "."), kUnder);
  }
  return verdict.is_wrong() ? Step::Same : Step::Next;
}

void Interview::explain(const Question& question) const {
  const auto entries = show::find_words(question.key);
  if (entries.empty()) return say("There is no more to tell.", kUnder);
  for (const show::GlossaryEntry& entry : entries) {
    if (entry.kind == show::WordKind::Key) say(std::string(entry.text), kUnder);
  }
}

void Interview::say(const std::string& text, int first_indent) const {
  environment_.err << show::hanging(text, first_indent, kUnder, style_);
}

std::optional<std::string> Interview::line() const {
  std::string text;
  if (environment_.in == nullptr || !std::getline(*environment_.in, text)) return std::nullopt;
  return std::string(trimmed(text, " \t\r"));
}

}  // namespace trug::app
