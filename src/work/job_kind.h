// SPDX-License-Identifier: MIT
// The kinds of jobs, by name; job_kinds.h says what is known of each.
#pragma once

#include "base/words.h"

namespace trug::work {

enum class JobKind {
  OrderSeed,
  OrderBulbs,
  OrderTubers,
  OrderPlants,
  PreTreat,
  Sow,
  PrickOut,
  PotOn,
  HardenOff,
  PlantOut,
  Plant,
  Thin,
  Pinch,
  Support,
  Protect,
  WatchForFrost,
  FirstCut,
  CutBack,
  Lift,
  LiftAndStore,
  ClearAndFeed,
  Divide,
  Prune,
  LookForSeedlings,
  WaterIn,
  Slugs,
  Pick,
  DeadHead,
  Uncover,
  Disbud,
  LookAtStored,
  LetDieDown,
  Replant
};

// Whether the year is spoilt when the day is missed: such jobs carry the one reminder by default.
enum class Urgent { No, Yes, IfAnotherFollows };

// Kinds that are asked for together.
enum class JobGroup { Buying, Raising, Planting, Tending, Cutting, Clearing };
inline constexpr Word<JobGroup> kJobGroups[] = {
    {JobGroup::Buying, "buying"},     {JobGroup::Raising, "raising"},
    {JobGroup::Planting, "planting"}, {JobGroup::Tending, "tending"},
    {JobGroup::Cutting, "cutting"},   {JobGroup::Clearing, "clearing"}};
static_assert(names_all(kJobGroups));

}  // namespace trug::work
