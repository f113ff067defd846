// SPDX-License-Identifier: MIT
// Ground without a use: bed that is no stretch, and stretches that lie bare through the summer.
#include <algorithm>
#include <optional>
#include <vector>

#include "ask/find.h"

namespace trug::ask {
namespace {

constexpr int kLeastUnusedCm = 20;         // of a bed: less is a path or a plank (memory)
constexpr double kMostBareWeeks = 6;       // of summer, by choice (memory)
constexpr double kMostBareWeeksAfter = 4;  // after the last crop (memory)
constexpr Days kSummerBeforeFrost{30};     // summer's ground: from so long before the last frost to
                                           // so long before the first

std::optional<UnusedBed> unused_bed(const View& view, std::size_t bed) {
  const Bed& of = view.plan().beds[bed];
  Millimetres used;
  for (const Stretch& stretch : of.stretches) used += stretch.length;
  const int cm = whole_cm(Millimetres{of.length.value() - used.value()});
  if (cm < kLeastUnusedCm) return std::nullopt;
  return UnusedBed{bed, cm};
}

// The crops that are grown on a stretch, in order, with the days they have it.
struct Tenant {
  std::size_t planting = 0;
  DateRange days;
};

std::vector<Tenant> tenants(const View& view, std::size_t bed, int stretch) {
  std::vector<Tenant> result;
  for (std::size_t i = 0; i < view.plan().plantings.size(); ++i) {
    const auto& patch = view.plan().plantings[i].patch;
    if (!patch || patch->bed != bed || patch->stretch != stretch || !view.grown(i)) continue;
    const auto sowings = view.sowings(i);
    const Date frost = view.garden.climate.frosts(view.plan().flowering_year).first;
    const Date lift = sowings.back().lift;
    const Date until = sowings.back().stands_until_stored() ? std::max(lift, frost) : lift;
    result.push_back({i, {sowings.front().in_ground, until}});
  }
  return result;
}

// The longest of the summer's days on which a stretch lies bare, of those still to come.
std::optional<BareGround> bare_ground(const View& view, std::size_t bed, int stretch) {
  const climate::SeasonFrosts frosts = view.garden.climate.frosts(view.plan().flowering_year);
  const Date until = frosts.first - kSummerBeforeFrost;
  BareGround longest{.bed = bed, .stretch = stretch};
  Date free_from = std::max(frosts.last - kSummerBeforeFrost, view.garden.today);
  std::optional<std::size_t> after;
  const auto look = [&](Date taken_from, double most_weeks) {
    const double weeks = days_between(free_from, std::min(taken_from, until)) / 7.0;
    if (weeks <= most_weeks || weeks <= longest.weeks) return;
    longest.after = after;
    longest.days = {free_from, std::min(taken_from, until)};
    longest.weeks = weeks;
  };
  for (const Tenant& tenant : tenants(view, bed, stretch)) {
    look(tenant.days.from, kMostBareWeeks);
    free_from = std::max(free_from, tenant.days.until);
    after = tenant.planting;
  }
  look(until, after ? kMostBareWeeksAfter : kMostBareWeeks);
  if (longest.weeks <= 0) return std::nullopt;
  return longest;
}

}  // namespace

std::vector<Finding> of_ground(const View& view) {
  std::vector<Finding> list;
  for (std::size_t bed = 0; bed < view.plan().beds.size(); ++bed) {
    const Bed& of = view.plan().beds[bed];
    if (const auto found = unused_bed(view, bed)) list.push_back({of.at, "bed", {}, *found, {}});
    for (std::size_t i = 0; i < of.stretches.size(); ++i) {
      const auto found = bare_ground(view, bed, static_cast<int>(i) + 1);
      if (found) list.push_back({of.stretches[i].at, "stretch", {}, *found, {}});
    }
  }
  return list;
}

}  // namespace trug::ask
