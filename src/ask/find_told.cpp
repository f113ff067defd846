// SPDX-License-Identifier: MIT
// What the plan says now of a sowing that its calendar told otherwise, and that has begun since.
#include <algorithm>
#include <optional>
#include <string>

#include "ask/find.h"

namespace trug::ask {
namespace {

using ground::Sowing;

const Told* told_of(const Planting& planting, const Sowing& sowing) {
  const auto told = std::ranges::find_if(planting.told, [&](const Told& one) {
    return one.succession == sowing.number && one.repeat == sowing.begun.repeat;
  });
  return told == planting.told.end() ? nullptr : &*told;
}

}  // namespace

// Figures of the plan that were not there when it began are no contradiction.
std::optional<AgainstTold> against_told(const View& view, const Sowing& sowing) {
  const Planting& planting = view.plan().plantings[sowing.planting];
  const Told* told = told_of(planting, sowing);
  if (told == nullptr || told->degree < Degree::Started || !told->start) return std::nullopt;
  const ToldStart& then = *told->start;
  AgainstTold found{.started = then.start};
  const auto compare = [&](const std::string& key, const std::string& before,
                           const std::string& now) {
    if (!before.empty() && !now.empty() && before != now)
      found.changed.push_back({key, before, now});
  };
  compare("way", then.way, sowing.raised_by().name);
  compare("group", then.group, sowing.group == nullptr ? "" : sowing.group->name);
  compare("variety", then.variety, planting.asked.variety.value_or(""));
  compare("plants", std::to_string(then.plants), std::to_string(sowing.plants));
  if (found.changed.empty()) return std::nullopt;
  return found;
}

}  // namespace trug::ask
