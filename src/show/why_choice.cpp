// SPDX-License-Identifier: MIT
#include "show/why_choice.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"

namespace trug::show {
namespace {

using ask::GaveWay;

std::string stems_words(double stems) {
  return counted(static_cast<int>(std::lround(std::abs(stems))), "stem");
}

// "the whole plan gives 40 stems more and has 1 week fewer with its vase"
std::string plan_words(const GaveWay& way) {
  std::string text =
      std::lround(way.plan_stems) == 0
          ? "the whole plan would give no other number of stems"
          : fmt::format("the whole plan would give {} {}", stems_words(way.plan_stems),
                        way.plan_stems > 0 ? "more" : "fewer");
  if (way.plan_weeks == 0) return text + ", and as many weeks would have their vases";
  const int weeks = std::abs(way.plan_weeks);
  return text + fmt::format(", and {} {} would have {}", counted(weeks, "week"),
                            way.plan_weeks > 0 ? "more" : "fewer",
                            weeks == 1 ? "its vase" : "their vases");
}

std::string other_choice(const Plan& plan, const ground::Schedule& schedule, std::size_t planting,
                         const GaveWay& way) {
  const std::string& crop = plan.plantings[planting].asked.crop;
  const std::string& other = plan.plantings[way.to].asked.crop;
  const bool grown = !schedule.of(planting).empty();
  const std::string now = grown
                              ? fmt::format("{} waits for {}, which leaves the ground on {}.", crop,
                                            other, plain_day(schedule.of(way.to).back().lift))
                              : fmt::format("{} is left out for {}.", crop, other);
  const std::string change =
      way.lift ? fmt::format("Were {} taken out on {}", other, plain_day(*way.lift))
               : fmt::format("Without {}", other);
  const std::string in_ground =
      way.in_ground ? fmt::format("go in on {} and ", plain_day(*way.in_ground)) : "";
  return fmt::format("{} {}, {} would {}give {}{}; {}.", now, change, crop, in_ground,
                     stems_words(way.other_stems),
                     grown ? " in the place of " + stems_words(way.stems) : "", plan_words(way));
}

// A start after its window that no neighbour holds up: the first that the rules leave.
std::string first_allowed(const ground::Schedule& schedule, std::size_t planting) {
  const auto sowings = schedule.of(planting);
  if (sowings.empty() || sowings.front().days_late() == 0) return "";
  const ground::Sowing& chosen = sowings.front();
  Date first = chosen.in_ground;
  for (const ground::Candidate& c : schedule.weighed[planting].candidates->list) {
    if (c.way == chosen.way && c.group == chosen.group) first = std::min(first, c.in_ground);
  }
  if (first < chosen.window.until) return "";
  return fmt::format(
      "It is late because no day of its window keeps the rules here: the first that does is {}.",
      plain_day(first));
}

}  // namespace

std::string why_choice(const Plan& plan, const ground::Schedule& schedule, std::size_t planting,
                       const std::optional<GaveWay>& gave_way, Style style) {
  const std::string text = gave_way ? other_choice(plan, schedule, planting, *gave_way)
                                    : first_allowed(schedule, planting);
  return text.empty() ? "" : "\nThe other choice\n" + indented(text, 2, style);
}

}  // namespace trug::show
