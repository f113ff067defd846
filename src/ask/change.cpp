// SPDX-License-Identifier: MIT
#include "ask/change.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace trug::ask {
namespace {

bool stands_on(const Planting& planting, std::size_t bed, std::size_t stretch) {
  return planting.patch && planting.patch->bed == bed &&
         planting.patch->stretch == static_cast<int>(stretch) + 1;
}

// Where a planting that follows `after` belongs in the list: bed by bed, stretch by stretch, then
// what grows elsewhere.
std::size_t place_of(const Plan& plan, const AddCrop& c) {
  if (c.after) return *c.after + 1;
  const auto behind = std::ranges::find_if(plan.plantings, [&](const Planting& planting) {
    if (!planting.patch) return true;
    const std::pair place(planting.patch->bed, planting.patch->stretch);
    return place >= std::pair(c.bed, static_cast<int>(c.stretch) + 1);
  });
  return static_cast<std::size_t>(behind - plan.plantings.begin());
}

// One function a change, made on a copy of the plan.
struct Made {
  ChangedPlan& result;

  void operator()(const LeaveOut& c) const {
    std::vector<std::size_t> kept;
    for (std::size_t i = 0; i < plan().plantings.size(); ++i) {
      if (i != c.planting) kept.push_back(i);
      if (i > c.planting) result.place[i] = i - 1;
    }
    result.place[c.planting].reset();
    plan() = with_only(plan(), kept);
  }
  void operator()(const LiftOn& c) const { of(c.planting).pins.lift_on = c.day; }
  void operator()(const Plants& c) const { of(c.planting).plants = c.number; }
  void operator()(const StartAfter& c) const { of(c.planting).pins.not_before = c.day; }
  void operator()(const Sowings& c) const { of(c.planting).successions = c.number; }
  void operator()(const Unpin& c) const { of(c.planting).pins = {}; }
  void operator()(const ByWay& c) const {
    of(c.planting).pins = {.way = c.way, .not_before = c.not_before};
  }
  void operator()(const Instead& c) const {
    Planting& planting = plan().plantings[c.planting];
    const Position at = planting.asked.at;
    planting.asked = c.asked;
    planting.asked.at = at;
    planting.told.clear();
    planting.name = bed_name(plan(), planting) + "/" + c.asked.id.value_or(c.asked.crop);
    result.place[c.planting].reset();
    result.added = c.planting;
  }
  void operator()(const AddCrop& c) const {
    Plan made = with_only(plan(), {});
    add_planting(made, c.bed, c.stretch, c.asked);
    const std::size_t at = place_of(plan(), c);
    auto& plantings = plan().plantings;
    for (std::size_t i = 0; i < plantings.size(); ++i) {
      auto& follows = plantings[i].follows;
      const bool next = follows == c.after && stands_on(plantings[i], c.bed, c.stretch);
      if (next) follows = at;
      if (!next && follows && *follows >= at) ++*follows;
      if (i >= at) result.place[i] = i + 1;
    }
    made.plantings.front().follows = c.after;
    plantings.insert(plantings.begin() + static_cast<std::ptrdiff_t>(at),
                     std::move(made.plantings.front()));
    result.added = at;
  }
  void operator()(const AddStretch& c) const {
    Bed& bed = plan().beds[c.bed];
    Stretch stretch{.length = c.length, .offset = {}, .at = bed.at};
    for (const Stretch& before : bed.stretches) stretch.offset = stretch.offset + before.length;
    bed.stretches.push_back(stretch);
    (*this)(AddCrop{c.bed, bed.stretches.size() - 1, {}, c.asked});
  }
  void operator()(const Frame& c) const { plan().shelter.frame_m2 = c.m2; }
  // Of another year its calendar tells nothing.
  void operator()(const Year& c) const {
    plan().flowering_year = c.flowering;
    plan().remembers = false;
    for (Planting& planting : plan().plantings) planting.told.clear();
  }
  void operator()(const Frost& c) const {
    plan().place.last_frost = c.last;
    plan().place.first_frost = c.first;
  }
  void operator()(const Risk& c) const { plan().place.risk = c.share; }

  Plan& plan() const { return result.plan; }
  CropEntry& of(std::size_t planting) const { return plan().plantings[planting].asked; }
};

// The chain that a planting stands in.
std::vector<std::size_t> chain_of(const std::vector<std::vector<std::size_t>>& all,
                                  std::size_t planting) {
  const auto found = std::ranges::find_if(all, [&](const std::vector<std::size_t>& chain) {
    return std::ranges::find(chain, planting) != chain.end();
  });
  return found == all.end() ? std::vector<std::size_t>{} : *found;
}

}  // namespace

void choose_anew_what_differs(const Plan& before, ChangedPlan& result) {
  result.plan.unchanged = false;
  std::vector<std::optional<std::size_t>> old(result.plan.plantings.size());
  for (std::size_t i = 0; i < result.place.size(); ++i) {
    if (result.place[i]) old[*result.place[i]] = i;
  }
  const auto all_before = chains(before);
  for (const auto& chain : chains(result.plan)) {
    const bool same = std::ranges::all_of(chain, [&](std::size_t i) {
      return old[i] && result.plan.plantings[i].asked == before.plantings[*old[i]].asked &&
             chain_of(all_before, *old[i]).size() == chain.size();
    });
    if (same) continue;
    for (const std::size_t i : chain) result.plan.plantings[i].touched = true;
  }
}

ChangedPlan changed(const Plan& plan, const Change& change) {
  ChangedPlan result{plan, {}, {}};
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) result.place.emplace_back(i);
  std::visit(Made{result}, change);
  choose_anew_what_differs(plan, result);
  return result;
}

}  // namespace trug::ask
