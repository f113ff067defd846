// SPDX-License-Identifier: MIT
#include "ground/tried_ways.h"

#include <algorithm>
#include <cmath>

#include "ground/starts.h"
#include "growth/summer.h"

namespace trug::ground {
namespace {

// The way by which a crop that is said to stand there already is reckoned: as established; bulbs,
// corms and tubers as planted in their usual time.
bool stands_by(const Sheet& sheet, const CropEntry& entry, const Way& way) {
  if (way.method == Method::Established) return true;
  if (!entry.since) return false;
  const auto planted = std::ranges::find(sheet.ways, Method::Bulb, &Way::method);
  return is_planted(sheet.life_cycle) && planted != sheet.ways.end() && &way == &*planted;
}

bool has_shelter(const Setting& setting, const Way& way) {
  switch (way.needs) {
    case Needs::Nothing:
      return true;
    case Needs::Warmth:
      return setting.shelter.heated_trays > 0;
    case Needs::Frame:
      return setting.shelter.frame_m2 > 0;
    case Needs::Nursery:
      return setting.shelter.nursery_m2 > 0;
    case Needs::Tunnel:
      return setting.cover != Cover::None;
  }
  return true;
}

// By the plan, or by what was bought for it.
bool is_asked_for(const CropEntry& entry, const Begun& begun, const Way& way) {
  return entry.since || entry.pins.way == way.name || begun.bought == way.method;
}

}  // namespace

bool is_another(const Sheet& sheet, const CropEntry& entry, const Begun& begun, std::size_t index) {
  const Way& way = sheet.ways[index];
  if (entry.since.has_value() != stands_by(sheet, entry, way)) return true;
  if (begun.way) return *begun.way != index;
  return (entry.pins.way && *entry.pins.way != way.name) ||
         (begun.bought && *begun.bought != way.method);
}

std::optional<Refusal> not_tried(const Setting& setting, const Sheet& sheet, const CropEntry& entry,
                                 const Begun& begun, const Way& way) {
  if (!entry.since && !has_shelter(setting, way)) {
    return Refusal{.rule = Rule::NoShelter, .needs = way.needs};
  }
  if (!is_asked_for(entry, begun, way) && !is_usual(sheet, way)) {
    return Refusal{.rule = Rule::NotUsual};
  }
  return std::nullopt;
}

bool is_better_sown_in_place(const Setting& setting, const Sheet& sheet, const CropEntry& entry,
                             const Way& way, Date start) {
  const Pins& pins = entry.pins;
  if (way.raised != Raised::Heated || pins.way || pins.start_on || pins.plant_on) return false;
  const bool has_place = std::ranges::any_of(sheet.ways, [&](const Way& other) {
    return is_sown_in_place(other) && other.flowers == way.flowers;
  });
  return has_place && growth::comes_up_outdoors(setting.climate, sheet, start);
}

Days grown_after(const Way& way) {
  const double low = way.weeks_under_cover->low;
  return Days{std::lround(7 * std::max(low - kWeeksOff, kGrownShare * low))};
}

DateRange within_reach(const Way& way, Date start, DateRange window) {
  const Range& weeks = *way.weeks_under_cover;
  const DateRange reach{start + grown_after(way),
                        start + Days{std::lround(7 * (weeks.high + kWeeksOff)) + 1}};
  const DateRange both{std::max(reach.from, window.from), std::min(reach.until, window.until)};
  return both.from < both.until ? both : reach;
}

DateRange days_to_try(const Way& way, const Pins& pins, DateRange days) {
  const auto only = [](Date day) { return DateRange{day, day + Days{1}}; };
  if (pins.start_on && !way.weeks_under_cover) return only(*pins.start_on);
  if (pins.plant_on) return only(*pins.plant_on);
  return pins.start_on ? within_reach(way, *pins.start_on, days) : days;
}

std::optional<Date> day_told(const Way& way, Date start, const std::optional<Earlier>& earlier) {
  if (!earlier) return std::nullopt;
  const Date grown = start + grown_after(way);
  const bool stays = start <= earlier->start || grown <= earlier->in_ground;
  return stays ? std::optional(earlier->in_ground) : std::nullopt;
}

int late_weeks(const Way& way, const Begun& begun) {
  if (way.pre_chilled) return 0;
  const bool is_due = begun.start_from || begun.in_ground_from || begun.ready_from;
  if (way.flowers != FlowersIn::SameYear && !is_due) return kMostLateDaysNextYear / 7;
  if (way.method == Method::Bulb) return kLateWeeksBulbs;
  const bool in_bed = !way.weeks_under_cover || way.raised == Raised::NurseryBed;
  const bool is_long = !in_bed && way.weeks_under_cover->low > kLongUnderCoverWeeks;
  return is_long ? kLateWeeksLongUnderCover : kLateWeeks;
}

}  // namespace trug::ground
