// SPDX-License-Identifier: MIT
// The kinds of jobs there are, and all that is known of each: one table, asked by everybody.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "base/words.h"
#include "garden/sheet.h"

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

// All that is known of a kind, whatever crop it is done to.
struct JobTrait {
  JobKind kind{};
  std::string_view word;   // "first-cut": the stable word in files and options
  std::string_view words;  // "first cut": for people
  std::string_view help;   // what is done, a sentence
  std::string_view of_annuals =
      {};  // its word for what is neither bulb, corm nor tuber, if another
  JobGroup group = JobGroup::Tending;
  // Its place among the jobs of one day: first what frees the ground, then what goes into it, then
  // what tends it.
  int place_in_day = 0;
  Urgent urgent = Urgent::No;
  bool hands_on = true;   // someone touches, buys or cuts the plant
  bool counted = false;   // done plant by plant: their number is worth a column
  bool chosen = false;    // its day is the choice's own; the others move to the gardener's days
  bool in_line = false;   // the next in line of the sowing waits for it
  bool for_care = false;  // asked for only with care = true in [work]
  bool forecast = false;  // its day follows from the forecast of the first flower or cut
  std::optional<Frost> frost;  // its day follows from this one, whatever the crop's windows say
  // The sheet's job that it is, where it comes every year at a time the frosts give.
  std::optional<YearlyJob> Sheet::*yearly = nullptr;
  bool together = false;  // may be drawn to the day on which its kind is done in the bed anyway
  // A minor job: the first of these that its sowing has tells of it, on its own day.
  std::span<const JobKind> told_with = {};
};

inline constexpr JobKind kIntoTheBed[] = {JobKind::PlantOut, JobKind::Plant, JobKind::Sow};
inline constexpr JobKind kWithFirstCut[] = {JobKind::FirstCut};
inline constexpr JobKind kWithLifting[] = {JobKind::Lift};

// By kind, in the order of the enumerators.
inline constexpr auto kTraits = std::to_array<JobTrait>({
    {.kind = JobKind::OrderSeed,
     .word = "order-seed",
     .words = "order seed",
     .help = "Order the seed in time for its sowing.",
     .group = JobGroup::Buying,
     .place_in_day = 0,
     .urgent = Urgent::Yes,
     .in_line = true},
    {.kind = JobKind::OrderBulbs,
     .word = "order-bulbs",
     .words = "order bulbs",
     .help = "Order bulbs and corms in time for their planting.",
     .group = JobGroup::Buying,
     .place_in_day = 1,
     .urgent = Urgent::Yes,
     .counted = true,
     .in_line = true},
    {.kind = JobKind::OrderTubers,
     .word = "order-tubers",
     .words = "order tubers",
     .help = "Order tubers and roots in time for their planting.",
     .group = JobGroup::Buying,
     .place_in_day = 2,
     .urgent = Urgent::Yes,
     .counted = true,
     .in_line = true},
    {.kind = JobKind::OrderPlants,
     .word = "order-plants",
     .words = "order plants",
     .help = "Order young plants in time for their planting.",
     .group = JobGroup::Buying,
     .place_in_day = 3,
     .urgent = Urgent::Yes,
     .counted = true,
     .in_line = true},
    {.kind = JobKind::PreTreat,
     .word = "pre-treat",
     .words = "pre-treat",
     .help = "What seed or bulbs want beforehand: soaking, scratching, weeks of cold.",
     .group = JobGroup::Raising,
     .place_in_day = 4,
     .urgent = Urgent::Yes,
     .in_line = true},
    {.kind = JobKind::Sow,
     .word = "sow",
     .words = "sow",
     .help =
         "Sow, where it is to flower or where it is raised; the job says how deep and how many.",
     .group = JobGroup::Raising,
     .place_in_day = 14,
     .urgent = Urgent::Yes,
     .counted = true,
     .chosen = true,
     .in_line = true},
    {.kind = JobKind::PrickOut,
     .word = "prick-out",
     .words = "prick out",
     .help = "Move seedlings from where they came up into modules or pots of their own.",
     .group = JobGroup::Raising,
     .place_in_day = 15,
     .counted = true,
     .in_line = true,
     .together = true},
    {.kind = JobKind::PotOn,
     .word = "pot-on",
     .words = "pot on",
     .help = "Move plants into larger pots before they stand still.",
     .group = JobGroup::Raising,
     .place_in_day = 16,
     .counted = true,
     .in_line = true,
     .together = true},
    {.kind = JobKind::HardenOff,
     .word = "harden-off",
     .words = "harden off",
     .help = "Get plants raised under cover used to the open: out by day, in or covered by night.",
     .group = JobGroup::Raising,
     .place_in_day = 17,
     .in_line = true,
     .together = true},
    {.kind = JobKind::PlantOut,
     .word = "plant-out",
     .words = "plant out",
     .help = "Set raised or bought plants into their place in the bed.",
     .group = JobGroup::Planting,
     .place_in_day = 18,
     .urgent = Urgent::Yes,
     .counted = true,
     .chosen = true,
     .in_line = true},
    {.kind = JobKind::Plant,
     .word = "plant",
     .words = "plant",
     .help = "Plant bulbs, corms, tubers or roots.",
     .group = JobGroup::Planting,
     .place_in_day = 19,
     .urgent = Urgent::Yes,
     .counted = true,
     .chosen = true,
     .in_line = true},
    {.kind = JobKind::Thin,
     .word = "thin",
     .words = "thin",
     .help = "Take out seedlings until the rest stand at their distance.",
     .group = JobGroup::Planting,
     .place_in_day = 22,
     .counted = true,
     .in_line = true,
     .together = true},
    {.kind = JobKind::Pinch,
     .word = "pinch",
     .words = "pinch",
     .help = "Take out the growing tip, so that the plant branches: more stems, some days later.",
     .place_in_day = 23,
     .forecast = true},
    {.kind = JobKind::Support,
     .word = "support",
     .words = "support",
     .help = "Net, stake or tie it before wind and rain lay it flat.",
     .place_in_day = 24,
     .forecast = true,
     .together = true,
     .told_with = kIntoTheBed},
    {.kind = JobKind::Protect,
     .word = "protect",
     .words = "protect",
     .help = "Lay fleece where the winter is colder than the plant survives bare.",
     .place_in_day = 26,
     .urgent = Urgent::Yes,
     .hands_on = false,
     .frost = Frost::First,
     .together = true},
    {.kind = JobKind::WatchForFrost,
     .word = "watch-for-frost",
     .words = "watch for frost",
     .help = "Keep fleece at hand: tender plants are out and a late frost may still come.",
     .place_in_day = 27,
     .urgent = Urgent::Yes,
     .hands_on = false,
     .frost = Frost::Last,
     .told_with = kIntoTheBed},
    {.kind = JobKind::FirstCut,
     .word = "first-cut",
     .words = "first cut",
     .help = "Begin to cut. It is a forecast: in eight years of ten it falls into the window.",
     .group = JobGroup::Cutting,
     .place_in_day = 5,
     .in_line = true,
     .forecast = true},
    {.kind = JobKind::CutBack,
     .word = "cut-back",
     .words = "cut back",
     .help = "Cut the plant back: after its first flowers for a second flush, or once a year.",
     .group = JobGroup::Cutting,
     .place_in_day = 8,
     .in_line = true,
     .forecast = true,
     .yearly = &Sheet::cut_back},
    {.kind = JobKind::Lift,
     .word = "lift",
     .words = "lift",
     .help = "Lift bulbs, corms and tubers out of the ground, most often for the next crop.",
     .of_annuals = "clear",
     .group = JobGroup::Clearing,
     .place_in_day = 10,
     .urgent = Urgent::IfAnotherFollows,
     .in_line = true,
     .frost = Frost::First},
    {.kind = JobKind::LiftAndStore,
     .word = "lift-and-store",
     .words = "lift and store",
     .help = "Lift what would not survive the winter and keep it free of frost.",
     .group = JobGroup::Clearing,
     .place_in_day = 11,
     .yearly = &Sheet::lift_and_store,
     .together = true},
    {.kind = JobKind::ClearAndFeed,
     .word = "clear-and-feed",
     .words = "clear and feed",
     .help = "Clear the ground, and feed it unless winter or a crop of lean soil comes next.",
     .group = JobGroup::Clearing,
     .place_in_day = 13,
     .in_line = true,
     .frost = Frost::First,
     .told_with = kWithLifting},
    {.kind = JobKind::Divide,
     .word = "divide",
     .words = "divide",
     .help = "Split a perennial that has grown old in its place.",
     .group = JobGroup::Clearing,
     .place_in_day = 12,
     .yearly = &Sheet::divide,
     .together = true},
    {.kind = JobKind::Prune,
     .word = "prune",
     .words = "prune",
     .help = "The year's pruning of a shrub.",
     .group = JobGroup::Clearing,
     .place_in_day = 9,
     .yearly = &Sheet::prune,
     .together = true},
    {.kind = JobKind::LookForSeedlings,
     .word = "look-for-seedlings",
     .words = "look for seedlings",
     .help = "See whether it has come up; if not, it may still be sown again. With care = true.",
     .group = JobGroup::Planting,
     .place_in_day = 21,
     .hands_on = false,
     .for_care = true},
    {.kind = JobKind::WaterIn,
     .word = "water-in",
     .words = "water in",
     .help = "Water what was just sown or planted. With care = true.",
     .group = JobGroup::Planting,
     .place_in_day = 20,
     .hands_on = false,
     .for_care = true,
     .told_with = kIntoTheBed},
    {.kind = JobKind::Slugs,
     .word = "slugs",
     .words = "slugs",
     .help = "Look for slugs at dusk. With care = true.",
     .place_in_day = 25,
     .hands_on = false,
     .for_care = true,
     .told_with = kIntoTheBed},
    {.kind = JobKind::Pick,
     .word = "pick",
     .words = "pick",
     .help =
         "Pick through every two or three days: the more is cut, the more comes. With care = true.",
     .group = JobGroup::Cutting,
     .place_in_day = 6,
     .for_care = true,
     .forecast = true,
     .told_with = kWithFirstCut},
    {.kind = JobKind::DeadHead,
     .word = "dead-head",
     .words = "dead head",
     .help = "Take off what was not cut, so that it goes on flowering. With care = true.",
     .group = JobGroup::Cutting,
     .place_in_day = 7,
     .for_care = true,
     .forecast = true,
     .told_with = kWithFirstCut},
    {.kind = JobKind::Uncover,
     .word = "uncover",
     .words = "uncover",
     .help = "Take off the fleece or the mulch of the winter, so that it grows on unhindered.",
     .place_in_day = 28,
     .hands_on = false,
     .frost = Frost::Last,
     .together = true},
    {.kind = JobKind::Disbud,
     .word = "disbud",
     .words = "disbud",
     .help = "Take off the side buds, so that the flower that stays grows large.",
     .place_in_day = 29,
     .forecast = true},
    {.kind = JobKind::LookAtStored,
     .word = "look-at-stored",
     .words = "look at stored",
     .help = "Look through what is stored over the winter once a month, and take out what rots.",
     .group = JobGroup::Clearing,
     .place_in_day = 30},
    {.kind = JobKind::LetDieDown,
     .word = "let-die-down",
     .words = "let die down",
     .help = "Leave bulbs in the ground under the next crop, with their leaves until they yellow.",
     .group = JobGroup::Clearing,
     .place_in_day = 31,
     .in_line = true},
    {.kind = JobKind::Replant,
     .word = "replant",
     .words = "replant",
     .help = "Plant bulbs again that were lifted and dried because the ground was wanted.",
     .group = JobGroup::Planting,
     .place_in_day = 32},
});

// Whether each kind has its row and its own place in the day: a row forgotten does not compile.
consteval bool is_complete() {
  std::array<bool, kTraits.size()> taken{};
  for (std::size_t i = 0; i < kTraits.size(); ++i) {
    if (kTraits[i].kind != static_cast<JobKind>(i) || kTraits[i].word.empty()) return false;
    taken.at(static_cast<std::size_t>(kTraits[i].place_in_day)) = true;
  }
  for (const bool place : taken) {
    if (!place) return false;
  }
  return !is_enumerator<static_cast<JobKind>(kTraits.size())>();
}
static_assert(is_complete());

// Throws std::out_of_range for what is no kind.
constexpr const JobTrait& trait(JobKind kind) { return kTraits.at(static_cast<std::size_t>(kind)); }

constexpr std::string_view to_string(JobKind kind) { return trait(kind).word; }
// Of this kind's word or, of a crop like that, the other that it has.
std::string_view word_for(JobKind kind, LifeCycle life_cycle);
// By either word.
std::optional<JobKind> parse_job_kind(std::string_view word);
// The kinds of a group by its word; empty: there is no such group.
std::vector<JobKind> kinds_in_group(std::string_view word);
bool cannot_wait(JobKind kind, bool another_crop_follows);
// The job of the sheet that comes every year at a time the frosts give, whatever is chosen; null:
// the kind is none for this crop. Cutting back for a second flush follows the first cut.
const YearlyJob* yearly_job(JobKind kind, const Sheet& sheet);

}  // namespace trug::work
