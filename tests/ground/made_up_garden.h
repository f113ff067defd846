// SPDX-License-Identifier: MIT
// A maritime garden and a handful of crops made up for the tests of ground/. The crops behave like
// those they are named after, near enough to try the choice; their figures are memory.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "climate/climate.h"
#include "garden/plan.h"
#include "garden/sheet.h"
#include "ground/candidates.h"
#include "lowland.h"

namespace trug::ground {

inline FrostWindow after_last(double earliest, double latest) {
  return {{earliest, Frost::Last}, {latest, Frost::Last}};
}
inline FrostWindow after_first(double earliest, double latest) {
  return {{earliest, Frost::First}, {latest, Frost::First}};
}

inline Way sown_in_place(std::string name, FrostWindow window,
                         FlowersIn flowers = FlowersIn::SameYear) {
  Way way;
  way.name = std::move(name);
  way.window = window;
  way.flowers = flowers;
  return way;
}

inline Way raised(std::string name, Raised where, Range weeks, FrostWindow window,
                  FlowersIn flowers = FlowersIn::SameYear) {
  Way way = sown_in_place(std::move(name), window, flowers);
  way.raised = where;
  way.weeks_under_cover = weeks;
  return way;
}

inline Sheet crop(std::string name, LifeCycle life_cycle, double survives_c, Habit habit,
                  Range cutting_weeks, Range stems_per_plant, Range spacing_cm) {
  Sheet sheet;
  sheet.name = std::move(name);
  sheet.life_cycle = life_cycle;
  sheet.survives_c = survives_c;
  sheet.habit = habit;
  sheet.cutting_weeks = cutting_weeks;
  sheet.stems_per_plant = stems_per_plant;
  sheet.spacing_cm = spacing_cm;
  sheet.roles = {Role::Secondary};
  return sheet;
}

inline DayLengthResponse long_days() { return {.kind = DayLengthResponse::Kind::Long}; }

inline Sheet cornflower() {
  Sheet sheet = crop("cornflower", LifeCycle::HardyAnnual, -15, Habit::CutAndComeAgain, {5, 7},
                     {15, 25}, {20, 25});
  sheet.growth = Growth{4, 24, 235, 435, long_days(), std::nullopt};
  sheet.ways = {sown_in_place("in autumn", after_first(-7, -2), FlowersIn::NextYear),
                sown_in_place("in spring", after_last(-8, 3)),
                raised("modules in summer", Raised::Frame, {4, 6}, after_last(2, 9))};
  return sheet;
}

inline Sheet sweet_william() {
  Sheet sheet =
      crop("sweet william", LifeCycle::Biennial, -20, Habit::Limited, {4, 5}, {6, 10}, {25, 30});
  sheet.growth = Growth{3, 24, 900, 600, long_days(), 50.0};
  sheet.ways = {
      raised("nursery bed", Raised::NurseryBed, {10, 14}, after_first(-7, -2), FlowersIn::NextYear),
      sown_in_place("in place", after_last(2, 8), FlowersIn::NextYear)};
  return sheet;
}

inline Sheet zinnia() {
  Sheet sheet = crop("zinnia", LifeCycle::TenderAnnual, 0, Habit::CutAndComeAgain, {8, 12},
                     {12, 20}, {25, 30});
  sheet.growth = Growth{8, 28, 220, 350, {}, std::nullopt};
  sheet.germination_days = Range{6, 10};
  sheet.ways = {raised("in warmth", Raised::Heated, {3, 4}, after_last(1, 4)),
                sown_in_place("in place", after_last(1, 5))};
  return sheet;
}

inline Sheet cosmos() {
  Sheet sheet = crop("cosmos", LifeCycle::TenderAnnual, -1, Habit::CutAndComeAgain, {10, 14},
                     {20, 30}, {30, 40});
  sheet.growth = Growth{6, 27, 250, 370, {}, std::nullopt};
  sheet.germination_days = Range{7, 10};
  sheet.ways = {raised("in warmth", Raised::Heated, {4, 6}, after_last(1, 4)),
                sown_in_place("in place", after_last(1, 5))};
  return sheet;
}

inline Sheet snapdragon() {
  Sheet sheet =
      crop("snapdragon", LifeCycle::HalfHardyAnnual, -4, Habit::Limited, {4, 6}, {5, 8}, {20, 25});
  sheet.growth = Growth{4, 25, 450, 480, long_days(), std::nullopt};
  sheet.ways = {raised("in warmth", Raised::Heated, {8, 9}, after_last(-2, 3))};
  return sheet;
}

inline Sheet sunflower() {
  Sheet sheet =
      crop("sunflower", LifeCycle::TenderAnnual, -1, Habit::Single, {2, 2}, {1, 1}, {15, 20});
  sheet.growth = Growth{4, 28, 300, 560, {}, std::nullopt};
  sheet.germination_days = Range{6, 10};
  sheet.ways = {sown_in_place("in place", after_last(0, 10))};
  return sheet;
}

// Without constants: its first flower comes from the trade's window.
inline Sheet aster() {
  Sheet sheet =
      crop("aster", LifeCycle::HalfHardyAnnual, -3, Habit::Limited, {3, 4}, {4, 8}, {25, 30});
  sheet.ways = {raised("in warmth", Raised::Heated, {5, 6}, after_last(0, 4))};
  sheet.ways[0].first_flower = after_last(11, 15);
  return sheet;
}

inline Sheet tulip() {
  Sheet sheet = crop("tulip", LifeCycle::Bulb, -25, Habit::Single, {2, 2}, {1, 1}, {10, 10});
  Way way = sown_in_place("bulbs", after_first(2, 8), FlowersIn::NextYear);
  way.method = Method::Bulb;
  way.first_flower = after_last(-3, -1);
  sheet.ways = {way};
  return sheet;
}

inline Sheet daffodil() {
  Sheet sheet = tulip();
  sheet.name = "daffodil";
  sheet.ways[0].window = after_first(-7, -2.5);
  sheet.ways[0].first_flower = after_last(-8, -5);
  return sheet;
}

inline Sheet foxglove() {
  Sheet sheet =
      crop("foxglove", LifeCycle::Biennial, -22, Habit::Limited, {3, 4}, {4, 7}, {30, 40});
  sheet.growth = Growth{3, 24, 850, 520, long_days(), 50.0};
  sheet.ways = {raised("nursery bed", Raised::NurseryBed, {12, 15}, after_first(-8, -2),
                       FlowersIn::NextYear)};
  return sheet;
}

inline Sheet calendula() {
  Sheet sheet = crop("calendula", LifeCycle::HardyAnnual, -5, Habit::CutAndComeAgain, {8, 13},
                     {15, 25}, {25, 30});
  sheet.growth = Growth{4, 24, 175, 300, long_days(), std::nullopt};
  sheet.ways = {sown_in_place("in spring", after_last(-8, 6)),
                raised("modules in early summer", Raised::Frame, {4, 5}, after_last(2, 9))};
  return sheet;
}

inline Sheet statice() {
  Sheet sheet = crop("statice", LifeCycle::HalfHardyAnnual, -4, Habit::CutAndComeAgain, {8, 10},
                     {8, 14}, {30, 30});
  sheet.growth = Growth{5, 27, 480, 785, long_days(), std::nullopt};
  sheet.roles = {Role::Filler};
  sheet.ways = {raised("in warmth", Raised::Heated, {8, 10}, after_last(-3, 1))};
  return sheet;
}

inline Sheet peony() {
  Sheet sheet = crop("peony", LifeCycle::Perennial, -30, Habit::Limited, {3, 3}, {6, 10}, {80, 90});
  Way way;
  way.name = "established";
  way.method = Method::Established;
  way.first_flower = after_last(1, 3);
  sheet.ways = {way};
  return sheet;
}

// Room to raise anything.
inline Shelter everything() {
  return {.given = true, .heated_trays = 100, .frame_m2 = 100, .nursery_m2 = 100};
}

// A place, a gardener and a year to ask for candidates in.
struct Garden {
  Place place = lowland();
  Work work = {};
  int year = 2027;
  std::optional<Date> first_day = {};

  // What stands already is asked for as standing for years.
  Candidates ask(const Sheet& sheet, CropEntry entry = {}) const {
    const auto climate = climate::Climate::from(place);
    if (sheet.ways.front().method == Method::Established) entry.since = year - 5;
    return candidates({.climate = climate,
                       .place = place,
                       .work = work,
                       .shelter = everything(),
                       .flowering_year = year,
                       .first_day = first_day},
                      sheet, entry);
  }
};

}  // namespace trug::ground
