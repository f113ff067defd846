// SPDX-License-Identifier: MIT
// A crop's candidates as the options of its ground: days as numbers, stems as they are weighed.
#pragma once

#include <optional>
#include <vector>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "ground/candidates.h"
#include "ground/programme.h"
#include "ground/schedule.h"
#include "ground/starts.h"
#include "ground/stream.h"

namespace trug::ground {

// The common count of days: day 0 is a Monday two seasons before the flowering year.
class DayCount {
 public:
  DayCount(const climate::Climate& climate, int flowering_year);
  int number(Date day) const { return days_between(zero_, day); }
  Date date(int number) const { return zero_ + Days{number}; }
  int horizon() const { return horizon_; }  // well after the flowering year
  std::size_t weeks() const { return static_cast<std::size_t>(horizon_ / 7 + 1); }

 private:
  Date zero_;
  int horizon_;
};

// The streams that a planting may be grown as, where the plan asks for successions. No stream is
// cut before the week before the wish. `begun`: what is known of its sowings; the stream that was
// told is among them where it can still be had.
std::vector<Stream> streams_of(const Candidates& candidates, const CropEntry& asked,
                               const Sheet& sheet, std::optional<Date> wish_begin,
                               const std::vector<Begun>& begun = {});

// One option a candidate, in their order, for one plant.
Options options_of(const Candidates& candidates, const CropEntry& asked, const Sheet& sheet,
                   const DayCount& count);
// One option a stream, in their order, for all plants of the planting.
Options options_of(const Weighed& weighed, const Planting& planting, const Summer& summer,
                   const DayCount& count);

// Likely stems of a plant in the given days, of a start that stands through all of them.
double stems_within(const Candidate& candidate, DateRange days);

// Takes back the starts that wait for their ground until hardly anything of them falls in the wish:
// `wish_first` to `wish_last`, by number.
void refuse_hardly_useful(Options& options, int wish_first, int wish_last);

// Plants that do not divide go to the first sowings.
int plants_of_sowing(const Layout& layout, int sowings, int index);

}  // namespace trug::ground
