// SPDX-License-Identifier: MIT
#include "work/job_kinds.h"

#include <algorithm>

namespace trug::work {

std::optional<JobKind> parse_job_kind(std::string_view word) {
  const auto found = std::ranges::find(kTraits, word, &JobTrait::word);
  if (found == kTraits.end()) return std::nullopt;
  return found->kind;
}

const std::vector<KindGroup>& kind_groups() {
  using enum JobKind;
  static const std::vector<KindGroup> groups = {
      {"buying", {OrderSeed, OrderBulbs, OrderPlants}},
      {"raising", {PreTreat, Sow, PrickOut, PotOn, HardenOff}},
      {"planting", {PlantOut, Plant, Thin, LookForSeedlings, WaterIn}},
      {"tending", {Pinch, Support, Protect, WatchForFrost, Slugs}},
      {"cutting", {FirstCut, CutBack, Pick, DeadHead}},
      {"clearing", {Lift, LiftAndStore, ClearAndFeed, Divide, Prune}}};
  return groups;
}

bool cannot_wait(JobKind kind, bool another_crop_follows) {
  const Urgent urgent = trait(kind).urgent;
  return urgent == Urgent::Yes || (urgent == Urgent::IfAnotherFollows && another_crop_follows);
}

const YearlyJob* yearly_job(JobKind kind, const Sheet& sheet) {
  const auto yearly = trait(kind).yearly;
  if (yearly == nullptr || (kind == JobKind::CutBack && sheet.second_flush)) return nullptr;
  const std::optional<YearlyJob>& job = sheet.*yearly;
  return job ? &*job : nullptr;
}

}  // namespace trug::work
