// SPDX-License-Identifier: MIT
#include "work/jobs.h"

#include <algorithm>

namespace trug::work {
namespace {

struct KindWord {
  JobKind kind;
  std::string_view word;
};

constexpr KindWord kWords[] = {{JobKind::OrderSeed, "order-seed"},
                               {JobKind::OrderBulbs, "order-bulbs"},
                               {JobKind::OrderPlants, "order-plants"},
                               {JobKind::PreTreat, "pre-treat"},
                               {JobKind::Sow, "sow"},
                               {JobKind::PrickOut, "prick-out"},
                               {JobKind::PotOn, "pot-on"},
                               {JobKind::HardenOff, "harden-off"},
                               {JobKind::PlantOut, "plant-out"},
                               {JobKind::Plant, "plant"},
                               {JobKind::Thin, "thin"},
                               {JobKind::Pinch, "pinch"},
                               {JobKind::Support, "support"},
                               {JobKind::Protect, "protect"},
                               {JobKind::WatchForFrost, "watch-for-frost"},
                               {JobKind::FirstCut, "first-cut"},
                               {JobKind::CutBack, "cut-back"},
                               {JobKind::Lift, "lift"},
                               {JobKind::LiftAndStore, "lift-and-store"},
                               {JobKind::ClearAndFeed, "clear-and-feed"},
                               {JobKind::Divide, "divide"},
                               {JobKind::Prune, "prune"},
                               {JobKind::LookForSeedlings, "look-for-seedlings"},
                               {JobKind::WaterIn, "water-in"},
                               {JobKind::Slugs, "slugs"},
                               {JobKind::Pick, "pick"},
                               {JobKind::DeadHead, "dead-head"}};

}  // namespace

std::string_view to_string(JobKind kind) {
  const auto* found = std::ranges::find(kWords, kind, &KindWord::kind);
  return found->word;
}

std::optional<JobKind> parse_job_kind(std::string_view text) {
  const auto* found = std::ranges::find(kWords, text, &KindWord::word);
  if (found == std::end(kWords)) return std::nullopt;
  return found->kind;
}

std::string words(JobKind kind) {
  if (kind == JobKind::PreTreat) return "pre-treat";
  std::string text(to_string(kind));
  std::ranges::replace(text, '-', ' ');
  return text;
}

const std::vector<JobKind>& all_job_kinds() {
  static const std::vector<JobKind> kinds = [] {
    std::vector<JobKind> list;
    for (const KindWord& row : kWords) list.push_back(row.kind);
    return list;
  }();
  return kinds;
}

int order_in_ground(JobKind kind) {
  using enum JobKind;
  static constexpr JobKind kOrder[] = {
      OrderSeed, OrderBulbs, OrderPlants, PreTreat,     FirstCut, Pick,         DeadHead,
      CutBack,   Prune,      Lift,        LiftAndStore, Divide,   ClearAndFeed, Sow,
      PrickOut,  PotOn,      HardenOff,   PlantOut,     Plant,    WaterIn,      LookForSeedlings,
      Thin,      Pinch,      Support,     Slugs,        Protect,  WatchForFrost};
  static_assert(std::size(kOrder) == std::size(kWords));
  return static_cast<int>(std::ranges::find(kOrder, kind) - std::begin(kOrder));
}

bool cannot_wait(JobKind kind, bool another_crop_follows) {
  static constexpr JobKind kUrgent[] = {
      JobKind::OrderSeed, JobKind::OrderBulbs, JobKind::OrderPlants,
      JobKind::PreTreat,  JobKind::Sow,        JobKind::Plant,
      JobKind::PlantOut,  JobKind::Protect,    JobKind::WatchForFrost};
  if (kind == JobKind::Lift) return another_crop_follows;
  return std::ranges::find(kUrgent, kind) != std::end(kUrgent);
}

}  // namespace trug::work
