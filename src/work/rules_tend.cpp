// SPDX-License-Identifier: MIT
// Tending what grows, from its first day in the ground to its flower.
#include <algorithm>
#include <cmath>
#include <optional>
#include <span>

#include "climate/frost.h"
#include "work/rules.h"

namespace trug::work {

using ground::Sowing;

namespace {

constexpr double kWatchRisk = 0.05;  // until one year in twenty
constexpr int kHalfHardyEarlier = 30;
constexpr int kDefaultGermination = 14;
constexpr int kThinAfterEmergence = 21;
constexpr int kPinchInPots = 35, kPinchAfterPlanting = 14, kPinchAfterWinter = 28;
constexpr int kSupportBeforeFlower = 42, kSupportLast = 21;
constexpr int kFleeceAfterFrost = 28;

bool is_sown_there(const Sowing& sowing) {
  return !sowing.stands && is_sown_in_place(sowing.raised_by());
}

// Raised or bought, then set out; no bulb that is planted in its place.
bool is_planted_out(const Sowing& sowing) {
  const Way& way = sowing.raised_by();
  return !sowing.stands && (way.method == Method::BoughtPlants || way.raised != Raised::InPlace);
}

// Days until it is up, at the latest.
int days_to_come_up(const Sheet& sheet) {
  return sheet.germination_days ? static_cast<int>(std::lround(sheet.germination_days->high))
                                : kDefaultGermination;
}

// Jobs of every few years come when it has stood for so many, or twice or three times as many.
bool is_due(const YearlyJob& job, const Sowing& sowing, const RuleContext& context) {
  const int every = job.every_years.value_or(1);
  if (every <= 1) return true;
  const int planted = context.asked(sowing).since.value_or(context.plan.flowering_year);
  const int years = context.plan.flowering_year - planted;
  return years > 0 && years % every == 0;
}

}  // namespace

std::optional<JobDraft> in_its_window(JobKind kind, const Sowing& sowing,
                                      const RuleContext& context) {
  const YearlyJob* job = yearly_job(kind, *sowing.sheet);
  if (job == nullptr || !is_due(*job, sowing, context)) return std::nullopt;
  const DateRange window = context.season.window_days(job->window, FlowersIn::SameYear);
  const Date last = window.until - Days{1};
  const Date first = sowing.stands ? window.from : std::max(window.from, sowing.in_ground);
  if (last < first) return std::nullopt;  // it was not there yet
  const Date middle = window.from + Days{days_between(window.from, window.until) / 2};
  return JobDraft{
      .kind = kind, .window = {std::max(middle, first), first, last}, .where = Raised::InPlace};
}

namespace {

std::optional<JobDraft> watch_for_frost(const Sowing& sowing, const RuleContext& context) {
  const FrostClass hardiness = frost_class(*sowing.sheet);
  if (hardiness == FrostClass::Hardy || sowing.stands) {
    return std::nullopt;
  }
  const Date last = context.season.frosts().last;
  const auto safe = climate::frost_safe_day(last, climate::kSpringSpreadDays, kWatchRisk);
  if (!safe) return std::nullopt;
  const Date until = *safe - Days{hardiness == FrostClass::HalfHardy ? kHalfHardyEarlier : 0};
  if (sowing.in_ground >= until) return std::nullopt;
  return JobDraft{.kind = JobKind::WatchForFrost,
                  .window = {sowing.in_ground, sowing.in_ground, until},
                  .where = Raised::InPlace};
}

std::optional<JobDraft> look_for_seedlings(const Sowing& sowing, const RuleContext& context) {
  const Way& way = sowing.raised_by();
  if (!is_sown_there(sowing)) return std::nullopt;
  const int usual = days_to_come_up(*sowing.sheet);
  return JobDraft{.kind = JobKind::LookForSeedlings,
                  .window = around(sowing.in_ground + Days{2 * usual}, usual, 7),
                  .where = Raised::InPlace,
                  .sow_by = context.clock.usual_days(way)->until - Days{1}};
}

std::optional<JobDraft> thin(const Sowing& sowing, const RuleContext& context) {
  if (!is_sown_there(sowing)) return std::nullopt;
  Date day = sowing.in_ground + Days{days_to_come_up(*sowing.sheet) + kThinAfterEmergence};
  if (const auto& winter = context.season.winter()) {
    // Seedlings of a late sowing are thinned when they grow again.
    if (winter->contains(day)) day = winter->until + Days{14};
  }
  return JobDraft{.kind = JobKind::Thin, .window = around(day, 7, 14), .where = Raised::InPlace};
}

std::optional<JobDraft> water_in(const Sowing& sowing, const RuleContext&) {
  if (!is_planted_out(sowing)) return std::nullopt;
  return JobDraft{
      .kind = JobKind::WaterIn, .window = around(sowing.in_ground, 0, 2), .where = Raised::InPlace};
}

std::optional<JobDraft> slugs(const Sowing& sowing, const RuleContext&) {
  if (!is_sown_there(sowing) && !is_planted_out(sowing)) return std::nullopt;
  return JobDraft{.kind = JobKind::Slugs,
                  .window = around(sowing.in_ground + Days{5}, 2, 9),
                  .where = Raised::InPlace};
}

// By weeks, where warmth tells no day.
Date usual_pinch_day(const Sowing& sowing, const RuleContext& context) {
  const Way& way = sowing.raised_by();
  const bool from_seed = way.method == Method::Seed;
  const bool long_in_pots = from_seed && way.weeks_under_cover &&
                            days_between(sowing.start, sowing.in_ground) > kPinchInPots + 7;
  Date day = long_in_pots ? sowing.start + Days{kPinchInPots}
                          : sowing.in_ground + Days{kPinchAfterPlanting};
  if (!way.weeks_under_cover && from_seed) day += Days{28};
  const auto& winter = context.season.winter();
  if (winter && sowing.in_ground < winter->until && !long_in_pots) {
    day = std::max(day, winter->until + Days{kPinchAfterWinter});
  }
  return day;
}

// Where the plan or the sheet wants it; when it is far enough on, and not so late that it flowers
// at once.
std::optional<JobDraft> pinch(const Sowing& sowing, const RuleContext& context) {
  if (!sowing.pinched) return std::nullopt;
  const growth::Forecast& forecast = sowing.timeline.forecast;
  const bool by_heat = sowing.sheet->pinch.at_kd && !forecast.stages.empty();
  if (by_heat && !forecast.pinched) return std::nullopt;
  const Date day = std::min(by_heat ? *forecast.pinched : usual_pinch_day(sowing, context),
                            sowing.timeline.first_flower.likely - Days{28});
  JobDraft draft{.kind = JobKind::Pinch, .window = around(day, 4, 10), .where = Raised::InPlace};
  if (day < sowing.in_ground) {
    draft.where = sowing.raised_by().raised;
    draft.window.last = std::min(draft.window.last, sowing.in_ground);
  }
  return draft;
}

std::optional<JobDraft> support(const Sowing& sowing, const RuleContext&) {
  if (sowing.sheet->support == Sheet::Support::No) return std::nullopt;
  const Date flower = sowing.timeline.first_flower.likely;
  const Date day = std::max(sowing.in_ground + Days{7}, flower - Days{kSupportBeforeFlower});
  return JobDraft{.kind = JobKind::Support,
                  .window = {day, day - Days{7}, std::max(day, flower - Days{kSupportLast})},
                  .where = Raised::InPlace};
}

std::optional<JobDraft> protect(const Sowing& sowing, const RuleContext& context) {
  if (!sowing.under_fleece) return std::nullopt;
  const Date frost = context.season.frosts(FlowersIn::NextYear).first;
  return JobDraft{.kind = JobKind::Protect,
                  .window = around(frost + Days{kFleeceAfterFrost}, kFleeceAfterFrost, 28),
                  .where = Raised::InPlace};
}

std::optional<JobDraft> prune(const Sowing& sowing, const RuleContext& context) {
  return in_its_window(JobKind::Prune, sowing, context);
}

std::optional<JobDraft> divide(const Sowing& sowing, const RuleContext& context) {
  if (!sowing.stands) return std::nullopt;  // it was planted for this year's flowers
  return in_its_window(JobKind::Divide, sowing, context);
}

constexpr Rule* kRules[] = {water_in, watch_for_frost, slugs,   thin,  look_for_seedlings,
                            pinch,    support,         protect, prune, divide};

}  // namespace

std::span<Rule* const> tending_rules() { return kRules; }

}  // namespace trug::work
