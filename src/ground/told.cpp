// SPDX-License-Identifier: MIT
#include "ground/told.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

namespace trug::ground {
namespace {

bool agrees(const Way& way, const StartDays& days) {
  return can_have(way,
                  {days.sown.has_value(), days.planted.has_value(), days.planted_out.has_value()});
}

int days_outside(Date day, const DateRange& window) {
  if (day < window.from) return days_between(day, window.from);
  return std::max(0, days_between(window.until, day) + 1);
}

// Days by which they miss the way's usual weeks.
int days_off(const Way& way, const Sheet& sheet, const StartDays& days,
             const climate::Season& season) {
  const DateRange window = *season.usual_days(way, sheet);
  const auto out = days.planted_out ? days.planted_out : days.planted;
  if (!way.weeks_under_cover) return days_outside(out ? *out : *days.sown, window);
  const int low = static_cast<int>(std::lround(7 * way.weeks_under_cover->low));
  const int high = static_cast<int>(std::lround(7 * way.weeks_under_cover->high));
  const int late = out ? days_outside(*out, window) : 0;
  if (!days.sown) return late;
  const DateRange starts = out ? DateRange{*out - Days{high}, *out - Days{low} + Days{1}}
                               : DateRange{window.from - Days{high}, window.until - Days{low}};
  return late + days_outside(*days.sown, starts);
}

std::optional<Date> day_of(const Told& told, const std::string& job) {
  const auto found = told.jobs.find(job);
  return found == told.jobs.end() ? std::nullopt : std::optional(found->second);
}

// What the jobs alone tell.
StartDays days_of(const Told& told) {
  const auto sow = day_of(told, "sow"), plant = day_of(told, "plant");
  const auto out = day_of(told, "plant-out");
  if (sow) return {.sown = sow, .planted_out = out};
  if (plant && out) return {.sown = plant, .planted_out = out};
  return {.planted = plant ? plant : out};
}

// One way and its days as they were told.
std::optional<Earlier> earlier_of(const Told& told, const Planting& planting, const Sheet& sheet,
                                  const climate::Season& season) {
  if (!told.start) {
    const StartDays days = days_of(told);
    const auto start = days.sown ? days.sown : days.planted;
    const auto way = start ? way_of(planting, sheet, days, season) : std::nullopt;
    if (!way) return std::nullopt;
    return Earlier{*way, "", *start, days.planted_out.value_or(*start), *start};
  }
  const ToldStart& start = *told.start;
  const bool in_bed = start.raised == Raised::InPlace;
  // What stands was put there once, in whichever way.
  const bool stands = planting.asked.since.has_value();
  const auto is_such = [&](const Way& way, bool by_name) {
    return way.method == start.method && (stands || way.weeks_under_cover.has_value() != in_bed) &&
           (by_name ? way.name == start.way : way.raised == start.raised);
  };
  for (const bool by_name : {true, false}) {
    const auto way =
        std::ranges::find_if(sheet.ways, [&](const Way& one) { return is_such(one, by_name); });
    if (way == sheet.ways.end()) continue;
    return Earlier{static_cast<std::size_t>(way - sheet.ways.begin()), start.group, start.start,
                   start.in_ground, start.lift};
  }
  return std::nullopt;
}

// The kind of thing that was ordered, where the sheet still has a way for it.
std::optional<Method> bought(const Told& told, const Sheet& sheet) {
  if (told.degree < Degree::Bought) return std::nullopt;
  std::optional<Method> method;
  if (told.start) {
    method = told.start->method;
  } else if (day_of(told, "order-seed")) {
    method = Method::Seed;
  } else if (day_of(told, "order-bulbs") || day_of(told, "order-tubers")) {
    method = Method::Bulb;
  } else if (day_of(told, "order-plants")) {
    method = Method::BoughtPlants;
  }
  const bool is_there =
      method && std::ranges::find(sheet.ways, *method, &Way::method) != sheet.ways.end();
  return is_there ? method : std::nullopt;
}

// A pin that says otherwise makes it another start.
bool is_pinned_otherwise(const Pins& pins, const Earlier& told, const Sheet& sheet) {
  const bool in_bed = told.start == told.in_ground;
  return (pins.way && *pins.way != sheet.ways[told.way].name) ||
         (pins.start_on && *pins.start_on != told.start) ||
         (in_bed && pins.plant_on && *pins.plant_on != told.in_ground);
}

// The strips into which the patch was divided; nullopt: it is another patch since.
std::optional<int> strips_told(const Planting& planting, const ToldStart& start) {
  const auto& patch = planting.patch;
  if (!patch || patch->width != start.width || start.length.value() <= 0) return std::nullopt;
  const auto strips = patch->length.value() / start.length.value();
  const bool divides = strips > 0 && patch->length.value() / strips == start.length.value();
  return divides ? std::optional(static_cast<int>(strips)) : std::nullopt;
}

// The plants stay where the plan says nothing of their number: those started wherever they are to
// go, those bought on the same ground, divided as it was.
bool keeps_plants(const Planting& planting, const Told& told) {
  const CropEntry& asked = planting.asked;
  if (!told.start || asked.plants || asked.spacing_cm) return false;
  return told.degree >= Degree::Started ||
         strips_told(planting, *told.start) == sowings_told_of(planting);
}

// What was bought keeps its group and, on the same ground, its number.
void take_bought(const Told& told, const Earlier& earlier, const Planting& planting, Begun& begun) {
  if (told.degree < Degree::Bought) return;
  if (!earlier.group.empty() && !planting.asked.group) begun.group = earlier.group;
  if (keeps_plants(planting, told)) begun.plants = told.start->plants;
  if (told.start && told.degree >= Degree::Started)
    begun.strips = strips_told(planting, *told.start);
}

// What was started keeps its way and its days, as far as nothing else is recorded of it.
void take_started(const Told& told, const Earlier& earlier, const Way& way, const Pins& pins,
                  Begun& begun) {
  const bool recorded_before = begun.in_ground && *begun.in_ground < earlier.start;
  begun.way = earlier.way;
  // Planted in its place it begins there, on whichever day that was.
  const bool begins_there = begun.in_ground && !way.weeks_under_cover;
  if (!begun.start && !recorded_before && !begins_there) {
    begun.start = earlier.start;
    begun.start_told = true;
  }
  const bool out = told.degree == Degree::InGround && way.weeks_under_cover && !begun.in_ground &&
                   begun.in_ground_from.value_or(earlier.in_ground) <= earlier.in_ground &&
                   begun.start <= earlier.in_ground &&
                   begun.ready_from.value_or(earlier.in_ground) <= earlier.in_ground &&
                   pins.plant_on.value_or(earlier.in_ground) == earlier.in_ground;
  if (out) begun.in_ground = earlier.in_ground;
  begun.in_ground_told = out || (begun.start_told && !way.weeks_under_cover);
}

}  // namespace

int sowings_told_of(const Planting& planting) {
  if (planting.asked.successions) return *planting.asked.successions;
  int last = 1;
  for (const Happened& happened : planting.happened) last = std::max(last, happened.succession);
  for (const Told& told : planting.told) last = std::max(last, told.succession);
  return last;
}

std::optional<std::size_t> way_of(const Planting& planting, const Sheet& sheet,
                                  const StartDays& days, const climate::Season& season) {
  std::optional<std::size_t> best;
  int least = std::numeric_limits<int>::max();
  for (std::size_t i = 0; i < sheet.ways.size(); ++i) {
    const Way& way = sheet.ways[i];
    if (!season.usual_days(way, sheet) || !agrees(way, days)) continue;
    const bool pinned = planting.asked.pins.way == way.name;
    const int off = pinned ? -1 : days_off(way, sheet, days, season);
    if (off >= least) continue;
    least = off;
    best = i;
  }
  return best;
}

void take_told(const Planting& planting, const Sheet& sheet, const climate::Season& season,
               const StartDays& recorded, Begun& begun) {
  const auto told = std::ranges::find_if(planting.told, [&](const Told& one) {
    return one.succession == begun.number && one.repeat == begun.repeat;
  });
  if (told == planting.told.end()) return;
  const Pins& pins = planting.asked.pins;
  if (!pins.way && !planting.asked.since) begun.bought = bought(*told, sheet);
  const auto earlier = earlier_of(*told, planting, sheet, season);
  begun.earlier = told->start ? earlier : std::nullopt;
  if (!earlier || planting.asked.since) return;
  const Way& way = sheet.ways[earlier->way];
  take_bought(*told, *earlier, planting, begun);
  // What was told for a day since it was not done was done on that.
  const bool told_since = !begun.start_from || *begun.start_from <= earlier->start;
  const bool stays = told->degree >= Degree::Started && told_since && agrees(way, recorded) &&
                     !is_pinned_otherwise(pins, *earlier, sheet);
  if (stays) take_started(*told, *earlier, way, pins, begun);
}

ToldStart told_start(const Planting& planting, const Sowing& sowing) {
  const Way& way = sowing.raised_by();
  return {.way = way.name,
          .group = sowing.group ? sowing.group->name : "",
          .method = way.method,
          .raised = way.raised,
          .start = sowing.start,
          .in_ground = sowing.in_ground,
          .lift = sowing.lift,
          .at = sowing.offset,
          .length = sowing.length,
          .width = planting.patch ? planting.patch->width : Millimetres{},
          .plants = sowing.plants,
          .variety = planting.asked.variety.value_or("")};
}

}  // namespace trug::ground
