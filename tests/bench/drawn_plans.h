// SPDX-License-Identifier: MIT
// Plans drawn by number, always the same: what a gardener might write down without much thought.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "climate/climate.h"
#include "garden/plan.h"
#include "ground/candidates.h"
#include "read/sheet_library.h"

namespace trug::bench {

// England, Kansas, Seattle, Christchurch by turns.
class DrawnPlans {
 public:
  DrawnPlans();
  // Of two to ten stretches, or of as many as are asked for; no crop in it but one that can grow
  // there, no second one whose window could not follow the first.
  Plan draw(int number, int stretches = 0);
  // The sheets of the drawn crops.
  const std::map<std::string, const Sheet*>& sheets() const { return sheets_; }

 private:
  struct Span {  // of what a crop could do on empty ground, inside its windows
    bool grows = false;
    Date first_lift, last_in_ground;
  };
  const Span& span(std::size_t place, const Sheet& sheet);

  read::SheetLibrary library_;
  std::map<std::string, const Sheet*> sheets_;
  std::vector<const Sheet*> list_;
  std::map<std::pair<std::size_t, std::string>, Span> spans_;
};

// "England".
std::string place_name(int number);

}  // namespace trug::bench
