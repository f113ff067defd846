// SPDX-License-Identifier: MIT
// When one crop flowers in one place and year, for any way and start: by heat where the sheet and
// the plan allow it, else by the trade's windows; and until when it is worth cutting.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "base/date.h"
#include "climate/climate.h"
#include "climate/season.h"
#include "garden/crop_spec.h"
#include "garden/sheet.h"
#include "growth/forecaster.h"
#include "growth/winter.h"

namespace trug::growth {

// Heat: the model with averages; Light: that of crops ruled by light. Measured: either with days
// that have happened. Window: the trade's windows from the frost dates, never tighter than three
// weeks either side.
// Recorded: it has been cut.
enum class Basis { Heat, Light, Measured, Window, Recorded };

// A forecast is a window, never a bare day: 10, 50 and 90 years in 100.
struct DateSpread {
  Date early;
  Date likely;
  Date late;
};

// When the soil is warm enough to sow outdoors in the spring of a season.
struct WarmSoil {
  double needed_c = 0;
  std::optional<Date> from;  // it holds that for a week from here on; absent: never
};

struct Timeline {
  Basis basis = Basis::Window;
  std::optional<Date> measured_until;  // last measured day of its life; absent: none was
  // Recorded years that the early and the late days come from (0: from the usual spread), and those
  // of them in which it did not flower.
  int years = 0;
  int years_without = 0;
  Forecast forecast;  // empty on Basis::Window
  DateSpread first_flower;
  DateSpread first_cut;        // the first useful handful
  std::vector<double> shares;  // of a plant's stems by day from the likely first cut to the last,
                               // season's end, heat and the slower autumn taken off
  // Ended by the season (frost, short days, heat), not by the plant.
  bool cut_short = false;
  std::optional<Date> too_hot_from;  // heat ends it on this day
  std::optional<DateRange> pause;    // heat leaves nothing to cut on these days
  std::optional<DateRange> slow;     // heat leaves fewer to cut on these days
  // Half the width of the usual window, and what the weather has in it, in days.
  double spread_days = 0;
  double weather_days = 0;
  Date last_cut() const { return first_cut.likely + Days{static_cast<int>(shares.size()) - 1}; }
};

// What was recorded of a planting after its start.
struct Seen {
  std::optional<Date> pinched;
  std::optional<Date> first_cut;
};

// What a season leaves of a crop that is begun on some day.
struct Worth {
  double chance = 0;        // of a first flower before the season's end
  double cutting_days = 0;  // to expect
};

// One crop in one flowering year. Build once, ask often. The season and the crop's sheet must
// outlive it.
class CropClock {
 public:
  CropClock(const climate::Season& season, const CropSpec& crop, Rules rules = {});
  CropClock(climate::Season&& season, const CropSpec& crop, Rules rules = {}) = delete;
  // With a season of its own: to go once all that ask share one.
  CropClock(const climate::Climate& climate, const Sheet& sheet, const Group* group,
            int flowering_year, Rules rules = {}, std::optional<bool> pinch = {});

  // nullopt: no flower within the flowering year (`forecast_of` tells how far it came).
  std::optional<Timeline> timeline(const Way& way, Date start, Date in_ground,
                                   const Seen& seen = {}) const;
  // Of what stands there without flowering within the year: nothing is cut of it.
  Timeline without_flower(const Way& way, Date start, Date in_ground) const;
  // The reckoning by heat or light alone; nullopt where windows decide.
  std::optional<Forecast> forecast_of(const Way& way, Date start, Date in_ground,
                                      std::optional<Date> pinched = {}) const;
  Worth worth(const Timeline& timeline) const;
  // A window of the sheet as days, for the frosts of the year it belongs to.
  DateRange window_days(const FrostWindow& window, FlowersIn flowers) const {
    return season_->window_days(window, flowers);
  }
  std::optional<DateRange> usual_days(const Way& way) const {
    return season_->usual_days(way, sheet());
  }
  // The cold of the winter before, for what stands in it from `planted`.
  std::optional<Cold> winter_cold(Date planted) const;
  std::optional<Date> winter_judging_day() const { return season_->judging_day(); }
  // The last day worth cutting by frost and light.
  Date season_end() const;
  DateRange season() const { return season_->range(); }
  // nullopt: the place's temperatures are not known.
  std::optional<WarmSoil> warm_soil() const;
  bool by_heat() const { return forecaster_.has_value(); }

 private:
  std::optional<Date> forecast_flower(const Way& way, Date start, Date in_ground, const Seen& seen,
                                      Timeline& result) const;
  void set_spread(Timeline& timeline, Date flower) const;

  CropClock(std::shared_ptr<const climate::Season> season, const CropSpec& crop, Rules rules);

  const Sheet& sheet() const { return crop_.sheet(); }
  const climate::Climate& climate() const { return season_->climate(); }

  std::shared_ptr<const climate::Season> own_season_;
  const climate::Season* season_;
  CropSpec crop_;
  Rules rules_;
  std::optional<Forecaster> forecaster_;
  std::optional<DateRange> light_days_;
  std::optional<Date> spring_;
  std::optional<WinterCold> winter_cold_;
  std::vector<double> curve_;
};

}  // namespace trug::growth
