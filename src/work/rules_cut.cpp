// SPDX-License-Identifier: MIT
// Cutting, and what becomes of the plant and its ground.
#include <algorithm>
#include <cmath>
#include <optional>
#include <span>

#include "growth/cover.h"
#include "growth/winter.h"
#include "work/rules.h"

namespace trug::work {

using ground::Sowing;

namespace {

constexpr int kClearLater = 35, kLiftLater = 28;
// What is fed later than four weeks before the first frost is washed out by the rains of winter
// before a crop takes it up; what goes in within two months stands through it (common practice).
constexpr int kFedBeforeFrost = 28, kGoesInSoon = 60;
constexpr int kLookAtStoredAfter = 30;

// Whether anything is cut of it this year.
bool is_worth_cutting(const Sowing& sowing) { return sowing.is_cut() && sowing.gives_stems(); }

// Whether the bulbs stay where they are under what is set out between them. What is sown there
// wants the ground raked.
bool dies_down(const Sowing& sowing, const RuleContext& context) {
  const bool told = sowing.begun.lift || context.asked(sowing).pins.lift_on;
  return sowing.sheet->stays_under && sowing.another_follows() && !sowing.next_is_sown && !told;
}

// Whether the end of the sowing frees its ground.
bool is_lifted(const Sowing& sowing, const RuleContext& context) {
  const Sheet& sheet = *sowing.sheet;
  if (stays_in_ground(sheet.life_cycle)) return false;
  if (dies_down(sowing, context)) return false;
  // What stays for years under others stays where nothing follows, too.
  const bool told = sowing.begun.lift || context.asked(sowing).pins.lift_on;
  if (sheet.stays_under && !sowing.another_follows() && !told) return false;
  const bool kept =
      sheet.lift_and_store || (context.asked(sowing).keep && is_planted(sheet.life_cycle));
  return sowing.another_follows() || !kept;
}

std::optional<JobDraft> first_cut(const Sowing& sowing, const RuleContext&) {
  if (!is_worth_cutting(sowing)) return std::nullopt;
  const growth::DateSpread& cut = sowing.timeline.first_cut;
  return JobDraft{.kind = JobKind::FirstCut,
                  .window = {cut.likely, cut.early, cut.late},
                  .where = Raised::InPlace};
}

// As long as it is cut.
std::optional<JobDraft> while_cut(JobKind kind, const Sowing& sowing) {
  const Date first = sowing.timeline.first_cut.likely;
  return JobDraft{.kind = kind,
                  .window = {first, first, std::max(first, sowing.last_cut())},
                  .where = Raised::InPlace};
}

std::optional<JobDraft> pick(const Sowing& sowing, const RuleContext&) {
  if (sowing.sheet->habit != Habit::CutAndComeAgain || !is_worth_cutting(sowing)) {
    return std::nullopt;
  }
  return while_cut(JobKind::Pick, sowing);
}

std::optional<JobDraft> dead_head(const Sowing& sowing, const RuleContext&) {
  if (!sowing.sheet->dead_head || !is_worth_cutting(sowing)) return std::nullopt;
  return while_cut(JobKind::DeadHead, sowing);
}

// For a second flush, where it stands until that comes; else when the sheet says.
std::optional<JobDraft> cut_back(const Sowing& sowing, const RuleContext& context) {
  const auto& flush = sowing.sheet->second_flush;
  if (!flush) return in_its_window(JobKind::CutBack, sowing, context);
  if (!is_worth_cutting(sowing)) return std::nullopt;
  const Date day = sowing.timeline.first_cut.likely + Days{sowing.spec().cutting_days()};
  const Date again = day + Days{std::lround(7 * flush->weeks_after)};
  if (!stays_in_ground(sowing.sheet->life_cycle) && sowing.lift < again) return std::nullopt;
  return JobDraft{.kind = JobKind::CutBack, .window = around(day, 7, 7), .where = Raised::InPlace};
}

std::optional<JobDraft> lift(const Sowing& sowing, const RuleContext& context) {
  if (!is_lifted(sowing, context)) return std::nullopt;
  const Date last = sowing.another_follows()
                        ? *sowing.next_in_ground - Days{context.plan.work.days_between_crops}
                        : sowing.lift + Days{kLiftLater};
  return JobDraft{
      .kind = JobKind::Lift,
      .window = {sowing.lift, std::min(std::max(sowing.lift_from, sowing.last_cut()), sowing.lift),
                 last},
      .where = Raised::InPlace,
      .pinned = context.asked(sowing).pins.lift_on || sowing.begun.lift};
}

// What stays in the ground is lifted only where the winter takes more of it than of any planting,
// mulched; tubers and corms every autumn, but for those that the plan keeps there.
std::optional<JobDraft> lift_and_store(const Sowing& sowing, const RuleContext& context) {
  if (sowing.another_follows() || context.asked(sowing).keep) return std::nullopt;
  auto job = in_its_window(JobKind::LiftAndStore, sowing, context);
  double bare = 0;
  const auto& coldest_c = context.plan.place.coldest_c;
  if (job && coldest_c) {
    const growth::Survival left =
        growth::in_bed(context.season.climate(), *sowing.sheet, *coldest_c,
                       growth::cover_gain(sowing.cover, sowing.raised_by()).coldest_c);
    job->alive_if_left = left.covered;
    bare = left.bare;
  }
  const bool stays = stays_in_ground(sowing.sheet->life_cycle);
  if (stays && (!job || job->alive_if_left.value_or(1) >= growth::kUsuallyAlive)) {
    return std::nullopt;
  }
  // Nor are tubers and corms lifted where no winter takes them bare.
  if (bare >= growth::kUsuallyAlive) return std::nullopt;
  return job;
}

std::optional<JobDraft> let_die_down(const Sowing& sowing, const RuleContext& context) {
  if (!dies_down(sowing, context)) return std::nullopt;
  return JobDraft{
      .kind = JobKind::LetDieDown,
      .window = {sowing.lift, sowing.lift, std::max(sowing.lift, *sowing.next_in_ground - Days{1})},
      .where = Raised::InPlace};
}

// Of what would have stayed, in the next season of its way.
std::optional<JobDraft> replant(const Sowing& sowing, const RuleContext& context) {
  const Way& way = sowing.raised_by();
  const bool would_stay = sowing.sheet->stays_under && sowing.another_follows();
  if (!would_stay || !is_lifted(sowing, context) || !way.window) return std::nullopt;
  DateRange days = context.season.window_days(*way.window, way.flowers);
  while (days.from <= sowing.lift) days = {days.from + Days{365}, days.until + Days{365}};
  const Date middle = days.from + Days{days_between(days.from, days.until) / 2};
  return JobDraft{.kind = JobKind::Replant, .window = {middle, days.from, days.until - Days{1}}};
}

// Monthly, from a month after it is stored to a month before it may go out again, where that is
// later.
std::optional<JobDraft> look_at_stored(const Sowing& sowing, const RuleContext& context) {
  if (!sowing.sheet->lift_and_store) return std::nullopt;
  const auto stored = lift_and_store(sowing, context);
  const auto lifted = is_planted(sowing.sheet->life_cycle) ? lift(sowing, context) : std::nullopt;
  if (!stored && !lifted) return std::nullopt;
  const Date in_store = (stored ? stored : lifted)->window.day;
  const Date day = in_store + Days{kLookAtStoredAfter};
  Date until = context.season.frosts().last - Days{kLookAtStoredAfter};
  while (until <= in_store) until += Days{365};
  if (until < day) return std::nullopt;
  return JobDraft{.kind = JobKind::LookAtStored, .window = {day, day, until}};
}

Clearing clearing_of(const Sowing& sowing, Date lifted, const RuleContext& context) {
  if (sowing.next_sheet != nullptr && sowing.next_sheet->lean_soil) return Clearing::Lean;
  if (lifted < context.season.frosts().first - Days{kFedBeforeFrost}) return Clearing::Feed;
  const auto& next = sowing.next_in_ground;
  return next && *next < lifted + Days{kGoesInSoon} ? Clearing::Rest : Clearing::Cover;
}

// On the day on which it is lifted.
std::optional<JobDraft> clear_and_feed(const Sowing& sowing, const RuleContext& context) {
  const auto lifting = lift(sowing, context);
  if (!lifting) return std::nullopt;
  const Date lifted = placed(*lifting, context).day;
  const Date last =
      sowing.another_follows() ? *sowing.next_in_ground - Days{1} : lifted + Days{kClearLater};
  return JobDraft{.kind = JobKind::ClearAndFeed,
                  .window = {lifted, lifted, std::max(lifted, last)},
                  .where = Raised::InPlace,
                  .clearing = clearing_of(sowing, lifted, context)};
}

constexpr Rule* kRules[] = {first_cut, pick,         dead_head,      cut_back, lift_and_store,
                            lift,      let_die_down, clear_and_feed, replant,  look_at_stored};

}  // namespace

std::span<Rule* const> cutting_rules() { return kRules; }

}  // namespace trug::work
