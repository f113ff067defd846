// SPDX-License-Identifier: MIT
#include "ground/judge.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "climate/frost.h"
#include "climate/soil.h"
#include "ground/judge_dates.h"
#include "ground/outcome.h"
#include "growth/summer.h"
#include "growth/winter.h"

namespace trug::ground {
namespace {

constexpr int kHalfHardyBeforeFrost =
    30;                              // screen -2 degC against garden frost (growth models, 4 and 7)
constexpr int kTuberEmergence = 21;  // from planting to leaves, where the soil tells none (memory)
constexpr int kMidwinterAfterSeasonStart = 45;  // until then hard cold may still come (memory)
constexpr double kTooEarlyShare = 0.4;  // of the last stage by the first ten-hour day (memory)
constexpr double kWholeRosette = 0.995;
constexpr double kHalfRosette = 0.5;    // memory
constexpr int kFewestDaysToCut = 8;     // so that two crops of a stretch never share a week
constexpr double kColdStoreSoilC = 16;  // bulbs from cold storage go into cooler soil (memory)
constexpr double kFairChance = 0.5;     // of a first flower before the season ends
constexpr double kWorthDays = 7;        // of cutting to expect

bool is_there(const Case& of) { return of.begun.in_ground.has_value() || of.must_stand; }
bool has_begun(const Case& of) { return of.begun.way || of.begun.first_cut; }
// What keeps its place whatever rule it breaks, and is told it.
bool stays(const Case& of, const Candidate& c) {
  const bool as_told = of.pinned == Pinned::BoundUnlessTold && of.begun.earlier &&
                       of.begun.earlier->in_ground == c.in_ground;
  return c.stands || of.pinned == Pinned::Told || as_told;
}
bool is_hardy(const Case& of) { return frost_class(of.sheet) == FrostClass::Hardy; }

// Whether nobody asked for that way or that day.
bool is_chosen_freely(const Case& of) {
  return !of.entry.since && !of.entry.pins.way && !of.is_pinned();
}

Date midwinter(const Case& of) { return of.clock.season().from + Days{kMidwinterAfterSeasonStart}; }

// A bulb planted in autumn in a winter too mild for it, of a sheet that does not say how much cold
// it needs.
bool wants_cold(const Case& of, const Way& way) {
  return !of.sheet.chill && of.sheet.life_cycle == LifeCycle::Bulb && way.method == Method::Bulb &&
         way.flowers != FlowersIn::SameYear &&
         of.setting.climate.coldest_month_c().value_or(kMildWinterC) > kMildWinterC;
}

// When what is sown or planted in place shows: by the warmth of the soil where the sheet tells it.
// What never shows is exposed to nothing.
Date emergence(const Case& of, const Candidate& c, const Way& way) {
  const bool in_place = c.stands || way.raised == Raised::InPlace;
  if (in_place && way.method == Method::Seed && of.sheet.germination_days) {
    return c.in_ground + Days{static_cast<int>(of.sheet.germination_days->middle())};
  }
  if (!in_place || way.method != Method::Bulb) return c.in_ground;
  const auto forecast =
      of.sheet.emergence ? of.clock.forecast_of(way, c.start, c.in_ground) : std::nullopt;
  if (!forecast) return c.in_ground + Days{kTuberEmergence};
  return forecast->end_of(growth::StageName::Emerge).value_or(of.clock.season().until);
}

// Tender plants outdoors wait for the day on which the accepted risk is left; half-hardy ones are
// allowed that much earlier. What is sown or planted bare in place counts from its emergence.
std::optional<Refusal> judge_frost(const Case& of, Candidate& c, const Way& way) {
  if (is_hardy(of) || way.method == Method::Established) return std::nullopt;
  const bool half_hardy = frost_class(of.sheet) == FrostClass::HalfHardy;
  // The winter's cold decides, not spring's; tender plants stand no winter.
  if (half_hardy && c.in_ground < midwinter(of)) return std::nullopt;
  const Date safe = of.last_frosts.safe - Days{half_hardy ? kHalfHardyBeforeFrost : 0};
  const Date exposed = emergence(of, c, way);
  if (exposed >= safe) return std::nullopt;
  Refusal refusal{Rule::FrostRisk, c.start, exposed, safe};
  refusal.share = climate::normal_cdf(days_between(exposed, of.last_frosts.average) /
                                      double{climate::kSpringSpreadDays});
  return refusal;
}

// What is sown in a frame in autumn is to come up before the winter.
std::optional<Refusal> judge_cold_frame(const Case& of, const Candidate& c, const Way& way) {
  const bool sown_in_autumn =
      way.method == Method::Seed && way.raised == Raised::Frame && c.start < of.clock.season().from;
  if (!of.warm_soil || !sown_in_autumn || of.is_pinned()) return std::nullopt;
  Refusal refusal{.rule = Rule::ColdSoil, .start = c.start, .found_day = c.start};
  refusal.found = growth::soil_after_sowing_c(of.setting.climate, way.raised, c.start);
  refusal.wanted = of.warm_soil->needed_c;
  return refusal.found < refusal.wanted ? std::optional(refusal) : std::nullopt;
}

// Corms and tubers that frost harms lie in cold soil and rot (common practice): at 7 degC they may.
std::optional<Refusal> judge_cold_corms(const Case& of, const Candidate& c, const Way& way) {
  const bool planted_in_spring = way.method == Method::Bulb && way.raised == Raised::InPlace &&
                                 c.start >= of.clock.season().from;
  if (!of.warm_soil || !planted_in_spring || of.is_pinned() || is_hardy(of)) return std::nullopt;
  Refusal refusal{.rule = Rule::ColdSoil, .start = c.start, .found_day = c.start};
  refusal.found = climate::soil_c(of.setting.climate, c.start);
  refusal.wanted = climate::sowing_soil_c(FrostClass::Hardy);
  return refusal.found < refusal.wanted ? std::optional(refusal) : std::nullopt;
}

// Spring sowings outdoors wait for warm soil, its date taken a week early since it is no better
// known. Hardy seed lies and waits: for it cold soil only costs its place in the window's middle.
std::optional<Refusal> judge_cold_soil(const Case& of, Candidate& c, const Way& way) {
  if (auto frame = judge_cold_frame(of, c, way)) return frame;
  if (auto corms = judge_cold_corms(of, c, way)) return corms;
  const bool sown_in_spring = way.method == Method::Seed && way.raised == Raised::InPlace &&
                              c.start >= of.clock.season().from;
  const auto& warm = of.warm_soil;
  if (!warm || !sown_in_spring) return std::nullopt;
  c.cold_soil = !warm->from || c.start < *warm->from - Days{climate::kSoilDays};
  if (!c.cold_soil || of.is_pinned() || is_hardy(of)) return std::nullopt;
  Refusal refusal{Rule::ColdSoil, c.start, c.start, warm->from};
  refusal.found = climate::soil_c(of.setting.climate, c.start);
  refusal.wanted = warm->needed_c;
  return refusal;
}

// Soil too warm for seed and corms to grow, bulbs to rest or hardy annuals to be set out.
std::optional<Refusal> judge_warm_soil(const Case& of, Candidate& c, const Way& way) {
  if (c.stands) return std::nullopt;
  const climate::Climate& climate = of.setting.climate;
  Refusal refusal{.rule = Rule::WarmSoil, .start = c.start};
  if (way.pre_chilled && climate.has_temperatures()) {
    refusal.found = climate::soil_c(climate, c.start);
    refusal.wanted = kColdStoreSoilC;
    return refusal.found >= refusal.wanted ? std::optional(refusal) : std::nullopt;
  }
  if (!growth::too_warm_to_sow(climate, of.sheet, way, c.start)) {
    if (!growth::meets_the_summer(climate, of.sheet, way, c.in_ground)) return std::nullopt;
    refusal.found_day = c.in_ground;
    refusal.found = climate::soil_c(climate, c.in_ground);
    refusal.wanted = growth::kSummerSoilC;
    return refusal;
  }
  refusal.found = growth::soil_after_sowing_c(climate, way.raised, c.start);
  refusal.wanted = *of.sheet.germination_max_soil_c;
  return refusal;
}

// The cold of every winter the plant stands through: in the open, as in a nursery bed and as what
// the plan keeps in the ground, or in a frame. Where more would die than of any planting it is
// covered.
std::optional<Refusal> judge_winter(const Case& of, Candidate& c, const Way& way) {
  const bool in_open = way.method == Method::Established || c.in_ground < midwinter(of) ||
                       (c.stands && of.entry.keep) ||
                       (way.raised == Raised::NurseryBed && c.start < midwinter(of));
  const bool under_glass = !in_open && c.start < midwinter(of) && way.raised == Raised::Frame;
  c.overwinters = in_open || under_glass;
  if (!of.setting.place.coldest_c || !c.overwinters) return std::nullopt;
  const double coldest_c = *of.setting.place.coldest_c;
  const growth::Survival winter = in_open ? growth::in_bed(of.setting.climate, of.sheet, coldest_c,
                                                           of.setting.rules.cover.coldest_c)
                                          : growth::in_frame(of.sheet, coldest_c);
  c.under_fleece = winter.bare < growth::kUsuallyAlive && winter.covered > winter.bare;
  c.alive = c.under_fleece ? winter.covered : winter.bare;
  const double least = is_chosen_freely(of) ? growth::kWorthPlanting : growth::kLeastAlive;
  if (c.alive >= least) return std::nullopt;
  Refusal refusal{.rule = Rule::WinterCold, .start = c.start};
  refusal.found = winter.coldest_c;
  refusal.share = c.alive;
  refusal.wanted =
      growth::coldest_borne_c(of.sheet.survives_c - (in_open ? of.sheet.mulch_gain_c : 0), least);
  return refusal;
}

// The first day from which the winter's cold counts for it: it stood there, it was chilled where it
// was raised for sale, or it is put in. nullopt: it asks for no winter, being kept in the cold for
// the trade or chilled as it grows.
std::optional<Date> chilled_from(const Case& of, const Candidate& c, const Way& way) {
  const Date whole = of.clock.season().from - Days{366};
  if (way.method == Method::Established || c.stands || way.pre_chilled) return whole;
  if (way.method == Method::BoughtPlants) return whole;
  if (way.flowers == FlowersIn::SameYear) return std::nullopt;
  return c.start;
}

// Under six tenths of its winter's cold it does not flower, whatever is done for it; up to the
// whole its stems are short and fewer. Bulbs from cold storage are for winters that do not chill
// them.
std::optional<Refusal> judge_chill(const Case& of, Candidate& c, const Way& way) {
  const auto from = chilled_from(of, c, way);
  const auto cold = from ? of.clock.winter_cold(*from) : std::nullopt;
  if (!cold) return std::nullopt;
  Refusal refusal{.rule = Rule::NoFlower, .start = c.start};
  refusal.found = cold->found;
  refusal.wanted = cold->needed;
  refusal.chilling = true;
  if (way.pre_chilled) {
    if (cold->share() < 1) return std::nullopt;
    refusal.rule = Rule::EnoughCold;
    return refusal;
  }
  if (cold->share() < growth::kLeastColdShare) {
    c.without_flower = true;
    return refusal;
  }
  if (of.sheet.chill) c.cold = cold;
  return std::nullopt;
}

// With how far it came where heat decides: the days of cold it lacks, else the degree-days of its
// last stage.
Refusal no_flower(const Case& of, const Candidate& c, const Way& way) {
  Refusal refusal{.rule = Rule::NoFlower, .start = c.start};
  if (const auto forecast = of.clock.forecast_of(way, c.start, c.in_ground)) {
    const auto& stages = forecast->stages;
    const auto chill = std::ranges::find_if(stages, [](const growth::Stage& stage) {
      return stage.name == growth::StageName::Chill && !stage.end;
    });
    refusal.chilling = chill != stages.end();
    const growth::Stage& lacking = refusal.chilling ? *chill : stages.back();
    refusal.found = lacking.reached;
    refusal.wanted = lacking.need;
  }
  return refusal;
}

// What stands already may flower from the first day of its season.
Date soonest_cut(const Case& of, const Candidate& c, const Way& way, growth::Basis basis) {
  const Date season = of.clock.season().from;
  if (way.method == Method::Established) return season;
  const bool settles = stays_in_ground(of.sheet.life_cycle) && c.in_ground >= season &&
                       basis == growth::Basis::Window;
  return c.in_ground + Days{settles ? kSettleDays : kFewestDaysToCut};
}

// Where no winter chills a bulb in the ground, the trade's windows date nothing.
std::optional<Refusal> judge_first_cut(const Case& of, const Candidate& c, const Way& way,
                                       const growth::Timeline& timeline) {
  const Date soonest = soonest_cut(of, c, way, timeline.basis);
  const Date cut = timeline.first_cut.likely;
  if (cut >= soonest) return std::nullopt;
  Refusal refusal{Rule::NoFlower, c.start, cut, soonest};
  refusal.mild_winter = wants_cold(of, way);
  if (refusal.mild_winter) {
    refusal.found = of.setting.climate.coldest_month_c().value_or(0);
    refusal.wanted = kMildWinterC;
  }
  return refusal;
}

constexpr int kNotThatStart = 10'000;  // days off: it cannot have been cut on the recorded day

// Sets the timeline, whatever comes of it.
std::optional<Refusal> set_timeline(const Case& of, Candidate& c, const Way& way) {
  const auto& cut = of.begun.first_cut;
  // What nobody knows when to have begun tells nothing by its pinch.
  const auto pinched = of.begun.start ? of.begun.pinched : std::nullopt;
  auto timeline = of.clock.timeline(way, c.start, c.in_ground, {pinched, {}});
  if (cut) {
    const bool may_be = timeline && c.in_ground < *cut;
    c.off_record = may_be ? days_between(*cut, timeline->first_cut.likely) : kNotThatStart;
    timeline = of.clock.timeline(way, c.start, c.in_ground, {pinched, cut});
  }
  auto refusal = timeline ? judge_first_cut(of, c, way, *timeline) : no_flower(of, c, way);
  c.without_flower = !timeline || (!cut && (refusal || c.without_flower));
  c.timeline =
      c.without_flower ? of.clock.without_flower(way, c.start, c.in_ground) : std::move(*timeline);
  return refusal;
}

std::optional<Refusal> judge_before_winter(const Case& of, Candidate& c, const Way& way) {
  const Date flower = c.timeline.first_flower.likely;
  if (!c.stands && flower < c.in_ground) {
    return Refusal{Rule::FlowersInPot, c.start, flower, c.in_ground};
  }
  if (way.method == Method::Established) return std::nullopt;
  if (flower < of.clock.season().from) {
    return Refusal{Rule::FlowersBeforeWinter, c.start, flower, of.clock.season().from};
  }
  const auto judged = of.clock.winter_judging_day();
  if (!judged || c.start >= *judged || c.timeline.basis == growth::Basis::Window) {
    return std::nullopt;
  }
  if (of.sheet.life_cycle != LifeCycle::Biennial) {
    c.too_early = c.timeline.forecast.flower_share > kTooEarlyShare;
    return std::nullopt;
  }
  const double share = c.timeline.forecast.respond_share;
  c.small_rosette = share < kWholeRosette;
  if (share >= kHalfRosette) return std::nullopt;
  Refusal refusal{.rule = Rule::RosetteTooSmall, .start = c.start};
  refusal.found = share;
  refusal.wanted = kHalfRosette;
  return refusal;
}

// A perennial that the summer kills is grown for one year: what would have to live through a summer
// before its first flower has none.
std::optional<Refusal> judge_summer(const Case& of, Candidate& c, const Way&) {
  const climate::Climate& climate = of.setting.climate;
  if (!growth::dies_in_summer(climate, of.sheet)) return std::nullopt;
  c.one_year = true;
  const Date hottest = growth::hottest_day(climate, of.clock.season());
  const Date flower = c.timeline.first_flower.likely;
  const bool year_before = c.stands || c.start < hottest - Days{365};
  if (!year_before && (c.start > hottest || flower <= hottest)) return std::nullopt;
  Refusal refusal{.rule = Rule::SummerHeat, .start = c.start};
  refusal.found = climate.hottest_month_max_c().value_or(0);
  refusal.wanted = of.sheet.lives_to_mean_max_c.value_or(0);
  return refusal;
}

// In the largest pot it is grown in it starves from a day on.
std::optional<Refusal> judge_pot(const Case&, Candidate& c, const Way&) {
  const auto& outgrown = c.timeline.forecast.outgrows_pot;
  c.starved = outgrown && *outgrown < c.in_ground;
  if (!c.starved) return std::nullopt;
  return Refusal{Rule::PotTooOld, c.start, outgrown, c.in_ground};
}

// It flowers before its season ends as likely as not, and is then cut for a week: what gives less
// than a fortnight, for half of that.
std::optional<Refusal> judge_season(const Case& of, Candidate& c, const Way&) {
  const growth::Worth worth = of.clock.worth(c.timeline);
  const int whole = CropSpec(of.sheet, of.group).cutting_days();
  const double needed = std::min(kWorthDays, whole / 2.0);
  const bool is_cut = !c.timeline.shares.empty();
  if (is_cut && worth.chance >= kFairChance && worth.cutting_days >= needed) return std::nullopt;
  const Date first = c.timeline.first_cut.likely;
  const Date end = of.clock.season_end();
  const auto& hot = c.timeline.too_hot_from;
  Refusal refusal =
      hot ? Refusal{Rule::TooHot, c.start, first, hot}
          : Refusal{Rule::SeasonTooShort, c.start, first,
                    std::min(first - Days{1}, end - Days{std::lround(std::ceil(needed)) - 1})};
  refusal.found = std::floor(std::min(worth.cutting_days, needed - 1));
  refusal.wanted = std::ceil(needed);
  return refusal;
}

// What failed is begun again for the wish, not for what comes after it.
std::optional<Refusal> judge_wish(const Case& of, Candidate& c, const Way&) {
  const auto& end = of.setting.wish_end;
  const Date cut = c.timeline.first_cut.likely;
  if (!of.begun.again_from || !end || cut <= *end || of.is_pinned()) return std::nullopt;
  return Refusal{Rule::AfterWish, c.start, cut, end};
}

// What keeps its place though it breaks a rule, and is not told: what has begun has, and what
// stands in the ground stands there.
enum class Spares { Nothing, WhatIsThere, WhatHasBegun };

bool is_spared(const Case& of, Spares spares) {
  if (spares == Spares::WhatIsThere) return is_there(of);
  return spares != Spares::Nothing && has_begun(of);
}

struct Judging {
  std::optional<Refusal> (*judge)(const Case&, Candidate&, const Way&);
  Spares spares;
};

// In this order: the later ones read what the earlier ones set.
constexpr Judging kJudgings[] = {
    {judge_frost, Spares::WhatIsThere},          {judge_cold_soil, Spares::WhatIsThere},
    {judge_warm_soil, Spares::WhatHasBegun},     {judge_winter, Spares::WhatHasBegun},
    {judge_chill, Spares::WhatHasBegun},         {set_timeline, Spares::WhatHasBegun},
    {judge_before_winter, Spares::WhatHasBegun}, {judge_summer, Spares::WhatHasBegun},
    {judge_pot, Spares::WhatHasBegun},           {judge_season, Spares::WhatHasBegun},
    {judge_wish, Spares::WhatHasBegun},
};

// Whether all it could give falls into another flowering year than the plan's.
bool is_of_another_year(const Case& of, const Candidate& c, const Refusal& refusal) {
  return !c.stands &&
         (refusal.rule == Rule::FlowersBeforeWinter || c.in_ground >= of.clock.season().until);
}

}  // namespace

LastFrosts frosts_of(const Setting& setting) {
  const Date average =
      setting.climate.frosts(setting.flowering_year).last - Days{setting.rules.cover.frost_days};
  return {average, climate::frost_safe_day(average, climate::kSpringSpreadDays, setting.place.risk)
                       .value_or(average)};
}

std::optional<Refusal> judge(const Case& of, Candidate& c) {
  const Way& way = of.sheet.ways[c.way];
  if (auto refusal = judge_dates(of, c, way)) return refusal;
  for (const Judging& each : kJudgings) {
    auto refusal = each.judge(of, c, way);
    if (!refusal || is_spared(of, each.spares)) continue;
    if (!stays(of, c) || is_of_another_year(of, c, *refusal)) return refusal;
    if (!c.against) c.against = std::move(refusal);
  }
  if (c.timeline.shares.empty()) c.timeline.shares = {0};
  c.needs_cold_store = way.pre_chilled || wants_cold(of, way);
  set_outcome(of, c, way);
  return std::nullopt;
}

}  // namespace trug::ground
