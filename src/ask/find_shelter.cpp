// SPDX-License-Identifier: MIT
// What is raised against the room there is for it: trays in the warmth, frames, a nursery bed.
#include <algorithm>
#include <map>
#include <optional>
#include <vector>

#include "ask/find.h"

namespace trug::ask {
namespace {

using ground::Sowing;

// A seed tray holds so many modules, or pots of 9 cm (memory).
constexpr double kModulesATray = 40, kPotsATray = 15;
// A square metre of frame holds so many trays, of nursery bed so many plants (memory).
constexpr double kTraysAFrame = 11, kPlantsANursery = 40;

// The trays a sowing takes on a day. Until they are pricked out seedlings stand in one at most.
double trays(const Sowing& sowing, Date day) {
  const Way& way = sowing.raised_by();
  const double weeks = days_between(sowing.start, day) / 7.0;
  if (way.method == Method::Bulb) return sowing.plants / kPotsATray;
  if (way.pot_on_weeks && weeks >= *way.pot_on_weeks) return sowing.plants / kPotsATray;
  const double whole = sowing.plants / kModulesATray;
  return way.prick_out_weeks && weeks < *way.prick_out_weeks ? std::min(1.0, whole) : whole;
}

// In the unit of the plan's own figure for the place.
double taken(const Sowing& sowing, Date day) {
  switch (sowing.raised_by().raised) {
    case Raised::InPlace:
      return 0;
    case Raised::Heated:
      return trays(sowing, day);
    case Raised::Frame:
      return trays(sowing, day) / kTraysAFrame;
    case Raised::NurseryBed:
      return sowing.plants / kPlantsANursery;
  }
  return 0;
}

// Week by week as each ends, by its Monday.
std::map<Date, double> taken_by_week(const View& view, Raised place) {
  std::map<Date, double> weeks;
  for (const Sowing& sowing : view.chosen.sowings) {
    if (sowing.stands || sowing.raised_by().raised != place) continue;
    const Date last = sowing.in_ground - Days{1};
    for (Date monday = monday_of(sowing.start); monday <= last; monday += Days{7}) {
      weeks[monday] += taken(sowing, std::min(monday + Days{6}, last));
    }
  }
  return weeks;
}

std::optional<Overfull> overfull(const View& view, Raised place, double room) {
  Overfull found{.place = place, .room = room};
  for (const auto& [monday, wanted] : taken_by_week(view, place)) {
    if (wanted <= room || monday + Days{6} < view.garden.today) continue;
    found.mondays.push_back(monday);
    found.wanted = std::max(found.wanted, wanted);
  }
  if (found.mondays.empty()) return std::nullopt;
  return found;
}

}  // namespace

std::vector<Finding> of_shelter(const View& view) {
  const Plan& plan = view.plan();
  const Shelter& shelter = plan.shelter;
  const Position at = shelter.given ? shelter.at : Position{plan.file, 1, 1};
  std::vector<Finding> list;
  const auto look = [&](Raised place, double room) {
    if (auto found = overfull(view, place, room)) list.push_back({at, "shelter", {}, *found, {}});
  };
  look(Raised::Heated, shelter.heated_trays);
  look(Raised::Frame, shelter.frame_m2);
  look(Raised::NurseryBed, shelter.nursery_m2);
  return list;
}

}  // namespace trug::ask
