// SPDX-License-Identifier: MIT
// Tending what grows, from its first day in the ground to its flower.
#include <algorithm>
#include <cmath>
#include <optional>
#include <span>

#include "work/rules.h"

namespace trug::work {

using ground::Sowing;

namespace {

constexpr int kThinAfterEmergence = 21;
constexpr int kPinchInPots = 35, kPinchAfterPlanting = 14, kPinchAfterWinter = 28;
// A net goes over plants of 15 to 20 cm, a ring round shoots of a hand: six to seven weeks before
// they flower, of what is just planted or up some weeks later (memory).
constexpr int kSupportBeforeFlower = 49, kSupportLast = 21;
constexpr int kSupportAfterPlanting = 14, kSupportAfterComingUp = 28;
constexpr int kFleeceAfterFrost = 28;
constexpr int kWorthLaying = 7;  // days under fleece (memory)
constexpr int kYoungDays = 28;   // in which slugs and drought take it (common practice)
// In March (south September), or eight weeks before the last frost where that is later; and a
// fortnight before it flowers, but what flowers under hoops is cut beneath them (common practice).
constexpr int kUncoverIntoYear = 60, kUncoverBeforeFrost = 56, kUncoverBeforeFlower = 14;
// From February (south August): before, frost may follow into the cuts, however early the last
// frost (memory).
constexpr Days kPruneIntoYear{31};

bool is_sown_there(const Sowing& sowing) {
  return !sowing.stands && is_sown_in_place(sowing.raised_by());
}

// Raised or bought, then set out; no bulb that is planted in its place.
bool is_planted_out(const Sowing& sowing) {
  const Way& way = sowing.raised_by();
  return !sowing.stands && (way.method == Method::BoughtPlants || way.raised != Raised::InPlace);
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

// Only what a light frost kills: the half-hardy bear it.
std::optional<JobDraft> watch_for_frost(const Sowing& sowing, const RuleContext& context) {
  const auto until = frost_safe_day(context);
  const bool tender = frost_class(*sowing.sheet) == FrostClass::Tender;
  if (!tender || sowing.stands || !until || sowing.in_ground >= *until) return std::nullopt;
  return JobDraft{.kind = JobKind::WatchForFrost,
                  .window = {sowing.in_ground, sowing.in_ground, *until},
                  .where = Raised::InPlace};
}

std::optional<JobDraft> look_for_seedlings(const Sowing& sowing, const RuleContext& context) {
  const Way& way = sowing.raised_by();
  if (!is_sown_there(sowing)) return std::nullopt;
  // A week after all should be up, or sooner where that is too late to sow again.
  const Date up = sowing.in_ground + Days{days_to_come_up(*sowing.sheet)};
  const Date sow_by = context.season.usual_days(way, *sowing.sheet)->until - Days{1};
  const Date day = std::clamp(sow_by, up, up + Days{7});
  return JobDraft{.kind = JobKind::LookForSeedlings,
                  .window = around(day, 7, 7),
                  .where = Raised::InPlace,
                  .sow_by = sow_by};
}

// That day, or the first after the winter on which there is work to do outdoors.
Date in_open_ground(Date day, const RuleContext& context) {
  return std::max(day, context.season.open_from().value_or(day));
}

std::optional<JobDraft> thin(const Sowing& sowing, const RuleContext& context) {
  if (!is_sown_there(sowing)) return std::nullopt;
  Date day = sowing.in_ground + Days{days_to_come_up(*sowing.sheet) + kThinAfterEmergence};
  if (const auto& winter = context.season.winter()) {
    // Seedlings of a late sowing are thinned when they grow again.
    if (winter->contains(day)) day = in_open_ground(winter->until + Days{14}, context);
  }
  return JobDraft{.kind = JobKind::Thin, .window = around(day, 7, 14), .where = Raised::InPlace};
}

// What is set out bare-rooted in winter is not in leaf.
bool goes_in_asleep(const Sowing& sowing, const RuleContext& context) {
  const auto& winter = context.season.winter();
  return sowing.raised_by().method == Method::BoughtPlants && winter &&
         winter->contains(sowing.in_ground);
}

std::optional<JobDraft> water_in(const Sowing& sowing, const RuleContext& context) {
  if (!is_planted_out(sowing) || goes_in_asleep(sowing, context)) return std::nullopt;
  return JobDraft{.kind = JobKind::WaterIn,
                  .window = around(sowing.in_ground, 0, kYoungDays),
                  .where = Raised::InPlace};
}

std::optional<JobDraft> slugs(const Sowing& sowing, const RuleContext& context) {
  if (!is_sown_there(sowing) && !is_planted_out(sowing)) return std::nullopt;
  if (goes_in_asleep(sowing, context)) return std::nullopt;
  return JobDraft{.kind = JobKind::Slugs,
                  .window = around(sowing.in_ground, 0, kYoungDays),
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

// Where the plan or the sheet wants it; when it is far enough on, not in the dark of the winter,
// when it would not branch, and not so late that it flowers at once.
std::optional<JobDraft> pinch(const Sowing& sowing, const RuleContext& context) {
  if (!sowing.pinched) return std::nullopt;
  const growth::Forecast& forecast = sowing.timeline.forecast;
  const bool by_heat = sowing.sheet->pinch.at_kd && !forecast.stages.empty();
  if (by_heat && !forecast.pinched) return std::nullopt;
  const Date latest = sowing.timeline.first_flower.likely - Days{28};
  Date day = std::min(by_heat ? *forecast.pinched : usual_pinch_day(sowing, context), latest);
  const auto& winter = context.season.winter();
  if (winter && winter->contains(day)) day = winter->until;
  if (day > latest) return std::nullopt;
  return where_it_stands(JobKind::Pinch, around(day, 4, 10), sowing, context);
}

// Stakes and frames stand before roots and tubers are there to be pierced, nets and rings before
// what they hold is tall; what does not flower within the year is not.
std::optional<JobDraft> support(const Sowing& sowing, const RuleContext&) {
  using enum Sheet::Support;
  const Sheet::Support kind = sowing.sheet->support;
  const bool is_too_young = stays_in_ground(sowing.sheet->life_cycle) && !sowing.gives_stems();
  if (kind == No || is_too_young || sowing.without_flower) return std::nullopt;
  // What is sown there is staked when it is thinned to its distance.
  if (!sowing.stands && (kind == Frame || (kind == Stakes && !is_sown_there(sowing)))) {
    return JobDraft{.kind = JobKind::Support,
                    .window = around(sowing.in_ground, 0, 0),
                    .where = Raised::InPlace};
  }
  const Date flower = sowing.timeline.first_flower.likely;
  const bool is_up = sowing.stands || is_planted_out(sowing);
  const int low_for =
      is_up ? kSupportAfterPlanting : days_to_come_up(*sowing.sheet) + kSupportAfterComingUp;
  const Date day = std::max(sowing.in_ground + Days{low_for}, flower - Days{kSupportBeforeFlower});
  return JobDraft{.kind = JobKind::Support,
                  .window = {day, day - Days{7}, std::max(day, flower - Days{kSupportLast})},
                  .where = Raised::InPlace,
                  .apart = true};
}

// From laying to taking off: through the winter what needs it or stands under the bed's fleece; of
// what goes under that in spring, until frost is past.
struct Fleeced {
  Window laid;
  Date off;
};

std::optional<Fleeced> through_winter(const Sowing& sowing, const RuleContext& context) {
  const Date frost = context.season.frosts(FlowersIn::NextYear).first;
  const Window laid = around(frost + Days{kFleeceAfterFrost}, kFleeceAfterFrost, kFleeceAfterFrost);
  Date off = std::max(context.season.range().from + Days{kUncoverIntoYear},
                      context.season.frosts().last - Days{kUncoverBeforeFrost});
  off = in_open_ground(off, context);
  if (sowing.raised_by().needs != Needs::Tunnel) {
    off = std::min(off, sowing.timeline.first_flower.likely - Days{kUncoverBeforeFlower});
  }
  return Fleeced{laid, std::max({off, sowing.in_ground, laid.last + Days{1}})};
}

std::optional<Fleeced> through_spring(const Sowing& sowing, const RuleContext& context, Date from) {
  const auto safe = frost_safe_day(context);
  if (!safe) return std::nullopt;
  const Date off =
      std::min(*safe, sowing.timeline.first_flower.likely - Days{kUncoverBeforeFlower});
  if (off < from + Days{kWorthLaying}) return std::nullopt;
  return Fleeced{around(from, 0, kWorthLaying - 1), off};
}

// Dies back or drops its leaves, and wants its cold; the corms that are planted in autumn are green
// by then.
bool sleeps(const Sowing& sowing) {
  return stays_in_ground(sowing.sheet->life_cycle) || sowing.sheet->life_cycle == LifeCycle::Bulb;
}

std::optional<Fleeced> fleeced(const Sowing& sowing, const RuleContext& context) {
  if (sowing.under_fleece) return through_winter(sowing, context);
  if (sowing.cover != Cover::Fleece) return std::nullopt;
  const Date year = context.season.range().from;
  if (!sowing.stands && sowing.in_ground >= year) {
    return through_spring(sowing, context, sowing.in_ground);
  }
  return sleeps(sowing) ? through_spring(sowing, context, year + Days{kUncoverIntoYear})
                        : through_winter(sowing, context);
}

std::optional<JobDraft> protect(const Sowing& sowing, const RuleContext& context) {
  const auto days = fleeced(sowing, context);
  if (!days) return std::nullopt;
  return JobDraft{.kind = JobKind::Protect, .window = days->laid, .where = Raised::InPlace};
}

std::optional<JobDraft> uncover(const Sowing& sowing, const RuleContext& context) {
  const auto days = fleeced(sowing, context);
  if (!days) return std::nullopt;
  return JobDraft{
      .kind = JobKind::Uncover, .window = around(days->off, 0, 21), .where = Raised::InPlace};
}

std::optional<JobDraft> disbud(const Sowing& sowing, const RuleContext&) {
  const auto& advice = sowing.sheet->disbud;
  if (!advice || !sowing.is_cut() || !sowing.gives_stems()) return std::nullopt;
  const Date cut = sowing.timeline.first_cut.likely;
  const Date day =
      std::max(cut - Days{std::lround(7 * advice->weeks_before_cut)}, sowing.in_ground);
  return JobDraft{.kind = JobKind::Disbud,
                  .window = {day, std::max(day - Days{7}, sowing.in_ground), cut},
                  .where = Raised::InPlace};
}

std::optional<JobDraft> prune(const Sowing& sowing, const RuleContext& context) {
  auto draft = in_its_window(JobKind::Prune, sowing, context);
  if (!draft) return std::nullopt;
  Window& days = draft->window;
  const Days later = std::max(Days{0}, context.season.range().from + kPruneIntoYear - days.first);
  days = {days.day + later, days.first + later, days.last + later};
  return draft;
}

std::optional<JobDraft> divide(const Sowing& sowing, const RuleContext& context) {
  if (!sowing.stands) return std::nullopt;  // it was planted for this year's flowers
  return in_its_window(JobKind::Divide, sowing, context);
}

// What the winter asks for waits for no thinning in spring.
constexpr Rule* kRules[] = {water_in,           watch_for_frost, slugs,   protect, uncover, thin,
                            look_for_seedlings, pinch,           support, disbud,  prune,   divide};

}  // namespace

std::span<Rule* const> tending_rules() { return kRules; }

}  // namespace trug::work
