// SPDX-License-Identifier: MIT
// What `trug start` asks, on the terminal and by its options: one table, and how an answer is said
// in a plan. Whether it is a right one, the reader of plans judges.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"

namespace trug::app {

// How an answer becomes lines of the plan.
enum class Shape {
  Latitude,  // "41.3 S"
  Number,    // "1.5"
  Text,      // "12 May"
  Words,     // "Sat and Sun"
  YesNo,
  Temperatures,  // twelve means, two, or the name of a record
  Beds           // "gate bed: 2.6 x 1.1, 4.2 x 0.9"
};

struct Question {
  std::string_view name;     // of its option, and of its answer: "last-frost"
  std::string_view value;    // what the option's help calls the value
  std::string_view heading;  // under which the plan has its key; empty: at the top
  std::string_view key;
  Shape shape{};
  std::string_view asked;  // in plain words; empty: by its option alone
  std::string_view example;
  std::string_view usual;  // what an empty answer is taken for; empty: it must be answered
  std::string_view help;   // of the option
};

std::span<const Question> start_questions();
// Null: no question is so called.
const Question* find_question(std::string_view name);

// By the name of their question.
using StartAnswers = std::map<std::string, std::string, std::less<>>;

// An answer that cannot be said in a plan.
struct WrongAnswer {
  std::string_view question;
  std::string message, hint;
};

// A plan that says what was answered so far, beds without crops.
struct Draft {
  std::string text;
  std::vector<std::string_view> questions;  // by line of the text: the one that it answers, or ""
  std::vector<WrongAnswer> wrong;
};
// `folder`: of the plan that is to be, for the files it names.
Draft draft(const StartAnswers& answers, int flowering_year, Date began, const std::string& folder);

// The daily record among the answers, as it was named; empty: there is none.
std::string record_named(const StartAnswers& answers);
// The latitude among them; absent: there is none, or it is a wrong one.
std::optional<double> latitude_in(const StartAnswers& answers);

}  // namespace trug::app
