// SPDX-License-Identifier: MIT
// From a start to a first flower, stage by stage, with its reckoning kept.
//
// Stages (growth models, 6 and 9): heat until the plant is able to respond; chilling where the crop
// needs it; then heat x day length until the first flower. Crops ruled by light have one stage
// instead: warm days after the longest one. Beside these go on, where the crop has the figures, the
// warmth of the soil until shoots show, the age in the pot and the heat until it is pinched. Where
// the plant stands decides which temperature it feels. Sources of the constants are in the sheets;
// of the rules, beside each.
#pragma once

#include <optional>
#include <vector>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/sheet.h"
#include "growth/day_sums.h"

namespace trug::growth {

enum class StageName { Emerge, Respond, Chill, Flower, Light };

// One stage's reckoning. Heat in degree-days, chilling and light in effective days.
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
  bool pre_chilled = false;       // a bulb from cold storage
  double oldest_pot_weeks = 1000;
  double pinch_days = 0;  // later first flower, in days
  double pinch_kd = 0;    // and in degree-days of the last stage
  // The day on which it was far enough on to be pinched, and that on which it was.
  std::optional<Date> pinch_due, pinched_on;
  std::optional<DateRange> light;  // on which crops ruled by light come on
  std::optional<Date> look_on;     // a day on which to note how far it has come
};

struct Forecast {
  std::vector<Stage> stages;
  std::optional<Date> first_flower;  // absent: not within the span
  // Shares of the first and the last stage done by the end of `look_on` (1 where none was asked
  // or the stage needs nothing): a biennial's rosette, an autumn sowing that is too far on.
  double respond_share = 1;
  double flower_share = 0;
  // Days that the crop's figures tell; absent: they do not, or the day does not come in the span.
  std::optional<Date> pinched;          // far enough on to be pinched
  std::optional<Date> outgrows_module;  // while it stands in a pot
  std::optional<Date> outgrows_pot;

  // The last day of a stage; absent: it has none such, or does not finish it.
  std::optional<Date> end_of(StageName name) const;
};

// Forecasts for one set of constants in one climate. Build once, ask often.
class Forecaster {
 public:
  // `span`: the days that may be asked for. The climate must have temperatures.
  Forecaster(const climate::Climate& climate, const Model& model, DateRange span, Rules rules = {});
  Forecaster(const climate::Climate& climate, const Growth& growth, DateRange span,
             Rules rules = {})
      : Forecaster(climate, Model{.growth = growth}, span, rules) {}
  Forecast forecast(const Raising& raising) const;

 private:
  // What its places are worth to each stage, from its start to the span's end.
  struct Life {
    Pieces emerge, respond, chill, flower, pot;
  };

  Life life(const Raising& raising) const;
  Stage stage(StageName name, const Pieces& pieces, std::optional<Date> start, double need) const;
  Stage responding(const Raising& raising, const Life& life) const;
  Stage chilling(const Raising& raising, const Life& life) const;
  Stage flowering(const Raising& raising, const Life& life, std::optional<Date> ready) const;
  Stage light(const Raising& raising) const;
  Date pot_is_too_old(const Raising& raising, const Life& life) const;
  void by_heat(const Raising& raising, const Life& life, Forecast& result) const;
  void look(const Raising& raising, const Life& life, std::optional<Date> ready,
            Forecast& result) const;
  void tell_days(const Raising& raising, const Life& life, Forecast& result) const;
  Date first_day(const Raising& raising) const;
  bool responds_at_once(const Raising& raising) const;
  bool is_pre_chilled(const Raising& raising) const;
  const Pieces& flower_pieces(const Raising& raising, const Life& life) const;

  Model model_;
  Rules rules_;
  DaySums sums_;
};

}  // namespace trug::growth
