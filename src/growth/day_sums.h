// SPDX-License-Identifier: MIT
// What its days are worth to a crop in one climate, added up once, so that a start costs a search
// for each stage, not its days.
#pragma once

#include <optional>
#include <vector>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/sheet.h"
#include "growth/cover.h"

namespace trug::growth {

// What the model assumes that is no fact of one crop. The defaults are the program's; the
// regression rows of tests/growth run the same engine with other settings.
struct Rules {
  double pot_pace = 0.5;          // pace of the last stage in a pot (memory)
  double chill_from_share = 0.5;  // chilling counts from this share of the first stage (memory)
  int check_days = 7;             // no progress after planting out (memory)
  double frame_gain_c = 2.5;      // an unheated frame over the open (common practice: 2 to 3)
  // Until they can respond, plants outdoors are near the ground, which is warmer than the air by so
  // many degrees for a megajoule of sun above it: 1.5 in April, 2.3 in June at 52 degrees north
  // (memory; DEVELOPERS.md, Calibration).
  double ground_of_sun = 0.055;
  CoverGain cover = {};  // over the bed
  int days_late = 0;     // besides what the place says of its flowers
};

// What the model is told of a crop.
struct Model {
  Growth growth;
  std::optional<Emergence> emergence;
  std::optional<PotLimits> pot;
  std::optional<double> pinch_at_kd;
};

// What the days from the span's first up to each one are worth together.
using Sums = std::vector<double>;

// What the days are worth in one place.
struct AirSums {
  Sums heat;   // degree-days by the ground, slow-down under ten hours included
  Sums last;   // degree-days in the air times day-length pace
  Sums chill;  // effective chilling days
};

// Days on which a stage goes on at `factor` times what one of the sums says.
struct Piece {
  DateRange days;
  const Sums* sums = nullptr;
  double factor = 0;
};
using Pieces = std::vector<Piece>;

struct DaySums {
  DateRange span;
  AirSums open, frame, under_cover;  // the last only where the bed lies under cover
  Sums days;                         // the days themselves, where every one is worth the same
  Sums pace;                         // day-length response of the last stage
  Sums pot_age;                      // degree-days of the age in a pot in the frame
  Sums soil;                         // degree-days of emergence
  Sums light;                        // effective days of crops ruled by light
  // Degree-days of one day in warmth: of growth, of the age in a pot, of emergence.
  double warm_heat = 0, warm_age = 0, warm_soil = 0;

  const AirSums& bed() const { return under_cover.heat.empty() ? open : under_cover; }
  // The sum of the days from `from` up to `until`.
  double sum(const Pieces& pieces, Date from, Date until) const;
  // The first day from `from` on at whose end the sum has reached `need`.
  std::optional<Date> reach(const Pieces& pieces, Date from, double need) const;
};

// `span`: the days that may be asked for. The climate must have temperatures.
DaySums add_up(const climate::Climate& climate, const Model& model, DateRange span,
               const Rules& rules);

}  // namespace trug::growth
