// SPDX-License-Identifier: MIT
#include "work/minutes.h"

namespace trug::work {
namespace {

struct Pace {
  double job = 0, plant = 0, metre = 0;
};

// Memory.
Pace pace(JobKind kind, bool in_bed) {
  switch (kind) {
    using enum JobKind;
    case OrderSeed:
    case OrderBulbs:
    case OrderTubers:
    case OrderPlants:
      return {.job = 20};
    case PreTreat:
      return {.job = 10};
    case Sow:
      return in_bed ? Pace{.job = 10, .plant = 0.1, .metre = 6} : Pace{.job = 15, .plant = 0.2};
    case PrickOut:
      return {.job = 10, .plant = 0.5};
    case PotOn:
      return {.job = 10, .plant = 0.6};
    case HardenOff:
      return {.job = 30};  // three minutes a day
    case PlantOut:
      return {.job = 10, .plant = 0.75, .metre = 5};
    case Plant:
    case Replant:
      return {.job = 10, .plant = 0.5, .metre = 5};
    case Thin:
      return {.job = 5, .plant = 0.1, .metre = 5};
    case Pinch:
      return {.job = 3, .plant = 0.15};
    case Support:
      return {.job = 10, .metre = 10};
    case Protect:
    case Uncover:
      return {.job = 5, .metre = 3};
    case WatchForFrost:
      return {.job = 15};
    case FirstCut:
      return {.job = 20};
    case CutBack:
    case Prune:
      return {.job = 5, .plant = 1.5};
    case Lift:
      return {.job = 5, .metre = 10};
    case LiftAndStore:
      return {.job = 20, .plant = 4};
    case ClearAndFeed:
      return {.job = 5, .metre = 8};
    case Divide:
      return {.job = 10, .plant = 5};
    case LookForSeedlings:
    case LookAtStored:
      return {.job = 5};
    case WaterIn:
    case Slugs:
      return {.job = 30};
    case Pick:
    case DeadHead:
      return {.job = 10, .metre = 5};
    case Disbud:
      return {.job = 5, .plant = 1};
    case LetDieDown:
      return {};
  }
  return {};
}

}  // namespace

double minutes(const Job& job) {
  const Pace its = pace(job.key.kind, job.where.value_or(Raised::InPlace) == Raised::InPlace);
  const bool joint = !job.parts.empty();
  return its.job + its.plant * job.plants.value_or(0) * (joint ? 0 : 1) +
         its.metre * job.length_cm / 100.0 * (joint ? 0 : 1);
}

}  // namespace trug::work
