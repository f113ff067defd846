// SPDX-License-Identifier: MIT
// One flowering year of a place: when it begins and ends, its frosts and its winters.
#pragma once

#include <array>
#include <compare>
#include <optional>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/sheet.h"

namespace trug::climate {

// What a cover does to the days of a season.
struct Sheltered {
  int frost_days = 0;  // the last frost so much earlier, the first so much later
  double of_sun = 0;   // warmer air, degrees for a megajoule of sun above the air
  auto operator<=>(const Sheltered&) const = default;
};

// Reckoned once for a plan and asked by every crop. The climate must outlive it; like the climate
// it belongs to one thread.
class Season {
 public:
  Season(const Climate& climate, int flowering_year, Sheltered under = {});
  Season(Climate&& climate, int flowering_year, Sheltered under = {}) = delete;

  const Climate& climate() const { return *climate_; }
  int flowering_year() const { return flowering_year_; }

  // 1 January to 31 December; south 1 July to 30 June.
  DateRange range() const { return range_; }
  // All days on which what flowers in this season may live: from two seasons before it to its end.
  DateRange lives() const { return lives_; }
  // Average garden frosts before and after the growth of this season.
  const SeasonFrosts& frosts() const { return frosts_.front(); }
  // Of the season from which a way's windows count, when its flowers come `flowers` later.
  const SeasonFrosts& frosts(FlowersIn flowers) const;
  // A window of a sheet as days, counted from the frosts of the season it belongs to.
  DateRange window_days(const FrostWindow& window, FlowersIn flowers) const;

  // The days on which what is raised that way usually goes into its place (memory but for the
  // first): the sheet's window; bulbs from cold storage, within six weeks of the winter's coldest
  // day. Beyond 160 days between frosts, as in the gardens of the windows, tender crops may be
  // begun as many days longer. Where the coldest month averages 8 degC, autumn's seed and corms may
  // as many days earlier as the first frost comes over 116 days after midsummer: their winter is
  // the sooner through; where it averages 6, plants may go out in autumn until a day averages less
  // than 10, since they root all winter. nullopt: there is no window, or no temperatures to tell
  // that day from.
  // None of these days lies in the cold. In spring hardy plants and all that is sown in place wait
  // for open_from, half-hardy plants for an average of 9 degC (what lives through -5 degC for 6,
  // corms in their soil for 8), tender ones for 13.5, tubers that lie in the soil three weeks less;
  // where summers are cool, for four degrees less than their warmest days. Four weeks are left
  // then, or as many as there were. In autumn the days end when the ground closes, at the average
  // that opens it, and begin as much earlier, bulbs not before the soil has fallen to 10 degC but
  // for the last fortnight (the 10 degC common practice).
  std::optional<DateRange> usual_days(const Way& way, const Sheet& sheet) const;

  // The first day of spring on which there is work to do in the open: the air averages 3 degC, 5
  // where snow lies, since it melts first (memory). nullopt: no winter keeps it back, or its
  // temperatures are not known.
  const std::optional<Date>& open_from() const { return open_from_; }

  // The days under ten hours before this season's growth, and after it; nullopt: no day is so
  // short.
  const std::optional<DateRange>& winter() const { return winter_; }
  const std::optional<DateRange>& next_winter() const { return next_winter_; }
  // The day on which too-early sowings and rosettes are judged: the first ten-hour day of the
  // autumn before. nullopt where no day is that short.
  std::optional<Date> judging_day() const;
  // The day on which frost ends a crop: tender ones the garden first frost, half-hardy 17 days
  // later, hardy 31 days later (common practice and memory).
  Date end(FrostClass frost_class) const;

  // The months in which cold counts for bulbs and perennials: 1 October to 15 April, south 1 April
  // to 15 October, of the winter before this season's growth.
  DateRange cold_months() const;
  // The coldest of them on average. Only with temperatures.
  Date coldest_day() const { return coldest_day_.value(); }
  // The first day after the coldest on which the average is so many degrees. Only with
  // temperatures.
  Date mild_from(double mean_c) const;
  // The days on which a crop ruled by light comes on: from the longest day of this season, or from
  // the first after it of at most `below_h` hours from sunrise to sunset, up to the first whose
  // average falls under 4 degC (memory). Only with temperatures.
  DateRange light_days(double below_h) const;

  // As Climate's, remembered there.
  double day_hours(Date day, Horizon horizon) const { return climate_->day_hours(day, horizon); }

 private:
  void find_cold();
  double air_c(Date day) const;
  // The first day after the coldest on which the air is so warm, or nearly as warm as it gets;
  // nullopt: it always is, or its temperatures are not known.
  std::optional<Date> warm_from(double asked_c) const;
  DateRange out_of_cold(DateRange days, const Way& way, const Sheet& sheet) const;
  Days longer_than_usual() const;
  Days later_than_usual(FlowersIn flowers) const;

  const Climate* climate_;
  int flowering_year_;
  Sheltered under_;
  DateRange range_;
  DateRange lives_;
  std::array<SeasonFrosts, 3> frosts_;  // of this season, the one before and the one before that
  std::optional<DateRange> winter_;
  std::optional<DateRange> next_winter_;
  std::optional<Date> coldest_day_;
  double warmest_c_ = 0;
  std::optional<Date> open_from_;
  // In the autumn before: the ground's last day before the cold, the first in soil of 10 degC.
  std::optional<Date> open_until_, cool_soil_from_;
};

}  // namespace trug::climate
