// SPDX-License-Identifier: MIT
// What a sheet says of the work that its plants need.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "garden/range.h"

namespace trug {

struct Pinch {
  enum class Advice { Yes, Optional, No };  // Optional: only where the plan asks for it
  Advice advice = Advice::No;
  std::optional<Range> at_cm;
  Range costs_days;  // later first flower when pinched; sheets of format 1
  // Degree-days above the crop's base until it is pinched: since sowing, a tuber's since emergence,
  // a perennial's since planting. Absent: no day can be told.
  std::optional<double> at_kd;
  std::string sign;    // what the plant looks like then
  double cost_kd = 0;  // degree-days that pinching adds to the last stage
};

// What the seed, corm or bulb needs before it is sown or planted.
struct Pretreatment {
  enum class Kind { Chill, Soak, PreSprout, ColdStore };
  Kind kind = Kind::Soak;
  Range days;
  std::string text;     // how, one sentence
  bool needed = false;  // false: it helps
};

struct SecondFlush {
  double weeks_after = 7;  // from cutting back to the next flowers
  double share = 0.3;      // of the year's stems
};

// Side buds taken off, so that the flower that stays is large.
struct Disbud {
  double weeks_before_cut = 3;
  std::string text;
};

// Pods that are cut when they are ripe.
struct Pods {
  double weeks_after_cut = 0;  // from the first cut of its flowers
  bool are_chief = false;      // grown for them: it stays until then, unless the plan says no
};

// The jobs for which a sheet may tell what to look for, by their words (work/job_kinds.h).
inline constexpr std::string_view kSignedJobs[] = {
    "sow",     "prick-out", "pot-on", "harden-off", "plant-out",      "plant",  "thin",
    "support", "uncover",   "disbud", "lift",       "lift-and-store", "divide", "prune"};

}  // namespace trug
