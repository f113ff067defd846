// SPDX-License-Identifier: MIT
// How much ground a wish takes: plants of a few kinds, begun so that each week has its vases.
#pragma once

#include <string>
#include <vector>

#include "ask/garden.h"
#include "ask/growings.h"
#include "base/date.h"
#include "garden/sheet.h"
#include "harvest/weeks.h"

namespace trug::ask {

// Spans: the least where plants yield the most the sheets tell, and the other way round.
struct GroundCrop {
  const Sheet* sheet = nullptr;
  std::vector<std::string> ways;  // by which it is raised, by first cut
  harvest::Span plants;
  harvest::Span m2;
  Date first_week, last_week;  // Mondays: it is cut from the one to the other
};

// So many plants that are begun together.
struct Planted {
  Growing growing;
  int plants = 0;
};

struct GroundNeeded {
  std::vector<Planted> planted;
  std::vector<GroundCrop> crops;  // by first week
  harvest::Span plants;
  harvest::Span m2;         // each crop on ground of its own
  harvest::Span shared_m2;  // what is taken at once, where one crop follows another
  // Mondays of the wish that go without all their vases: nothing fills them, or only by far more
  // ground.
  std::vector<Date> lacking;
};

struct WishGround {
  GroundNeeded as_wished, half, twice;  // with half and twice the vases
  std::vector<std::string> not_grown;   // of the crops liked: no way of theirs fits place and time
};

// For the crops the wish likes, else for the best of `garden.sheets` in the wished colours. What
// grows elsewhere is counted, beds are not. The plan must have a wish. A round number of steps, so
// the same garden has the same answer; about right, not proved least.
WishGround wish_ground(const Garden& garden);

}  // namespace trug::ask
