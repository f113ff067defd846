// SPDX-License-Identifier: MIT
// Every way and date on which a crop could be grown in a place and year, each kept to the rules;
// and for what is refused, the rule it broke with both numbers.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "garden/sheet.h"
#include "ground/begun.h"
#include "ground/refusal.h"
#include "growth/crop_clock.h"

namespace trug::ground {

// The share of plants that survive and are fit to cut (memory: 0.7 to 0.9).
inline constexpr double kFitShare = 0.75;

// One way and date to start a crop once.
struct Candidate {
  std::size_t way = 0;           // index in the sheet
  const Group* group = nullptr;  // null: the crop has no groups
  Date start;                    // sown; planted where it is not sown
  Date in_ground;
  DateRange window;  // the trade's for `in_ground`; where it has none, that day
  growth::Timeline timeline;
  Date lift_from, lift_to;
  double stem_factor = 1;  // of a plant's stems: half for a small rosette, less for a young plant
  double stems_per_plant = 0;  // over the whole flowering, before losses
  bool too_early = false;      // more than two fifths to its flower before the winter
  bool small_rosette = false;
  bool overwinters = false;   // stands outdoors through the cold of the winter before
  double alive = 1;           // of its plants, after that winter, covered where it is called for
  bool under_fleece = false;  // that winter calls for a cover: fleece, or mulch
  bool cold_soil = false;     // sown outdoors in spring before the soil is likely warm enough
  bool needs_cold_store = false;     // a bulb that no winter chills in the ground
  std::optional<growth::Cold> cold;  // the winter's against what it needs
  bool pinched = false;
  bool starved = false;   // it stands in its pot for too long: fewer stems
  bool one_year = false;  // it does not live through the summer
  // Stands or is pinned there whatever rule it breaks: the first of them.
  std::optional<Refusal> against;
  Cover cover = Cover::None;  // over its bed
  bool stands = false;        // stood there before: nothing of it is bought, raised or planted
  bool young_plants = false;  // in hand: nothing of it is bought or raised
  // It stands there all the same, but does not flower within the year: its timeline holds no stems.
  bool without_flower = false;
  Begun begun;         // what was known of it
  int off_record = 0;  // days by which the first cut would have come after the recorded one

  // Of the winter's cold it needs: under the whole its stems are short.
  double cold_share() const { return cold ? std::min(1.0, cold->share()) : 1; }
  // Days by which it goes into the ground after the window, or before it (only a pin asks for
  // that).
  int days_late() const { return std::max(0, days_between(window.until, in_ground) + 1); }
  int days_early() const { return std::max(0, days_between(in_ground, window.from)); }
  Date window_middle() const {
    return window.from + Days{(days_between(window.from, window.until) - 1) / 2};
  }
  // Likely stems of so many plants over the whole flowering, after losses.
  double stems_of(int plants) const { return stems_per_plant * stem_factor * plants * kFitShare; }
};

// What one way gave by the rules: how many candidates, and the refusal nearest to being allowed.
struct WayReport {
  std::size_t way = 0;
  const Group* group = nullptr;
  int allowed = 0;
  std::optional<Refusal> refusal;
};

// Where the candidates of a sowing of which something is known stand in the list.
struct KnownSowing {
  int number = 0;  // in its succession
  std::size_t from = 0, until = 0;
};

struct Candidates {
  // Way by way, group by group, by the day in the ground; then those of each known sowing of a
  // succession.
  std::vector<Candidate> list;
  std::vector<WayReport> reports;
  std::vector<KnownSowing> known = {};  // by number
  // Those of a succession's other sowings, or of all.
  std::span<const Candidate> free() const {
    return std::span(list).first(known.empty() ? list.size() : known.front().from);
  }
};

// What candidates depend on besides the crop: one for all plantings of a plan.
struct Setting {
  const climate::Climate& climate;
  const Place& place;
  const Work& work;
  Shelter shelter = {};
  int flowering_year = 0;
  std::optional<Date> first_day = {};  // nothing is begun before it; absent: any day
  std::optional<Date> today = {};  // what is begun anew, or from plants in hand, is not before it
  std::optional<Date> wish_end = {};  // the last day of the wish; absent: there is none
  growth::Rules rules = {};           // but for what the cover adds
  Cover cover = Cover::None;          // over the bed
};

// Where the coldest month averages more than this, bulbs are not chilled in the ground; they are
// kept in the cold for so many days first (common practice).
inline constexpr double kMildWinterC = 10;
inline constexpr Range kColdStoreDays{56, 84};
// Those days: the sheet's where it has a cold storage.
Range cold_store_days(const Sheet& sheet);
// Starts later than the window by up to this are weighed.
inline constexpr int kLateWeeks = 10;
// Bulbs, corms and tubers do not keep: so much later than their window at most (memory).
inline constexpr int kLateWeeksBulbs = 4;
// Perennials and shrubs planted in their flowering year settle in for so long before they are cut,
// where windows decide (memory).
inline constexpr int kSettleDays = 42;
// Plants that stand under cover for longer than this (over the winter) may be set out only this
// much late: sown any later they are another way of raising the crop.
inline constexpr int kLongUnderCoverWeeks = 12;
inline constexpr int kLateWeeksLongUnderCover = 3;

// `known`: as begun(); empty: nothing is. Under a cover all goes by its warmer air and its frosts,
// but for the ways that want one: their windows are written for it. Where the plan pins a way or a
// day and the rules leave nothing of it, those nearest to being allowed stand all the same.
Candidates candidates(const Setting& setting, const Sheet& sheet, const CropEntry& entry,
                      const std::vector<Begun>& known = {});

}  // namespace trug::ground
