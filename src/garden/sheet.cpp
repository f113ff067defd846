// SPDX-License-Identifier: MIT
#include "garden/sheet.h"

#include <algorithm>
#include <cmath>

namespace trug {

FrostClass frost_class_of(double survives_c) {
  if (survives_c >= -1) return FrostClass::Tender;
  if (survives_c > -5) return FrostClass::HalfHardy;
  return FrostClass::Hardy;
}

FrostClass frost_class(const Sheet& sheet) {
  return sheet.frost_class.value_or(frost_class_of(sheet.survives_c));
}

Needs needs_of(Raised raised) {
  switch (raised) {
    case Raised::InPlace:
      return Needs::Nothing;
    case Raised::Heated:
      return Needs::Warmth;
    case Raised::Frame:
      return Needs::Frame;
    case Raised::NurseryBed:
      return Needs::Nursery;
  }
  return Needs::Nothing;
}

CountsFrom counts_from(LifeCycle life_cycle) {
  if (stays_in_ground(life_cycle)) return CountsFrom::Season;
  return is_planted(life_cycle) ? CountsFrom::Planting : CountsFrom::Sowing;
}

bool is_planted(LifeCycle life_cycle) {
  return life_cycle == LifeCycle::Bulb || life_cycle == LifeCycle::Corm ||
         life_cycle == LifeCycle::Tuber;
}

std::optional<Date> grown_cool_from(const Sheet& sheet, Date sown) {
  constexpr double kUsuallyUp = 14;
  if (sheet.life_cycle != LifeCycle::HardyAnnual) return std::nullopt;
  const double up = sheet.germination_days ? sheet.germination_days->high : kUsuallyUp;
  return sown + Days{static_cast<int>(std::ceil(up))};
}

bool is_harmless(const Sheet& sheet) {
  return std::ranges::all_of(sheet.cautions, [](const Caution& caution) {
    return caution.kind == Caution::Kind::Invasive;
  });
}

bool is_sown_in_place(const Way& way) {
  return way.method == Method::Seed && way.raised == Raised::InPlace;
}

bool stays_in_ground(LifeCycle life_cycle) {
  return life_cycle == LifeCycle::Perennial || life_cycle == LifeCycle::Shrub;
}

bool covers(std::string_view entry, std::string_view key) {
  if (entry == "*" || entry == key) return true;
  return key.starts_with(entry) && key.substr(entry.size()).starts_with(".");
}

const Source* source_of(const Sheet& sheet, std::string_view key) {
  const Source* rest = nullptr;
  for (const Source& source : sheet.sources) {
    for (const std::string& entry : source.covers) {
      if (entry == "*") rest = &source;
      if (entry != "*" && covers(entry, key)) return &source;
    }
  }
  return rest;
}

bool is_usual(const Sheet& sheet, const Way& way) {
  if (way.method != Method::BoughtPlants) return true;
  if (sheet.usual == Usual::Plants || way.usual == Usual::Plants) return true;
  return std::ranges::none_of(sheet.ways, [](const Way& other) {
    return other.method == Method::Seed || other.method == Method::Bulb;
  });
}

bool can_have(const Way& way, Beginning beginning) {
  const bool raised = way.weeks_under_cover.has_value();
  if (way.method == Method::Established) return false;
  if (beginning.sown && way.method != Method::Seed && !raised) return false;
  if (beginning.sown && beginning.planted_out && !raised) return false;
  if (beginning.planted && way.method == Method::Seed) return false;
  return !beginning.planted_out || raised || way.method == Method::BoughtPlants;
}

double cut_share(const Sheet& sheet, int years) {
  if (years < sheet.first_cut_year) return 0;
  if (years >= sheet.full_cut_year) return 1;
  return static_cast<double>(years - sheet.first_cut_year + 1) /
         (sheet.full_cut_year - sheet.first_cut_year + 1);
}

int first_year_in_cut(const Sheet& sheet, std::optional<int> since, int flowering_year) {
  const int years = since ? std::max(1, flowering_year - *since) : 1;
  return flowering_year + sheet.first_cut_year - years;
}

const Group* find_group(const Sheet& sheet, std::string_view name) {
  const auto found = std::ranges::find(sheet.groups, name, &Group::name);
  return found == sheet.groups.end() ? nullptr : &*found;
}

std::string_view to_string(LifeCycle life_cycle) { return word_of(kLifeCycles, life_cycle); }
std::string_view to_string(FrostClass frost_class) { return word_of(kFrostClasses, frost_class); }
std::string_view to_string(Habit habit) { return word_of(kHabits, habit); }
std::string_view to_string(Role role) { return word_of(kRoles, role); }
std::string_view to_string(Raised raised) { return word_of(kRaised, raised); }
std::string_view to_string(Frost frost) { return word_of(kFrosts, frost); }

std::string_view to_string(Needs needs) { return word_of(kNeeds, needs); }

}  // namespace trug
