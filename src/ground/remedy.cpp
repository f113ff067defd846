// SPDX-License-Identifier: MIT
#include "ground/remedy.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "ground/plan_choice.h"

namespace trug::ground {
namespace {

constexpr int kMostDaysTried = 20, kFewestDaysTried = 7;  // of cutting, before an earlier lift

// All that grows on the ground of a planting.
std::vector<std::size_t> chain_of(const Plan& plan, std::size_t planting) {
  for (auto& chain : chains(plan)) {
    if (std::ranges::find(chain, planting) != chain.end()) return std::move(chain);
  }
  return {};
}

std::string quoted(const std::string& text) {
  std::string result = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') result += '\\';
    result += c;
  }
  return result + '"';
}

}  // namespace

Remedy leave_out(const Plan& plan, std::size_t planting, double costs_stems) {
  std::string crops;
  bool plain = true;  // the short form says all there is to say of what stays
  for (const std::size_t i : chain_of(plan, planting)) {
    if (i == planting) continue;
    const CropEntry& asked = plan.plantings[i].asked;
    crops += (crops.empty() ? "" : ", ") + quoted(asked.crop);
    plain = plain && asked == CropEntry{.crop = asked.crop, .at = asked.at};
  }
  Remedy remedy{.kind = Remedy::Kind::LeaveOut, .costs_stems = costs_stems};
  if (!crops.empty() && plain) remedy.toml = "crops = [" + crops + "]\n";
  return remedy;
}

Remedy remedy_for_ground(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
                         std::size_t planting) {
  const auto follows = plan.plantings[planting].follows;
  if (!follows) return leave_out(plan, planting, 0);
  const std::string& before_it = plan.plantings[*follows].asked.crop;
  if (stays_in_ground(sheets.at(before_it)->life_cycle)) return leave_out(plan, planting, 0);
  // The crop before it gives way after as many days of cutting as still do, a week at least.
  const auto chain = chain_of(plan, planting);
  const auto place = static_cast<std::size_t>(std::ranges::find(chain, planting) - chain.begin());
  Plan trial = with_only(plan, chain);
  const Schedule now = choose_plan(trial, sheets, climate);
  for (int days = kMostDaysTried; days >= kFewestDaysTried; --days) {
    if (now.of(place - 1).empty()) break;
    // The earliest that keeps this many days of cutting on any date the crop before could have.
    Date lift = Date::max();
    for (const Candidate& c : now.weighed[place - 1].candidates->list) {
      lift = std::min(lift, c.timeline.first_cut.likely + Days{days});
    }
    trial.plantings[place - 1].asked.pins.lift_on = lift;
    const Schedule tried = choose_plan(trial, sheets, climate);
    const auto before = tried.of(place - 1);
    if (tried.of(place).empty() || before.empty() || before.back().lift != lift) continue;
    Remedy remedy{.kind = Remedy::Kind::LiftEarlier,
                  .crop = before_it,
                  .day = lift,
                  .costs_stems = stems(now.of(place - 1)) - stems(before)};
    remedy.toml =
        "# in the [[bed.stretch.crop]] of " + remedy.crop + ":\nlift_on = " + iso(lift) + "\n";
    return remedy;
  }
  return leave_out(plan, planting, 0);
}

Remedy remedy_for_year(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
                       std::size_t planting) {
  Plan next = with_only(plan, {planting});
  ++next.flowering_year;
  if (choose_plan(next, sheets, climate).sowings.empty()) {
    return {.kind = Remedy::Kind::OtherPlace};
  }
  Remedy remedy{.kind = Remedy::Kind::NextYear};
  remedy.toml = "flowering_year = " + std::to_string(next.flowering_year) + "\n";
  return remedy;
}

std::optional<Remedy> remedy_for_too_early(const Schedule& schedule, std::size_t planting) {
  const Candidate& chosen = schedule.of(planting).front();
  std::optional<Date> first;
  for (const Candidate& c : schedule.weighed[planting].candidates->list) {
    if (c.way != chosen.way || c.too_early || c.start <= chosen.start) continue;
    if (!first || c.start < *first) first = c.start;
  }
  if (!first) return std::nullopt;
  Remedy remedy{.kind = Remedy::Kind::StartLater, .day = first};
  remedy.toml = "not_before = " + iso(*first) + "\n";
  return remedy;
}

Remedy fewer_plants(const Layout& layout) {
  Remedy remedy{.kind = Remedy::Kind::FewerPlants, .plants = layout.room()};
  remedy.toml = "plants = " + std::to_string(remedy.plants) + "\n";
  return remedy;
}

}  // namespace trug::ground
