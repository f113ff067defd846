// SPDX-License-Identifier: MIT
#include "golden/renewal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <optional>
#include <regex>
#include <set>
#include <sstream>
#include <vector>

#include "base/date.h"

namespace trug::golden {
namespace {

struct JobLine {
  Date day;
  std::string line;
};

struct Lines {
  std::map<std::string, JobLine> jobs;
  std::multiset<std::string> others;
};

constexpr int kKindAndPlanting = 42;  // columns of a list, after the day

std::optional<unsigned> month_named(const std::string& name) {
  static const std::vector<std::string> kMonths = {"January",   "February", "March",    "April",
                                                   "May",       "June",     "July",     "August",
                                                   "September", "October",  "November", "December"};
  const auto found = std::ranges::find(kMonths, name);
  if (found == kMonths.end()) return std::nullopt;
  return static_cast<unsigned>(found - kMonths.begin()) + 1;
}

class Reader {
 public:
  Lines lines;

  void read(const std::string& line) {
    static const std::regex kHeading("([A-Z][a-z]+) ([0-9]{4})");
    static const std::regex kListed("  [A-Z][a-z]{2} ([ 0-9][0-9])  (.*)");
    static const std::regex kUid("[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}");
    static const std::regex kDay("[0-9]{4}-[0-9]{2}-[0-9]{2}");
    std::smatch match, day;
    if (std::regex_match(line, match, kHeading)) {
      month_ = month_named(match[1]);
      year_ = std::stoi(match[2]);
    } else if (month_ && std::regex_match(line, match, kListed)) {
      const auto number = static_cast<unsigned>(std::stoi(match[1]));
      std::string key = match[2].str().substr(0, kKindAndPlanting);
      std::erase(key, '!');  // its mark of a caution
      key.erase(key.find_last_not_of(' ') + 1);
      add(key, make_date(year_, *month_, number), line);
    } else if (std::regex_search(line, match, kUid) && std::regex_search(line, day, kDay)) {
      add(match[0], *parse_iso(day[0].str()), line);
    } else {
      lines.others.insert(line);
    }
  }

 private:
  void add(const std::string& key, Date day, const std::string& line) {
    lines.jobs.insert({fmt::format("{} {}", key, ++times_[key]), {day, line}});
  }

  std::optional<unsigned> month_;
  int year_ = 0;
  std::map<std::string, int> times_;
};

Lines lines_of(std::string_view text) {
  Reader reader;
  std::istringstream in{std::string(text)};
  for (std::string line; std::getline(in, line);) reader.read(line);
  return std::move(reader.lines);
}

int only_in(const std::multiset<std::string>& a, const std::multiset<std::string>& b) {
  std::vector<std::string> rest;
  std::ranges::set_difference(a, b, std::back_inserter(rest));
  return static_cast<int>(rest.size());
}

double median(std::vector<int> values) {
  if (values.empty()) return 0;
  std::ranges::sort(values);
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2.0;
}

}  // namespace

Difference difference(std::string_view before, std::string_view after) {
  const Lines old_lines = lines_of(before), new_lines = lines_of(after);
  Difference result;
  std::vector<int> days;
  for (const auto& [key, job] : new_lines.jobs) {
    const auto was = old_lines.jobs.find(key);
    if (was == old_lines.jobs.end()) {
      ++result.fresh;
    } else if (was->second.day != job.day) {
      days.push_back(std::abs(days_between(was->second.day, job.day)));
    } else if (was->second.line != job.line) {
      ++result.texts;
    }
  }
  for (const auto& [key, job] : old_lines.jobs) result.gone += !new_lines.jobs.contains(key);
  result.moved = static_cast<int>(days.size());
  result.median_days = median(std::move(days));
  result.texts += std::max(only_in(new_lines.others, old_lines.others),
                           only_in(old_lines.others, new_lines.others));
  return result;
}

std::string in_words(const Difference& difference) {
  return fmt::format("{} jobs moved by median {} days, {} texts, {} new, {} gone", difference.moved,
                     difference.median_days, difference.texts, difference.fresh, difference.gone);
}

}  // namespace trug::golden
