// SPDX-License-Identifier: MIT
// Buying what is needed, and bringing it into the ground.
#include <algorithm>
#include <cmath>
#include <optional>
#include <span>
#include <string>

#include "climate/frost.h"
#include "climate/soil.h"
#include "ground/candidates.h"
#include "growth/crop_clock.h"
#include "growth/winter.h"
#include "work/goods.h"
#include "work/rules.h"

namespace trug::work {

using ground::Sowing;

namespace {

// When what is needed is ordered, in days before it is: usually, where the sheet knows no month in
// which it is best bought, and at the latest.
struct OrderDays {
  int usual, latest;
};
constexpr OrderDays kOrderSeed{28, 14};
constexpr OrderDays kOrderBulbs{70, 21};
constexpr OrderDays kOrderPlants{42, 14};
// Hardening off takes ten to fourteen days (common practice), of what is up for some days.
constexpr int kHardenBefore = 12, kHardenFirst = 14, kHardenLast = ground::kHardenedDays,
              kHardenAtLeast = 4;
constexpr int kWorthPottingOn = 10;  // days in the larger pot (memory)
constexpr int kSettled =
    7;  // days in which potted plants root before they are hardened off (memory)
constexpr int kDefaultGermination = 14;
constexpr double kWatchRisk = 0.05;  // until one year in twenty
constexpr int kSoilAdviceDays = 21;  // after the soil is likely warm, it surely is

// Bought and begun so; not what stands there already, nor young plants that are there.
bool is_begun_as(const Sowing& sowing, Method method) {
  return !sowing.stands && !sowing.young_plants && sowing.raised_by().method == method;
}

// On the first of the gardener's days in its month, a week of which is in time.
JobDraft order(Goods goods, const Sowing& sowing, const RuleContext& context, Date needed,
               OrderDays days) {
  const Date usual = needed - Days{days.usual};
  const Date last = needed - Days{days.latest};
  const Date month = best_month(*sowing.sheet, goods, context.plan.place, last - Days{6})
                         .value_or(month_begin(usual));
  return {.kind = order_of(goods), .window = {month, month, last}};
}

// The days on which a raised start is right: so that its weeks under cover end in the window for
// going out.
Window raising_window(const Sowing& sowing, const RuleContext& context) {
  const Way& way = sowing.raised_by();
  const DateRange out = *context.season.usual_days(way, *sowing.sheet);
  const Range& weeks = *way.weeks_under_cover;
  return {sowing.start, out.from - Days{static_cast<int>(weeks.high * 7)},
          out.until - Days{static_cast<int>(weeks.low * 7) + 1}};
}

std::optional<growth::WarmSoil> warm_soil(const Sowing& sowing, const RuleContext& context) {
  const climate::Climate& climate = context.season.climate();
  if (!climate.has_temperatures()) return std::nullopt;
  const double needed_c = climate::sowing_soil_c(sowing.spec().frost_class());
  return growth::WarmSoil{needed_c,
                          climate::soil_warm_from(climate, needed_c, context.season.range())};
}

bool waits_for_warm_soil(const Sowing& sowing) {
  return is_sown_in_place(sowing.raised_by()) && frost_class(*sowing.sheet) != FrostClass::Hardy;
}

// Into the bed, not before the soil is warm, its date taken as early as it may be.
JobDraft into_the_bed(JobKind kind, const Sowing& sowing, const RuleContext& context) {
  const DateRange window =
      context.season.usual_days(sowing.raised_by(), *sowing.sheet).value_or(sowing.window);
  Date first = window.from;
  const auto soil = waits_for_warm_soil(sowing) ? warm_soil(sowing, context) : std::nullopt;
  if (soil && soil->from) first = std::max(first, *soil->from - Days{climate::kSoilDays});
  return {.kind = kind,
          .window = {sowing.in_ground, first, window.until - Days{1}},
          .where = Raised::InPlace};
}

// The degrees to measure, in the weeks in which the soil may still be too cold for the seed.
std::optional<double> soil_to_measure(const Sowing& sowing, const RuleContext& context) {
  if (sowing.start < context.season.range().from) return std::nullopt;
  const auto soil = warm_soil(sowing, context);
  if (!soil || (soil->from && sowing.start >= *soil->from + Days{kSoilAdviceDays})) {
    return std::nullopt;
  }
  return soil->needed_c;
}

// The day the bulbs must be at hand: before their weeks in the cold, where they need them.
Date bulbs_needed(const Sowing& sowing) {
  if (!sowing.needs_cold_store) return sowing.start;
  return sowing.start - Days{std::lround(ground::cold_store_days(*sowing.sheet).middle())};
}

}  // namespace

Window around(Date day, int before, int after) {
  return {day, day - Days{before}, day + Days{after}};
}

int days_to_come_up(const Sheet& sheet) {
  return sheet.germination_days ? static_cast<int>(std::lround(sheet.germination_days->high))
                                : kDefaultGermination;
}

std::optional<Date> frost_safe_day(const RuleContext& context) {
  return climate::frost_safe_day(context.season.frosts().last, climate::kSpringSpreadDays,
                                 kWatchRisk);
}

namespace {

// Raised in warmth here, or in hand of a crop that is raised so.
bool comes_from_warmth(const Sowing& sowing) {
  const auto in_warmth = [](const Way& way) {
    return way.raised == Raised::Heated && way.weeks_under_cover;
  };
  return sowing.young_plants ? std::ranges::any_of(sowing.sheet->ways, in_warmth)
                             : in_warmth(sowing.raised_by());
}

// Taken as done: they do not go back into warmth, however much later they go out now.
std::optional<Date> hardened_as_told(const Sowing& sowing, const RuleContext& context) {
  if (sowing.begun.ready_from) return std::nullopt;
  const auto told = told_day(context.plan.plantings[sowing.planting], sowing.number,
                             sowing.begun.repeat, std::string(to_string(JobKind::HardenOff)));
  const bool is_past = told && *told < context.when.today && *told < sowing.in_ground;
  return is_past && (sowing.young_plants || sowing.start < *told) ? told : std::nullopt;
}

}  // namespace

std::optional<Date> hardened_from(const Sowing& sowing, const RuleContext& context) {
  if (sowing.stands || !comes_from_warmth(sowing)) return std::nullopt;
  if (const auto done = hardened_as_told(sowing, context)) return done;
  const Date out = sowing.in_ground;
  if (sowing.young_plants) {
    const Date from = std::max(out - Days{kHardenBefore}, context.when.today);
    return from + Days{kHardenAtLeast} <= out ? std::optional(from) : std::nullopt;
  }
  const Date up = sowing.start + Days{days_to_come_up(*sowing.sheet)};
  return std::clamp(up, out - Days{kHardenBefore}, out - Days{kHardenAtLeast});
}

Standing standing(const Sowing& sowing, const RuleContext& context, Date day) {
  if (sowing.stands || day >= sowing.in_ground) {
    return {Raised::InPlace, {sowing.in_ground, std::max(day, sowing.lift) + Days{1}}};
  }
  const Raised raised = sowing.raised_by().raised;
  Date warm_until = sowing.in_ground;
  if (const auto hardened = hardened_from(sowing, context)) {
    const bool has_frame = context.plan.shelter.frame_m2 > 0;
    if (day >= *hardened) {
      return {has_frame ? std::optional(Raised::Frame) : std::nullopt,
              {*hardened, sowing.in_ground}};
    }
    warm_until = *hardened;
    const auto cool = grown_cool_from(*sowing.sheet, sowing.start);
    if (has_frame && cool && *cool < *hardened) {
      if (day >= *cool) return {Raised::Frame, {*cool, *hardened}};
      warm_until = *cool;
    }
  }
  return {raised, {sowing.start, warm_until}};
}

JobDraft where_it_stands(JobKind kind, Window window, const Sowing& sowing,
                         const RuleContext& context) {
  const auto& [where, days] = standing(sowing, context, window.day);
  window.first = std::max(window.first, std::min(days.from, window.day));
  window.last = std::min(window.last, days.until - Days{1});
  return {.kind = kind, .window = window, .where = where, .where_it_stands = true};
}

namespace {

std::optional<JobDraft> order_seed(const Sowing& sowing, const RuleContext& context) {
  if (!is_begun_as(sowing, Method::Seed)) return std::nullopt;
  return order(Goods::Seed, sowing, context, sowing.start, kOrderSeed);
}

std::optional<JobDraft> order_bulbs(const Sowing& sowing, const RuleContext& context) {
  if (!is_begun_as(sowing, Method::Bulb)) return std::nullopt;
  const bool like_bulbs =
      sowing.sheet->life_cycle == LifeCycle::Bulb || sowing.sheet->life_cycle == LifeCycle::Corm;
  return order(like_bulbs ? Goods::Bulbs : Goods::Tubers, sowing, context, bulbs_needed(sowing),
               kOrderBulbs);
}

std::optional<JobDraft> order_plants(const Sowing& sowing, const RuleContext& context) {
  if (!is_begun_as(sowing, Method::BoughtPlants)) return std::nullopt;
  return order(Goods::Plants, sowing, context, sowing.in_ground, kOrderPlants);
}

std::optional<JobDraft> pre_treat(const Sowing& sowing, const RuleContext& context) {
  const auto& treat = sowing.sheet->pretreat;
  const Way& way = sowing.raised_by();
  const bool cold_only = !treat || treat->kind == Pretreatment::Kind::ColdStore;
  if (sowing.stands || sowing.young_plants || way.method == Method::BoughtPlants ||
      (cold_only && !sowing.needs_cold_store) ||
      growth::ground_chills_seed(context.season.climate(), *sowing.sheet, way, sowing.start)) {
    return std::nullopt;
  }
  const Range days = sowing.needs_cold_store ? ground::cold_store_days(*sowing.sheet) : treat->days;
  const auto back = [&](double d) {
    return sowing.start - Days{std::max(1, static_cast<int>(std::ceil(d)))};
  };
  // Where half of the shortest time is not left any more, it is done without.
  const auto& first = context.when.first_day;
  const bool hurried = first && sowing.start >= *first && treat && !treat->needed &&
                       days_between(*first, sowing.start) < days.low / 2;
  if (hurried && !sowing.needs_cold_store) return std::nullopt;
  return JobDraft{.kind = JobKind::PreTreat,
                  .window = {back(days.middle()), back(days.high), back(days.low)}};
}

std::optional<JobDraft> sow(const Sowing& sowing, const RuleContext& context) {
  const Way& way = sowing.raised_by();
  if (!is_begun_as(sowing, Method::Seed)) return std::nullopt;
  if (way.raised != Raised::InPlace) {
    return JobDraft{
        .kind = JobKind::Sow, .window = raising_window(sowing, context), .where = way.raised};
  }
  JobDraft job = into_the_bed(JobKind::Sow, sowing, context);
  job.soil_c = soil_to_measure(sowing, context);
  job.winter_takes_some = sowing.overwinters;
  return job;
}

std::optional<JobDraft> plant(const Sowing& sowing, const RuleContext& context) {
  const Way& way = sowing.raised_by();
  if (!is_begun_as(sowing, Method::Bulb)) return std::nullopt;
  if (way.raised == Raised::InPlace) return into_the_bed(JobKind::Plant, sowing, context);
  if (!way.weeks_under_cover) return std::nullopt;
  return JobDraft{
      .kind = JobKind::Plant, .window = raising_window(sowing, context), .where = way.raised};
}

std::optional<JobDraft> prick_out(const Sowing& sowing, const RuleContext& context) {
  const Way& way = sowing.raised_by();
  // What is potted up from the nursery bed is not lined out there before.
  const bool potted_up = way.raised == Raised::NurseryBed && way.pot_on_weeks;
  if (sowing.stands || sowing.young_plants || potted_up || !way.prick_out_weeks) {
    return std::nullopt;
  }
  // What is raised in fewer weeks, in a warm month, is as soon big enough.
  const int half = days_between(sowing.start, sowing.in_ground) / 2;
  const Date day = sowing.start + Days{std::min(7 * *way.prick_out_weeks, half)};
  return where_it_stands(JobKind::PrickOut, around(day, 4, 7), sowing, context);
}

// Where warmth tells its age: on the day its module is too small for it, if it stands in that for
// long enough after to be worth the work; else by the way's weeks.
std::optional<JobDraft> pot_on(const Sowing& sowing, const RuleContext& context) {
  const Way& way = sowing.raised_by();
  if (sowing.stands || sowing.young_plants) return std::nullopt;
  const growth::Forecast& forecast = sowing.timeline.forecast;
  std::optional<Date> day;
  const bool in_soil = way.raised == Raised::NurseryBed;
  if (sowing.sheet->pot && !forecast.stages.empty() && !in_soil) {
    day = forecast.outgrows_module;
    if (day && *day + Days{kWorthPottingOn} > sowing.in_ground) return std::nullopt;
  } else if (way.pot_on_weeks) {
    day = sowing.start + Days{7 * *way.pot_on_weeks};
  }
  if (!day || *day >= sowing.in_ground) return std::nullopt;
  if (const auto hardened = hardened_from(sowing, context)) {
    const Date last = std::max(*hardened, sowing.in_ground - Days{kHardenBefore});
    if (*day + Days{kSettled} > last) return std::nullopt;
  }
  return where_it_stands(JobKind::PotOn, around(*day, 7, 7), sowing, context);
}

// In the frame, where there is one; else it is carried out and in.
std::optional<JobDraft> harden_off(const Sowing& sowing, const RuleContext& context) {
  const auto from = hardened_from(sowing, context);
  if (!from) return std::nullopt;
  const Date out = sowing.in_ground;
  const bool is_whole = *from == out - Days{kHardenBefore};
  const auto safe = frost_safe_day(context);
  return JobDraft{.kind = JobKind::HardenOff,
                  .window = {*from, is_whole ? out - Days{kHardenFirst} : *from,
                             std::max(*from, out - Days{kHardenLast})},
                  .where = standing(sowing, context, *from).where,
                  .frost_may_come = !safe || *from < *safe};
}

std::optional<JobDraft> plant_out(const Sowing& sowing, const RuleContext& context) {
  const Way& way = sowing.raised_by();
  const bool raised_here = way.method == Method::Seed || way.method == Method::Bulb;
  if (sowing.stands || (raised_here && way.raised == Raised::InPlace)) {
    return std::nullopt;
  }
  JobDraft job = into_the_bed(JobKind::PlantOut, sowing, context);
  if (way.weeks_under_cover) {
    const Date big_enough =
        sowing.start + Days{static_cast<int>(std::floor(7 * way.weeks_under_cover->low))};
    job.window.first = std::max(job.window.first, std::min(big_enough, sowing.in_ground));
  }
  job.winter_takes_some = way.method == Method::Seed && sowing.overwinters &&
                          sowing.in_ground < context.season.range().from;
  return job;
}

constexpr Rule* kRules[] = {order_seed, order_bulbs, order_plants, pre_treat,  sow,
                            plant,      prick_out,   pot_on,       harden_off, plant_out};

}  // namespace

std::span<Rule* const> raising_rules() { return kRules; }

}  // namespace trug::work
