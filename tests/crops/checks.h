// SPDX-License-Identifier: MIT
// Rows that say what is asked, who says so and what they say. A row that does not hold is a known
// miss and stands with what the program says today, so that it fails when that changes either way;
// no band is widened.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "base/date.h"

namespace trug {

enum class Kind { Published, Grower, CommonPractice, Memory };

struct DateCheck {
  std::string name;
  Kind kind;
  std::string source;
  std::function<std::optional<Date>()> ask;
  std::string earliest, latest;  // the band, both ends inside
  std::string known_miss = {};   // what is answered today: a date, or "never"
};

struct NumberCheck {
  std::string name;
  Kind kind;
  std::string source;
  std::function<double()> ask;
  double low, high;
  std::optional<double> known_miss = {};
};

void look(const DateCheck& row);
void look(const NumberCheck& row);

// Days from one to the other; not a number where either never comes.
double days(const std::optional<Date>& from, const std::optional<Date>& to);

}  // namespace trug
