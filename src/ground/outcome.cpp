// SPDX-License-Identifier: MIT
#include "ground/outcome.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "growth/harvest_curve.h"
#include "growth/winter.h"

namespace trug::ground {
namespace {

constexpr double kBudsAtRisk = 0.6;  // of what is far on before the winter (memory)
constexpr double kStarved = 0.6;     // of the stems of what stood too long in its pot (memory)
constexpr int kLeafDays = 42;        // bulbs kept: until the leaves have died (common practice)

// What is not yet cut in full for its age gives a share; the figures of young plants that a way
// has of its own allow for it.
double years_share(const Case& of, const Way& way) {
  if (!stays_in_ground(of.sheet.life_cycle)) return 1;
  const auto& since = of.entry.since;
  const int years = since ? std::max(1, of.setting.flowering_year - *since) : 1;
  const double share = cut_share(of.sheet, years);
  return share > 0 && !since && way.stems_per_plant ? 1 : share;
}

void set_lift(const Case& of, Candidate& c) {
  const Sheet& sheet = of.sheet;
  const Date last = c.timeline.last_cut();
  const Date fewest =
      c.timeline.first_cut.likely +
      Days{growth::fewest_cutting_days(sheet, static_cast<int>(c.timeline.shares.size()) - 1)};
  c.lift_from = sheet.habit == Habit::Single ? last : std::min(fewest, last);
  c.lift_to = last;
  if (stays_in_ground(sheet.life_cycle)) {
    c.lift_from = c.lift_to = std::max(last, of.clock.season().until - Days{1});
  } else if (is_planted(sheet.life_cycle) && of.entry.keep) {
    c.lift_from = c.lift_to = last + Days{kLeafDays};
  }
  if (sheet.pods && of.entry.pods.value_or(sheet.pods->are_chief)) {
    const Date ripe =
        c.timeline.first_cut.likely + Days{std::lround(7 * sheet.pods->weeks_after_cut)};
    c.lift_from = std::max(c.lift_from, ripe);
    c.lift_to = std::max(c.lift_to, ripe);
  }
  if (of.entry.pins.lift_on) {
    // The gardener may lift before it is worth it, and is told so, but not what is not there yet.
    c.lift_from = c.lift_to = std::max(*of.entry.pins.lift_on, c.in_ground + Days{1});
  }
  if (of.begun.lift) c.lift_from = c.lift_to = *of.begun.lift;
  if (of.begun.gone_by && c.in_ground < *of.begun.gone_by) {
    const Date by = *of.begun.gone_by - Days{of.setting.work.days_between_crops};
    c.lift_to = std::min(c.lift_to, by);
    c.lift_from = std::min(c.lift_from, by);
  }
}

void set_window(const Case& of, Candidate& c, const Way& way) {
  const auto usual = c.stands ? std::nullopt : of.clock.usual_days(way);
  c.window = usual.value_or(DateRange{c.in_ground, c.in_ground + Days{1}});
}

void set_stems(const Case& of, Candidate& c, const Way& way) {
  c.stems_per_plant = CropSpec(of.sheet, of.group).stems_per_plant(way).middle();
  const double lived = std::min(1.0, c.alive / growth::kUsuallyAlive);
  c.stem_factor = years_share(of, way) * c.cold_share() * lived * (c.small_rosette ? 0.5 : 1) *
                  (c.starved ? kStarved : 1) * (c.too_early ? kBudsAtRisk : 1) *
                  of.setting.place.stems_times;
}

}  // namespace

void set_outcome(const Case& of, Candidate& c, const Way& way) {
  set_stems(of, c, way);
  set_lift(of, c);
  set_window(of, c, way);
}

}  // namespace trug::ground
