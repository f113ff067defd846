// SPDX-License-Identifier: MIT
// A calendar's changes by planting: which it is, what is grown otherwise, which bed has a new name.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "app/reckoning.h"
#include "base/uuid.h"
#include "calendar/regenerate.h"
#include "show/change_words.h"

namespace trug::app {

// Whose the changed events are, as far as the plan or the event itself tells.
class PlantingsOfEvents {
 public:
  // `space`: of the calendar's events.
  PlantingsOfEvents(const Reckoning& reckoning, const Uuid& space);
  // "lane/zinnia", "orders"; empty: it is a whole day's.
  std::string planting(const calendar::Change& change) const;

 private:
  std::map<std::string, std::string> names_;  // by uid
};

// The plantings whose way, group, variety or number is another than their calendar told.
std::vector<show::PlantingChange> altered_plantings(const Reckoning& reckoning);

// Beds all of whose new events would be events that are gone, had the bed the name of another that
// the plan no longer holds.
std::vector<show::Renamed> renamed_beds(const Reckoning& reckoning, const Uuid& space,
                                        const std::vector<calendar::Change>& changes);

}  // namespace trug::app
