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
#include "growth/cover.h"

namespace trug::growth {

// What the model assumes that is no fact of one crop. The defaults are the program's; the
// regression rows of tests/growth run the same engine with other settings.
struct Rules {
  double pot_pace = 0.5;          // pace of the last stage in a pot (memory)
  double chill_from_share = 0.5;  // chilling counts from this share of the first stage (memory)
  int check_days = 7;             // no progress after planting out (memory)
  double frame_gain_c = 2.5;      // an unheated frame over the open (common practice: 2 to 3)
  CoverGain cover = {};           // over the bed
};

// What the model is told of a crop.
struct Model {
  Growth growth;
  std::optional<Emergence> emergence;
  std::optional<PotLimits> pot;
  std::optional<double> pinch_at_kd;
};

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
  double pinch_days = 0;           // later first flower, in days
  double pinch_kd = 0;             // and in degree-days of the last stage
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

// Forecasts for one set of constants in one climate. Adds up what the days are worth once, so that
// a start costs a search for each stage, not its days.
class Forecaster {
 public:
  // `span`: the days that may be asked for. The climate must have temperatures.
  Forecaster(const climate::Climate& climate, const Model& model, DateRange span, Rules rules = {});
  Forecaster(const climate::Climate& climate, const Growth& growth, DateRange span,
             Rules rules = {})
      : Forecaster(climate, Model{.growth = growth}, span, rules) {}
  Forecast forecast(const Raising& raising) const;

 private:
  // What the days from the span's first up to each one are worth together.
  using Sums = std::vector<double>;
  // What the days are worth in air so much warmer than the open.
  struct Air {
    double gain_c = 0;
    Sums heat;   // degree-days, slow-down under ten hours included
    Sums last;   // heat times day-length pace
    Sums chill;  // effective chilling days
  };
  // The degree-days of one day, before its light counts.
  struct DayHeats {
    double open = 0, frame = 0, bed = 0, age = 0;
  };
  // Days on which a stage goes on at `factor` times what one of the sums says.
  struct Piece {
    DateRange days;
    const Sums* sums = nullptr;
    double factor = 0;
  };
  using Pieces = std::vector<Piece>;
  struct Life;

  std::vector<Air*> airs();
  void reserve();
  DayHeats heats_of(const climate::Climate& climate, Date day) const;
  void add_day(const climate::Climate& climate, Date day, const DayHeats& heats);
  Life life(const Raising& raising) const;
  Stage stage(StageName name, const Pieces& pieces, std::optional<Date> start, double need) const;
  Stage chilling(const Raising& raising, const Life& life, bool responds_at_once) const;
  Stage light(const Raising& raising) const;
  Date pot_is_too_old(const Raising& raising, const Life& life) const;
  void by_heat(const Raising& raising, const Life& life, Forecast& result) const;
  void tell_days(const Raising& raising, const Life& life, Forecast& result) const;
  // The sum of the days from `from` up to `until`.
  double sum(const Pieces& pieces, Date from, Date until) const;
  // The first day from `from` on at whose end the sum has reached `need`.
  std::optional<Date> reach(const Pieces& pieces, Date from, double need) const;

  Model model_;
  DateRange span_;
  Rules rules_;
  double heat_heated_ = 0;  // degree-days a day in warmth
  double age_heated_ = 0;   // the same of the age in the pot
  double soil_heated_ = 0;  // and of emergence
  Air open_, frame_, bed_;  // the bed's own air only where it lies under cover
  Sums days_;               // the days themselves, where every one is worth the same
  Sums pace_;               // day-length response of the last stage
  Sums age_frame_;          // degree-days of the age in the pot
  Sums soil_;               // degree-days of emergence
  Sums light_;              // effective days of crops ruled by light
};

}  // namespace trug::growth
