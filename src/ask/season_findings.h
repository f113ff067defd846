// SPDX-License-Identifier: MIT
// What winter, summer and the soil have against a crop that is grown.
#pragma once

#include <string>
#include <string_view>

#include "ask/finding_rank.h"
#include "base/date.h"
#include "garden/sheet.h"
#include "ground/schedule.h"

namespace trug::ask {

// It should have begun before the plan's first day.
struct TooLate {
  static constexpr std::string_view kCode = "too-late";
  static constexpr Rank kRank = Rank::Broken;
  std::string way;     // that came nearest
  bool sown = false;   // else planted
  Date usual, latest;  // the last usual and the last possible day to begin it
  Date first;          // the first on which it can be begun now
};

// So far on before the winter that frost may take its buds.
struct TooEarly {
  static constexpr std::string_view kCode = "too-early";
  static constexpr Rank kRank = Rank::Mild;
  Date start;
  double share_done = 0;  // of its way to the flower
};

// A biennial that gives half its stems.
struct SmallRosette {
  static constexpr std::string_view kCode = "small-rosette";
  static constexpr Rank kRank = Rank::Mild;
  double share_done = 0;  // of its leaves
};

// Bulbs after a winter of less cold than they need.
struct ShortStems {
  static constexpr std::string_view kCode = "short-stems";
  static constexpr Rank kRank = Rank::Mild;
  double cold_share = 0;  // of what it needs
};

// The winter takes more of it than of any planting, or would if it were left bare.
struct WinterLosses {
  static constexpr std::string_view kCode = "winter-losses";
  static constexpr Rank kRank = Rank::Mild;
  double coldest_c = 0;       // of the place
  double felt_c = 0;          // under snow where it lies
  bool snow_guessed = false;  // the plan does not say whether it does
  double survives_c = 0;      // nine in ten of it
  double bare = 1;            // shares that live
  double alive = 1;           // covered where that helps
  bool covered = false;
  bool mulch = false;  // is what it is covered with; else fleece
  int spare = 0;       // plants to have besides; 0: none, or it stands already
  bool lift = false;   // it can be lifted and stored
};

// A perennial that a summer like this kills.
struct OneYear {
  static constexpr std::string_view kCode = "one-year";
  static constexpr Rank kRank = Rank::Mild;
  double hottest_c = 0;  // the hottest month's mean maximum
  double lives_to_c = 0;
};

// How this garden runs by its records, beside what is reckoned.
struct OwnClockSeen {
  static constexpr std::string_view kCode = "own-clock";
  static constexpr Rank kRank = Rank::Mild;
  ground::OwnClock own;
  // What the plan would say of it: these records on what it says already.
  int days_late = 0;
  double stems_times = 1;
};

// Of what is cut of it hardly anything falls in the weeks of the wish.
struct OutOfWish {
  static constexpr std::string_view kCode = "out-of-wish";
  static constexpr Rank kRank = Rank::Mild;
  Date first_cut;
  double stems = 0;
  double in_wish = 0;  // of them
};

// It keeps its ground through weeks in which heat gives nothing to cut.
struct HeatPause {
  static constexpr std::string_view kCode = "heat-pause";
  static constexpr Rank kRank = Rank::Mild;
  DateRange days;
  Date lift;
  double stems_after = 0;  // of `stems`
  double stems = 0;
};

// Bulbs where no winter chills them in the ground.
struct NeedsCold {
  static constexpr std::string_view kCode = "needs-cold";
  static constexpr Rank kRank = Rank::Mild;
  double coldest_month_c = 0;
  Range weeks;  // in the cold
};

// Sown by a pin before the soil is likely warm enough.
struct ColdSoil {
  static constexpr std::string_view kCode = "cold-soil";
  static constexpr Rank kRank = Rank::Mild;
  Date start;
  double soil_c = 0;
  double wanted_c = 0;
};

}  // namespace trug::ask
