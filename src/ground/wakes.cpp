// SPDX-License-Identifier: MIT
#include "ground/wakes.h"

#include <algorithm>

namespace trug::ground {
namespace {

// The way by which it would be planted where it stands.
const Way& in_place(const Sheet& sheet, const Way& way) {
  const auto found = std::ranges::find_if(sheet.ways, [&](const Way& other) {
    return other.method == way.method && other.flowers == way.flowers &&
           other.raised == Raised::InPlace;
  });
  return found == sheet.ways.end() ? way : *found;
}

bool is_too_soon(const Case& of, std::size_t way, Date day) {
  Candidate c{.way = way, .group = of.group, .start = day, .in_ground = day};
  c.stands = true;
  judge(of, c);
  return c.against && (c.against->rule == Rule::FrostRisk || c.against->rule == Rule::ColdSoil);
}

}  // namespace

std::optional<Date> wakes_on(const Case& of, std::size_t way) {
  const Way& own = of.sheet.ways[way];
  const bool by_warmth = of.clock.by_heat() && own.flowers == FlowersIn::SameYear;
  const auto days = of.clock.usual_days(by_warmth ? in_place(of.sheet, own) : own);
  if (!days) return std::nullopt;
  for (Date day = days->from; by_warmth && day < days->until; day += Days{1}) {
    if (!is_too_soon(of, way, day)) return day;
  }
  return days->from + Days{days_between(days->from, days->until) / 2};
}

}  // namespace trug::ground
