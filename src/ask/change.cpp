// SPDX-License-Identifier: MIT
#include "ask/change.h"

namespace trug::ask {
namespace {

std::vector<std::size_t> all_but(const Plan& plan, std::size_t planting) {
  std::vector<std::size_t> kept;
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    if (i != planting) kept.push_back(i);
  }
  return kept;
}

// One function a change, made on a copy of the plan.
struct Made {
  Plan& plan;

  void operator()(const LeaveOut& c) const { plan = with_only(plan, all_but(plan, c.planting)); }
  void operator()(const LiftOn& c) const { of(c.planting).pins.lift_on = c.day; }
  void operator()(const Plants& c) const { of(c.planting).plants = c.number; }
  void operator()(const StartAfter& c) const { of(c.planting).pins.not_before = c.day; }
  void operator()(const Sowings& c) const { of(c.planting).successions = c.number; }
  void operator()(const Year& c) const { plan.flowering_year = c.flowering; }

  CropEntry& of(std::size_t planting) const { return plan.plantings[planting].asked; }
};

}  // namespace

ChangedPlan changed(const Plan& plan, const Change& change) {
  ChangedPlan result{plan, {}};
  std::visit(Made{result.plan}, change);
  const auto* out = std::get_if<LeaveOut>(&change);
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    if (out && i == out->planting) {
      result.place.emplace_back();
    } else {
      result.place.emplace_back(out && i > out->planting ? i - 1 : i);
    }
  }
  return result;
}

}  // namespace trug::ask
