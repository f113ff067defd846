// SPDX-License-Identifier: MIT
#include "ground/judge_dates.h"

#include <algorithm>
#include <cmath>

#include "growth/winter.h"

namespace trug::ground {
namespace {

std::optional<Refusal> not_before(Date day, const std::optional<Date>& limit, Rule rule) {
  return limit && day < *limit ? std::optional(Refusal{rule, day, day, limit}) : std::nullopt;
}

// What is to be ordered first comes a week later (memory), and seed is treated then; where starting
// so much later is as right, it is waited for. nullopt: it is not.
std::optional<Date> delivered(const Case& of, const Candidate& c, const Way& way) {
  const Begun& begun = of.begun;
  const auto& first_day = of.setting.first_day;
  const bool is_there = begun.in_hand || begun.bought || begun.earlier || begun.start_from;
  if (is_there || of.is_pinned() || !first_day) return std::nullopt;
  const auto& treat = of.sheet.pretreat;
  const bool is_treated = treat && way.method == Method::Seed &&
                          !growth::ground_chills_seed(of.setting.climate, of.sheet, way, c.start);
  const Days wait{7 + (is_treated ? static_cast<int>(std::ceil(treat->days.middle())) : 0)};
  const auto usual = of.clock.usual_days(way);
  const Date from = std::max(*first_day, begun.again_from.value_or(*first_day));
  if (usual && c.in_ground + wait < usual->until) return from + wait;
  // Seed that does not come up untreated is waited for all the same.
  if (!is_treated || !treat->needed) return std::nullopt;
  return from + Days{static_cast<int>(std::ceil(treat->days.low))};
}

// When bulbs can have been in cold storage for their weeks, that nobody has yet.
std::optional<Date> chilled(const Case& of, const Way& way) {
  const auto& first_day = of.setting.first_day;
  const bool is_there = of.begun.in_hand || of.begun.earlier || of.is_pinned();
  if (!way.pre_chilled || is_there || !first_day) return std::nullopt;
  return *first_day + Days{std::lround(cold_store_days(of.sheet).low)};
}

}  // namespace

std::optional<Date> soonest_out(const Begun& begun, const Setting& setting) {
  const bool is_told = begun.start_told || (begun.start && begun.earlier);
  return is_told && !begun.in_ground ? setting.today : std::nullopt;
}

std::optional<Refusal> judge_dates(const Case& of, const Candidate& c, const Way& way) {
  const Begun& begun = of.begun;
  if (auto late = not_before(c.in_ground, begun.in_ground_from, Rule::TooLate)) return late;
  const auto ready = begun.in_ground ? std::nullopt : begun.ready_from;
  if (auto late = not_before(c.in_ground, ready, Rule::TooLate)) return late;
  if (auto late = not_before(c.in_ground, soonest_out(begun, of.setting), Rule::TooLate))
    return late;
  if (c.stands || begun.way) return std::nullopt;
  if (c.young_plants) return not_before(c.in_ground, of.setting.today, Rule::TooLate);
  if (auto late = not_before(c.start, of.setting.first_day, Rule::TooLate)) return late;
  if (auto late = not_before(c.start, begun.start_from, Rule::TooLate)) return late;
  if (begun.again_from) {
    const Date again = std::max(*begun.again_from, of.setting.today.value_or(*begun.again_from));
    if (auto late = not_before(c.start, again, Rule::TooLate)) return late;
  }
  if (auto early = not_before(c.start, delivered(of, c, way), Rule::TooLate)) return early;
  if (auto early = not_before(c.start, chilled(of, way), Rule::TooLate)) return early;
  return not_before(c.start, of.entry.pins.not_before, Rule::Pinned);
}

}  // namespace trug::ground
