// SPDX-License-Identifier: MIT
#include "show/week_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"

namespace trug::show {
namespace {

using harvest::Lack;
using harvest::Week;
using harvest::WeekState;

constexpr Days kWeek{7};

std::vector<Date> mondays(const std::vector<Week>& weeks, WeekState state) {
  std::vector<Date> result;
  for (const Week& week : weeks) {
    if (week.vase.state() == state) result.push_back(week.monday);
  }
  return result;
}

int lacking(const std::vector<Week>& weeks, Lack lack) {
  return static_cast<int>(std::ranges::count_if(weeks, [&](const Week& week) {
    return std::ranges::find(week.vase.lacks, lack) != week.vase.lacks.end();
  }));
}

}  // namespace

std::string week_list(const std::vector<Date>& mondays) {
  std::vector<std::string> runs;
  for (std::size_t first = 0; first < mondays.size();) {
    std::size_t last = first;
    while (last + 1 < mondays.size() && mondays[last + 1] == mondays[last] + kWeek) ++last;
    const std::string from = short_day(mondays[first]);
    runs.push_back(first == last ? from : from + " to " + short_day(mondays[last]));
    first = last + 1;
  }
  return listed(runs);
}

std::string weeks_of(const std::vector<Date>& mondays) {
  return (mondays.size() == 1 ? "week of " : "weeks of ") + week_list(mondays);
}

std::string_view words(Lack lack) {
  switch (lack) {
    case Lack::Main:
      return "a main flower";
    case Lack::Filler:
      return "a filler";
    case Lack::Kind:
      return "a second kind";
    case Lack::Stems:
      return "stems";
  }
  return "";
}

std::string lacks_words(const std::vector<Lack>& lacks) {
  std::string text;
  for (const Lack lack : lacks) {
    text += fmt::format("{}{}", text.empty() ? "" : ", ", harvest::to_string(lack));
  }
  return text;
}

std::string lacking_words(const std::vector<Lack>& lacks) {
  std::vector<std::string> named;
  for (const Lack lack : lacks) named.emplace_back(words(lack));
  return listed(named);
}

std::string week_words(const std::vector<Date>& mondays, const harvest::Vase& vase) {
  const std::string name = weeks_of(mondays);
  const std::string wanting = lacking_words(vase.lacks);
  switch (vase.state()) {
    case WeekState::Full:
      return name + ": all the vases";
    case WeekState::Half:
      return fmt::format("{}: half of the vases or more, wanting {}", name, wanting);
    case WeekState::Short:
      return fmt::format("{}: less than half of the vases, wanting {}", name, wanting);
  }
  return "";
}

std::string full_weeks(const std::vector<Week>& weeks) {
  const int full = harvest::count(weeks, WeekState::Full);
  return fmt::format("{} of the {} {} vases", full, counted(static_cast<int>(weeks.size()), "week"),
                     full == 1 ? "has its" : "have their");
}

std::string weeks_paragraph(const std::vector<Week>& weeks) {
  const auto half = mondays(weeks, WeekState::Half), less = mondays(weeks, WeekState::Short);
  std::string text = fmt::format(
      "Of the {} of the wish {} {} their vases, {} half of them or more, {} less.",
      counted(static_cast<int>(weeks.size()), "week"), harvest::count(weeks, WeekState::Full),
      harvest::count(weeks, WeekState::Full) == 1 ? "has" : "have", half.size(), less.size());
  if (!half.empty()) text += fmt::format(" Half: {}.", week_list(half));
  if (!less.empty()) text += fmt::format(" Less: {}.", week_list(less));
  std::vector<std::string> reasons;
  for (const Lack lack : {Lack::Main, Lack::Filler, Lack::Kind, Lack::Stems}) {
    if (const int count = lacking(weeks, lack); count > 0) {
      reasons.push_back(fmt::format("{} in {}", words(lack), counted(count, "week")));
    }
  }
  if (!reasons.empty()) text += fmt::format(" What is wanting: {}.", listed(reasons));
  return text;
}

}  // namespace trug::show
