// SPDX-License-Identifier: MIT
#include "work/minutes.h"

#include <algorithm>

namespace trug::work {
namespace {

struct Pace {
  JobKind kind{};
  double job = 0, plant = 0, metre = 0;
};

// Memory. Hardening off is three minutes a day, watering and slugs are a round or two a week.
constexpr Pace kPaces[] = {
    {JobKind::OrderSeed, 20},         {JobKind::OrderBulbs, 20},
    {JobKind::OrderTubers, 20},       {JobKind::OrderPlants, 20},
    {JobKind::PreTreat, 10},          {JobKind::Sow, 10, 0.1, 6},
    {JobKind::PrickOut, 10, 0.5},     {JobKind::PotOn, 10, 0.6},
    {JobKind::HardenOff, 30},         {JobKind::PlantOut, 10, 0.75, 5},
    {JobKind::Plant, 10, 0.5, 5},     {JobKind::Thin, 5, 0.1, 5},
    {JobKind::Pinch, 3, 0.15},        {JobKind::Support, 10, 0, 10},
    {JobKind::Protect, 5, 0, 3},      {JobKind::WatchForFrost, 15},
    {JobKind::FirstCut, 20},          {JobKind::CutBack, 5, 1.5},
    {JobKind::Lift, 5, 0, 10},        {JobKind::LiftAndStore, 20, 4},
    {JobKind::ClearAndFeed, 5, 0, 8}, {JobKind::Divide, 10, 5},
    {JobKind::Prune, 5, 1.5},         {JobKind::LookForSeedlings, 5},
    {JobKind::WaterIn, 30},           {JobKind::Slugs, 30},
    {JobKind::Pick, 10, 0, 5},        {JobKind::DeadHead, 10, 0, 5},
    {JobKind::Uncover, 5, 0, 3},      {JobKind::Disbud, 5, 1},
    {JobKind::LookAtStored, 5},       {JobKind::LetDieDown},
    {JobKind::Replant, 10, 0.5, 5},
};
static_assert(std::size(kPaces) == std::size(kTraits), "a pace for each kind of job");

constexpr Pace kSowInTrays{JobKind::Sow, 15, 0.2};

}  // namespace

double minutes(const Job& job) {
  const bool in_trays = job.key.kind == JobKind::Sow && job.where && *job.where != Raised::InPlace;
  const Pace pace = in_trays ? kSowInTrays : *std::ranges::find(kPaces, job.key.kind, &Pace::kind);
  if (!job.parts.empty()) return pace.job;
  return pace.job + pace.plant * job.plants.value_or(0) + pace.metre * job.length_cm / 100.0;
}

}  // namespace trug::work
