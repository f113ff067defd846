// SPDX-License-Identifier: MIT
// One thing of a plan made another: what a question tries, and what a remedy proposes.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/date.h"
#include "base/quantity.h"
#include "garden/plan.h"

namespace trug::ask {

// Plantings, beds and stretches by index in the plan's lists.
struct LeaveOut {
  std::size_t planting = 0;
};
struct LiftOn {
  std::size_t planting = 0;
  Date day;
};
struct Plants {
  std::size_t planting = 0;
  int number = 0;
};
// Nothing of it is done earlier.
struct StartAfter {
  std::size_t planting = 0;
  Date day;
};
// Of one succession.
struct Sowings {
  std::size_t planting = 0;
  int number = 0;
};
// Without its own way and days.
struct Unpin {
  std::size_t planting = 0;
};
// One way of its sheet in the place of its own way and days.
struct ByWay {
  std::size_t planting = 0;
  std::string way;
  std::optional<Date> not_before = {};
};
// Another crop in its place.
struct Instead {
  std::size_t planting = 0;
  CropEntry asked;
};
// One more crop on a stretch: after a planting, or before all that grow there.
struct AddCrop {
  std::size_t bed = 0;
  std::size_t stretch = 0;
  std::optional<std::size_t> after;
  CropEntry asked;
};
// A stretch of so much at the end of a bed, with one crop on it.
struct AddStretch {
  std::size_t bed = 0;
  Millimetres length;
  CropEntry asked;
};
// A frame of so many square metres, beside the shelter there is.
struct Frame {
  double m2 = 0;
};
// The plan's flowering year; with how and when to begin a crop for it, where that was asked for.
struct Year {
  int flowering = 0;
  std::string way = {};
  std::optional<DateRange> start = {};
  bool sown = false;  // else planted
};
struct Frost {
  MonthDay last{};
  MonthDay first{};
};
// Of frost on tender plants, accepted.
struct Risk {
  double share = 0;
};

using Change = std::variant<LeaveOut, LiftOn, Plants, StartAfter, Sowings, Unpin, ByWay, Instead,
                            AddCrop, AddStretch, Frame, Year, Frost, Risk>;

// A plan with a change made, and where each planting of the old one stands in it.
struct ChangedPlan {
  Plan plan;
  std::vector<std::optional<std::size_t>> place;  // empty: it is gone
  std::optional<std::size_t> added;               // the planting that is new
};

// As an edit of the plan: ground where other things grow than before is touched.
void choose_anew_what_differs(const Plan& before, ChangedPlan& result);

ChangedPlan changed(const Plan& plan, const Change& change);

}  // namespace trug::ask
