// SPDX-License-Identifier: MIT
// From a start to a first flower: the three-stage model, day by day, with its reckoning kept.
//
// Stages (growth models, 6 and 9): heat until the plant is able to respond; chilling where the crop
// needs it; then heat x day length until the first flower. Where the plant stands decides which
// temperature it feels. Sources of the constants are in the sheets; of the rules, beside each.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/sheet.h"

namespace trug::growth {

// What the model assumes that is no fact of one crop. The defaults are the program's; the
// regression rows of tests/growth run the same engine with other settings.
struct Rules {
  double pot_pace = 0.5;          // pace of the last stage in a pot (memory)
  double chill_from_share = 0.5;  // chilling counts from this share of the first stage (memory)
  int check_days = 7;             // no progress after planting out (memory)
  double frame_gain_c = 2.5;      // an unheated frame over the open (common practice: 2 to 3)
};

enum class StageName { Respond, Chill, Flower };

// One stage's reckoning. Heat in degree-days, chilling in effective days.
struct Stage {
  StageName name = StageName::Respond;
  Date start;
  std::optional<Date> end;  // absent: not finished within the forecast's span
  double need = 0;
  double reached = 0;  // at `end`, or at the end of the span
};

// How one planting is raised, for the model.
struct Raising {
  Raised raised = Raised::InPlace;
  Date start;                     // sown (or planted); perennials: the start of their season
  Date in_ground;                 // planted out; equals start where it is raised in place
  std::optional<Date> cool_from;  // raised in warmth: the day from which it stands in a frame
  bool grown_on = false;          // bought as a plant: already able to respond when it comes
  double oldest_pot_weeks = 1000;
  double pinch_days = 0;        // later first flower, in days
  std::optional<Date> look_on;  // a day on which to note how far it has come
};

struct Forecast {
  std::vector<Stage> stages;
  std::optional<Date> first_flower;  // absent: not within the span
  // Shares of the first and the last stage done by the end of `look_on` (1 where none was asked
  // or the stage needs nothing): a biennial's rosette, an autumn sowing that is too far on.
  double respond_share = 1;
  double flower_share = 0;
};

// Forecasts for one set of constants in one climate. Builds its daily heat once, so that hundreds
// of starts cost only their own days.
class Forecaster {
 public:
  // `span`: the days that may be asked for. The climate must have temperatures.
  Forecaster(const climate::Climate& climate, const Growth& growth, DateRange span,
             Rules rules = {});
  Forecast forecast(const Raising& raising) const;

 private:
  struct Daily {
    float heat_open, heat_frame;    // degree-days, slow-down under ten hours included
    float chill_open, chill_frame;  // effective chilling days
    float pace;                     // day-length response of the last stage
  };
  struct Progress;
  void step(const Raising& raising, Date day, Progress& progress) const;

  Growth growth_;
  DateRange span_;
  Rules rules_;
  double heat_heated_ = 0;  // degree-days a day in warmth
  std::vector<Daily> days_;
};

}  // namespace trug::growth
