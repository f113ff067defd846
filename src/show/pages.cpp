// SPDX-License-Identifier: MIT
#include "show/pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <sstream>
#include <variant>

#include "base/text.h"
#include "show/finding_words.h"
#include "show/remedy_words.h"
#include "show/table.h"
#include "show/week_words.h"

namespace trug::show {
namespace {

// `pasted`: the lines that findings above it gave already.
std::string finding_text(const Plan& plan, const ask::Finding& finding,
                         std::set<std::string>& pasted, Style style) {
  std::string text =
      hanging(fmt::format("{}:{}:{}: {}: {}", finding.at.file, finding.at.line, finding.at.column,
                          ask::to_string(finding.rank()), message(plan, finding)),
              0, 2, style);
  if (const std::string remedy = remedy_text(plan, finding); !remedy.empty()) {
    text += hanging("remedy: " + remedy, 2, 4, style);
  }
  const auto toml = remedy_toml(plan, finding);
  if (toml && !pasted.insert(*toml).second) {
    text += "  paste the same lines as above\n";
  } else if (toml) {
    text += "  paste:\n";
    std::istringstream lines(*toml);
    for (std::string line; std::getline(lines, line);) text += "    " + line + "\n";
  }
  return text;
}

constexpr double kCloseBound = 0.05;  // farther off a bound says little

// " No other is worth more than 3.2 in 100 more." Where that was asked.
std::string bound_words(const std::optional<ground::Bound>& bound) {
  if (!bound) return "";
  const double above = bound->value > 0 ? bound->most / bound->value - 1 : 1;
  return above < kCloseBound
             ? fmt::format(" None can be worth over {:.1f} in 100 more.",
                           std::ceil(above * 1000) / 10)
             : std::string(" How much better another could be is not known within 5 in 100.");
}

// ": 3 of 4 plantings fit; 1 of them gives next to nothing in the weeks of the wish."
std::string how_many_fit(const Plan& plan, const ground::Schedule& schedule,
                         const std::vector<ask::Finding>& findings) {
  int grown = 0;
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) grown += schedule.of(i).empty() ? 0 : 1;
  const auto idle = std::ranges::count_if(findings, [](const ask::Finding& finding) {
    return std::holds_alternative<ask::OutOfWish>(finding.found);
  });
  return fmt::format(": {} of {} plantings fit{}.", grown, plan.plantings.size(),
                     idle == 0
                         ? ""
                         : fmt::format("; {} of them {} next to nothing in the weeks of the wish",
                                       idle, idle == 1 ? "gives" : "give"));
}

}  // namespace

std::string trust_note(const climate::Climate& climate) {
  if (climate.has_temperatures()) return "";
  return "No temperatures are given: first cuts come from frost dates alone and are good to three "
         "weeks either side, heat lovers to five.";
}

std::string caution_footer(const CautionLines& cautions, Style style) {
  std::string lines;
  for (const auto& [crop, of_crop] : cautions) {
    for (const std::string& line : of_crop) lines += indented(crop + ": " + line, 2, style);
  }
  if (lines.empty()) return "";
  return "\n" + bold("Cautions", style) + " (crops marked !)\n" + lines +
         indented(
             "No list of harmful plants is complete; local rules and qualified advice stand above "
             "it.",
             2, style);
}

std::string check_page(const Plan& plan, const ground::Schedule& schedule,
                       const std::vector<harvest::Week>& weeks,
                       const std::vector<ask::Finding>& findings, const climate::Climate& climate,
                       Style style) {
  std::string text;
  std::set<std::string> pasted;
  for (const ask::Finding& finding : findings) text += finding_text(plan, finding, pasted, style);
  text += headline(plan.title, how_many_fit(plan, schedule, findings), style);
  if (plan.wish) text += indented(weeks_paragraph(weeks), 0, style);
  if (!schedule.exact && schedule.calls == 0) {
    text += indented("Nothing was chosen anew: all stands as its calendar has it.", 0, style);
  } else if (!schedule.exact) {
    text += indented(
        fmt::format(
            "The best found ({} of a stretch weighed), not proved best for the whole plan.{}",
            counted(schedule.calls, "choice"), bound_words(schedule.bound)),
        0, style);
  }
  if (const std::string note = trust_note(climate); !note.empty()) text += indented(note, 0, style);
  if (climate.has_temperatures() && !plan.place.coldest_c) {
    text += indented(
        "The plan does not say how cold its winters get (coldest_c): what they kill is "
        "not judged.",
        0, style);
  }
  return text;
}

std::string findings_line(const std::vector<ask::Finding>& findings, const std::string& file) {
  std::map<ask::Rank, int> counts;
  for (const ask::Finding& finding : findings) ++counts[finding.rank()];
  if (counts.empty()) return "";
  std::vector<std::string> parts;
  for (const auto& [rank, count] : counts) {
    parts.push_back(fmt::format("{} {}", count, ask::to_string(rank)));
  }
  return fmt::format("{} {}: trug check {}\n", listed(parts),
                     findings.size() == 1 ? "finding" : "findings", file);
}

}  // namespace trug::show
