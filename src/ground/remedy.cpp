// SPDX-License-Identifier: MIT
#include "ground/remedy.h"

#include <algorithm>
#include <numeric>

namespace trug::ground {
namespace {

constexpr int kMostDaysTried = 20, kFewestDaysTried = 7;  // of cutting, before an earlier lift

// The stretch alone, as a plan of its own.
Plan only_stretch(const Plan& plan, PlantingRef ref) {
  Plan small = plan;
  small.beds = {plan.beds[ref.bed]};
  small.beds[0].stretches = {plan.beds[ref.bed].stretches[ref.stretch]};
  return small;
}

double stems(const PlantingChoice& planting) {
  if (!planting.chosen) return 0;
  const auto by_day = stems_by_day(planting);
  return std::accumulate(by_day.begin(), by_day.end(), 0.0);
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

Remedy leave_out(const Plan& plan, PlantingRef ref, double costs_stems) {
  const Stretch& stretch = plan.beds[ref.bed].stretches[ref.stretch];
  std::string crops;
  bool plain = true;  // the short form says all there is to say of what stays
  for (std::size_t i = 0; i < stretch.crops.size(); ++i) {
    const CropEntry& entry = stretch.crops[i];
    if (i == ref.crop) continue;
    crops += (crops.empty() ? "" : ", ") + quoted(entry.crop);
    const Pins& pins = entry.pins;
    plain = plain && !entry.variety && !entry.group && !entry.id && !entry.plants &&
            !entry.spacing_cm && entry.colours.empty() && !entry.keep && entry.successions == 1 &&
            !entry.person && !pins.way && !pins.start_on && !pins.plant_on && !pins.lift_on &&
            !pins.not_before;
  }
  Remedy remedy{.kind = Remedy::Kind::LeaveOut, .costs_stems = costs_stems};
  if (!crops.empty() && plain) remedy.toml = "crops = [" + crops + "]\n";
  return remedy;
}

Remedy remedy_for_ground(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
                         PlantingRef ref) {
  const Stretch& stretch = plan.beds[ref.bed].stretches[ref.stretch];
  if (ref.crop == 0) return leave_out(plan, ref, 0);
  const std::string& before_it = stretch.crops[ref.crop - 1].crop;
  if (stays_in_ground(sheets.at(before_it)->life_cycle)) return leave_out(plan, ref, 0);
  // The crop before it gives way after as many days of cutting as still do, a week at least.
  const PlanChoice now = choose_plan(only_stretch(plan, ref), sheets, climate);
  for (int days = kMostDaysTried; days >= kFewestDaysTried; --days) {
    Plan trial = only_stretch(plan, ref);
    CropEntry& before = trial.beds[0].stretches[0].crops[ref.crop - 1];
    const PlantingChoice& grown = now.plantings[ref.crop - 1];
    if (!grown.chosen) break;
    // The earliest that keeps this many days of cutting on any date the crop before could have.
    Date lift = Date::max();
    for (const Candidate& c : grown.candidates->list) {
      lift = std::min(lift, c.timeline.first_cut.likely + Days{days});
    }
    before.pins.lift_on = lift;
    const PlanChoice tried = choose_plan(trial, sheets, climate);
    if (!tried.plantings[ref.crop].chosen || !tried.plantings[ref.crop - 1].chosen) continue;
    if (tried.plantings[ref.crop - 1].chosen->lift != lift) continue;
    Remedy remedy{.kind = Remedy::Kind::LiftEarlier,
                  .crop = before_it,
                  .day = lift,
                  .costs_stems = stems(grown) - stems(tried.plantings[ref.crop - 1])};
    remedy.toml =
        "# in the [[bed.stretch.crop]] of " + remedy.crop + ":\nlift_on = " + iso(lift) + "\n";
    return remedy;
  }
  return leave_out(plan, ref, 0);
}

Remedy remedy_for_year(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
                       PlantingRef ref) {
  Plan next = only_stretch(plan, ref);
  next.beds[0].stretches[0].crops = {entry(plan, ref)};
  ++next.flowering_year;
  if (!choose_plan(next, sheets, climate).plantings[0].chosen) {
    return {.kind = Remedy::Kind::OtherPlace};
  }
  Remedy remedy{.kind = Remedy::Kind::NextYear};
  remedy.toml = "flowering_year = " + std::to_string(next.flowering_year) + "\n";
  return remedy;
}

std::optional<Remedy> remedy_for_too_early(const PlantingChoice& planting) {
  const Candidate& chosen = planting.chosen->candidate;
  std::optional<Date> first;
  for (const Candidate& c : planting.candidates->list) {
    if (c.way != chosen.way || c.too_early || c.start <= chosen.start) continue;
    if (!first || c.start < *first) first = c.start;
  }
  if (!first) return std::nullopt;
  Remedy remedy{.kind = Remedy::Kind::StartLater, .day = first};
  remedy.toml = "not_before = " + iso(*first) + "\n";
  return remedy;
}

Remedy fewer_plants(const PlantingChoice& planting) {
  Remedy remedy{.kind = Remedy::Kind::FewerPlants, .plants = planting.layout.room()};
  remedy.toml = "plants = " + std::to_string(remedy.plants) + "\n";
  return remedy;
}

}  // namespace trug::ground
