// SPDX-License-Identifier: MIT
// The ways and times in which a crop could be grown for a wish, each for one plant.
#pragma once

#include <string>
#include <vector>

#include "ask/garden.h"
#include "base/date.h"
#include "garden/sheet.h"
#include "ground/starts.h"

namespace trug::ask {

struct Growing {
  const Sheet* sheet = nullptr;
  std::string way;
  DateRange ground;            // the days it stands in its place, cut to its last stem
  double m2 = 0;               // of one plant
  double summer_weeks = 0;     // for which it takes the ground, one at least
  std::vector<double> stems;   // likely, by week of the wish
  double least = 1, most = 1;  // of what is likely, as the sheet's yields go
  // Inside the trade's window, by a way that needs no luck and no plants that the trade raises from
  // seed; of such as are cut first in one week, the one nearest the middle of its window.
  bool usual = false;
  ground::Free free = ground::Free::Any;  // when the ground may have fallen free before it
  double best_week() const;
};

// Every start the rules allow that gives stems in the wish. `mondays`: of the wish.
std::vector<Growing> growings(const Garden& garden, const Sheet& sheet,
                              const std::vector<Date>& mondays);

// Of `garden.sheets` those the wish likes; where it names none, those in its colours, foliage with
// all. Never what it dislikes, and where it is to be safe nothing that harms. The plan has a wish.
std::vector<const Sheet*> wished_sheets(const Garden& garden);
std::vector<Date> wish_mondays(const Garden& garden);
// The days on which bare ground counts: a month before either frost.
DateRange summer_of(const Garden& garden);

}  // namespace trug::ask
