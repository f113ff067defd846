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

// Whether anything is cut of it this year.
bool is_worth_cutting(const Sowing& sowing) { return sowing.is_cut() && sowing.gives_stems(); }

// Whether the end of the sowing frees its ground.
bool is_lifted(const Sowing& sowing, const RuleContext& context) {
  const Sheet& sheet = *sowing.sheet;
  if (stays_in_ground(sheet.life_cycle)) return false;
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

// In the bed, while it stands there; nullopt: it is out by then.
std::optional<JobDraft> while_it_stands(JobKind kind, const Sowing& sowing, Window window) {
  if (!stays_in_ground(sowing.sheet->life_cycle)) {
    if (window.day >= sowing.lift) return std::nullopt;
    window.last = std::min(window.last, sowing.lift);
  }
  return JobDraft{.kind = kind, .window = window, .where = Raised::InPlace};
}

std::optional<JobDraft> pick(const Sowing& sowing, const RuleContext&) {
  if (sowing.sheet->habit != Habit::CutAndComeAgain || !is_worth_cutting(sowing)) {
    return std::nullopt;
  }
  return while_it_stands(JobKind::Pick, sowing,
                         around(sowing.timeline.first_cut.likely + Days{7}, 4, 7));
}

std::optional<JobDraft> dead_head(const Sowing& sowing, const RuleContext&) {
  if (sowing.sheet->habit != Habit::CutAndComeAgain || !is_worth_cutting(sowing)) {
    return std::nullopt;
  }
  return while_it_stands(JobKind::DeadHead, sowing,
                         around(sowing.timeline.first_cut.likely + Days{21}, 7, 14));
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
  return JobDraft{.kind = JobKind::Lift,
                  .window = {sowing.lift, std::min(sowing.lift_from, sowing.lift), last},
                  .where = Raised::InPlace,
                  .pinned = context.asked(sowing).pins.lift_on || sowing.begun.lift};
}

// What stays in the ground is lifted only where the winter takes more of it than of any planting,
// mulched; tubers and corms every autumn.
std::optional<JobDraft> lift_and_store(const Sowing& sowing, const RuleContext& context) {
  if (sowing.another_follows()) return std::nullopt;
  auto job = in_its_window(JobKind::LiftAndStore, sowing, context);
  const auto& coldest_c = context.plan.place.coldest_c;
  if (job && coldest_c) {
    job->alive_if_left =
        growth::in_bed(context.season.climate(), *sowing.sheet, *coldest_c,
                       growth::cover_gain(sowing.cover, sowing.raised_by()).coldest_c)
            .covered;
  }
  if (stays_in_ground(sowing.sheet->life_cycle) &&
      (!job || job->alive_if_left.value_or(1) >= growth::kUsuallyAlive)) {
    return std::nullopt;
  }
  return job;
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
                  .where = Raised::InPlace};
}

constexpr Rule* kRules[] = {first_cut,      pick, dead_head,     cut_back,
                            lift_and_store, lift, clear_and_feed};

}  // namespace

std::span<Rule* const> cutting_rules() { return kRules; }

}  // namespace trug::work
