// SPDX-License-Identifier: MIT
#include "ground/candidates.h"

#include <algorithm>
#include <cmath>

#include "climate/frost.h"
#include "climate/soil.h"
#include "growth/harvest_curve.h"

namespace trug::ground {
namespace {

using growth::CropClock;

constexpr int kHalfHardyBeforeFrost =
    30;                              // screen -2 degC against garden frost (growth models, 4 and 7)
constexpr int kTuberEmergence = 21;  // from planting to leaves (memory)
constexpr int kMidwinterAfterSeasonStart = 45;  // until then hard cold may still come (memory)
constexpr double kFrameGain = 4;                // above the coldest night outdoors (memory)
constexpr double kTooEarlyShare = 0.4;  // of the last stage by the first ten-hour day (memory)
constexpr double kWholeRosette = 0.995;
constexpr double kHalfRosette = 0.5;   // memory
constexpr double kWeeksOff = 2;        // a pinned start may leave the usual weeks by this
constexpr int kLeafDays = 42;          // bulbs kept: until the leaves have died (common practice)
constexpr int kFewestDaysToCut = 8;    // so that two crops of a stretch never share a week
constexpr double kSuccessionGap = 14;  // between first cuts (common practice)
constexpr int kFewestSeasonDays = 28;
constexpr int kFewestSeasonDaysSingle = 14;

// Generates and judges the candidates of one crop and group.
class Generator {
 public:
  Generator(const Setting& setting, const Sheet& sheet, const CropEntry& entry, const Group* group)
      : setting_(setting),
        sheet_(sheet),
        entry_(entry),
        group_(group),
        clock_(setting.climate, sheet, group, setting.flowering_year, setting.rules),
        warm_soil_(clock_.warm_soil()),
        mild_winter_(setting.climate.coldest_month_c().value_or(kMildWinterC) > kMildWinterC) {}

  void run(Candidates& out) {
    for (std::size_t i = 0; i < sheet_.ways.size(); ++i) {
      report_ = WayReport{.way = i, .group = group_};
      const Way& way = sheet_.ways[i];
      const bool other_pinned = entry_.pins.way && *entry_.pins.way != way.name;
      if (other_pinned || entry_.since.has_value() != stands_by(way)) {
        refuse({.rule = Rule::Pinned});
      } else if (!entry_.since && !has_shelter(way)) {
        refuse({.rule = Rule::NoShelter, .needs = way.raised});
      } else {
        try_way(i, out);
      }
      out.reports.push_back(report_);
    }
  }

 private:
  // The way by which a crop that is said to stand there already is reckoned: as established; bulbs,
  // corms and tubers as planted in their usual time.
  bool stands_by(const Way& way) const {
    if (way.method == Method::Established) return true;
    if (!entry_.since) return false;
    const auto planted = std::ranges::find(sheet_.ways, Method::Bulb, &Way::method);
    return is_planted(sheet_.life_cycle) && planted != sheet_.ways.end() && &way == &*planted;
  }

  bool has_shelter(const Way& way) const {
    switch (way.raised) {
      case Raised::InPlace:
        return true;
      case Raised::Heated:
        return setting_.shelter.heated_trays > 0;
      case Raised::Frame:
        return setting_.shelter.frame_m2 > 0;
      case Raised::NurseryBed:
        return setting_.shelter.nursery_m2 > 0;
    }
    return true;
  }

  void try_way(std::size_t index, Candidates& out) {
    const Way& way = sheet_.ways[index];
    if (way.method == Method::Established) {
      try_start(index, clock_.season().from, clock_.season().from, out);
      return;
    }
    if (!way.window) return;
    const DateRange window = clock_.window_days(*way.window, way.flowers);
    if (entry_.since) {
      const Date usual = window.from + Days{days_between(window.from, window.until) / 2};
      try_start(index, usual, usual, out);
      return;
    }
    const Pins& pins = entry_.pins;
    const bool two_days = pins.start_on && pins.plant_on && *pins.start_on != *pins.plant_on;
    if (is_sown_in_place(way) && two_days) {
      refuse({.rule = Rule::Pinned});  // the plan wants it planted
      return;
    }
    const bool long_under_cover = way.weeks_under_cover && way.raised != Raised::NurseryBed &&
                                  way.weeks_under_cover->low > kLongUnderCoverWeeks;
    const int late = long_under_cover             ? kLateWeeksLongUnderCover
                     : way.method == Method::Bulb ? kLateWeeksBulbs
                                                  : kLateWeeks;
    DateRange days{window.from, window.until + Days{7 * late}};
    if (pins.plant_on) days = {*pins.plant_on, *pins.plant_on + Days{1}};
    if (pins.start_on && !way.weeks_under_cover) days = {*pins.start_on, *pins.start_on + Days{1}};
    if (pins.start_on && !pins.plant_on && way.weeks_under_cover) days = within_reach(way, days);
    for (Date day = days.from; day < days.until; day += Days{1}) {
      if (!pins.plant_on && !is_work_day(day) && !(pins.start_on && !way.weeks_under_cover))
        continue;
      try_in_ground(index, day, out);
    }
  }

  // The days of `window` on which plants of the pinned start can go out; where there are none, all
  // on which they can: pins beat windows.
  DateRange within_reach(const Way& way, DateRange window) const {
    const Range& weeks = *way.weeks_under_cover;
    const DateRange reach{
        *entry_.pins.start_on + Days{std::lround(7 * (weeks.low - kWeeksOff))},
        *entry_.pins.start_on + Days{std::lround(7 * (weeks.high + kWeeksOff)) + 1}};
    const DateRange both{std::max(reach.from, window.from), std::min(reach.until, window.until)};
    return both.from < both.until ? both : reach;
  }

  void try_in_ground(std::size_t index, Date day, Candidates& out) {
    const Way& way = sheet_.ways[index];
    if (!way.weeks_under_cover) {
      try_start(index, day, day, out);
      return;
    }
    if (const auto& start = entry_.pins.start_on) {
      const double weeks = days_between(*start, day) / 7.0;
      const Range& usual = *way.weeks_under_cover;
      const double wanted = std::clamp(weeks, usual.low - kWeeksOff, usual.high + kWeeksOff);
      if (weeks == wanted) {
        try_start(index, *start, day, out);
      } else {
        Refusal refusal{.rule = Rule::Pinned, .start = *start};
        refusal.found = weeks;
        refusal.wanted = wanted;
        refuse(refusal);
      }
      return;
    }
    const int low = static_cast<int>(std::ceil(way.weeks_under_cover->low));
    const int high = std::max(low, static_cast<int>(way.weeks_under_cover->high));
    for (int weeks = low; weeks <= high; ++weeks) {
      const Date start = day - Days{7 * weeks};
      if (is_work_day(start) || entry_.pins.plant_on) try_start(index, start, day, out);
    }
  }

  bool is_work_day(Date day) const {
    const auto& days = setting_.work.days;
    return days.empty() || std::ranges::find(days, std::chrono::weekday{day}) != days.end();
  }

  void try_start(std::size_t index, Date start, Date in_ground, Candidates& out) {
    Candidate candidate{.way = index, .group = group_, .start = start, .in_ground = in_ground};
    candidate.stands = entry_.since.has_value();
    if (auto refusal = judge(candidate)) {
      refusal->in_ground = in_ground;
      refuse(*refusal);
      return;
    }
    ++report_.allowed;
    out.list.push_back(std::move(candidate));
  }

  // Fills in the candidate; the first rule it breaks comes back.
  std::optional<Refusal> judge(Candidate& c) const {
    const Way& way = sheet_.ways[c.way];
    if (auto refusal = judge_dates(c)) return refusal;
    if (auto refusal = judge_frost(c, way)) return refusal;
    if (auto refusal = judge_soil(c, way)) return refusal;
    if (auto refusal = judge_winter(c, way)) return refusal;
    auto timeline = clock_.timeline(way, c.start, c.in_ground);
    if (!timeline) return no_flower(c, way);
    const Date soonest = soonest_cut(c, way, timeline->basis);
    if (timeline->first_cut.likely < soonest) {
      return too_soon(c, way, timeline->first_cut.likely, soonest);
    }
    c.timeline = std::move(*timeline);
    if (auto refusal = judge_before_winter(c, way)) return refusal;
    if (auto refusal = judge_season(c)) return refusal;
    c.needs_cold_store = wants_cold(way);
    set_lift(c);
    set_window_place(c, way);
    return std::nullopt;
  }

  // What stands already may flower from the first day of its season.
  Date soonest_cut(const Candidate& c, const Way& way, growth::Basis basis) const {
    const Date season = clock_.season().from;
    if (way.method == Method::Established) return season;
    const bool settles = stays_in_ground(sheet_.life_cycle) && c.in_ground >= season &&
                         basis == growth::Basis::Window;
    return c.in_ground + Days{settles ? kSettleDays : kFewestDaysToCut};
  }

  // Where no winter chills a bulb in the ground, the trade's windows date nothing.
  Refusal too_soon(const Candidate& c, const Way& way, Date cut, Date soonest) const {
    Refusal refusal{Rule::NoFlower, c.start, cut, soonest};
    refusal.mild_winter = wants_cold(way);
    if (refusal.mild_winter) {
      refusal.found = setting_.climate.coldest_month_c().value_or(0);
      refusal.wanted = kMildWinterC;
    }
    return refusal;
  }

  // A bulb planted in autumn in a winter too mild for it.
  bool wants_cold(const Way& way) const {
    return mild_winter_ && sheet_.life_cycle == LifeCycle::Bulb && way.method == Method::Bulb &&
           way.flowers != FlowersIn::SameYear;
  }

  // With how far it came where heat decides: the days of cold it lacks, else the degree-days of its
  // last stage.
  Refusal no_flower(const Candidate& c, const Way& way) const {
    Refusal refusal{.rule = Rule::NoFlower, .start = c.start};
    if (const auto forecast = clock_.forecast_of(way, c.start, c.in_ground)) {
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

  std::optional<Refusal> judge_dates(const Candidate& c) const {
    if (c.stands) return std::nullopt;
    const auto too_late = [&](const std::optional<Date>& limit, Rule rule) {
      return limit && c.start < *limit ? std::optional(Refusal{rule, c.start, c.start, limit})
                                       : std::nullopt;
    };
    if (auto refusal = too_late(setting_.first_day, Rule::TooLate)) return refusal;
    return too_late(entry_.pins.not_before, Rule::Pinned);
  }

  // Tender plants outdoors wait for the day on which the accepted risk is left; half-hardy ones are
  // allowed that much earlier. What is sown or planted bare in place counts from its emergence.
  std::optional<Refusal> judge_frost(const Candidate& c, const Way& way) const {
    const FrostClass hardiness = frost_class(sheet_);
    if (hardiness == FrostClass::Hardy || way.method == Method::Established) return std::nullopt;
    // The winter's cold decides, not spring's; tender plants stand no winter.
    if (hardiness == FrostClass::HalfHardy && c.in_ground < midwinter()) return std::nullopt;
    const Date last = setting_.climate.frosts(setting_.flowering_year).last;
    const Date safe = climate::frost_safe_day(last, climate::kSpringSpreadDays, setting_.place.risk)
                          .value_or(last) -
                      Days{hardiness == FrostClass::HalfHardy ? kHalfHardyBeforeFrost : 0};
    int emergence = 0;
    if (way.raised == Raised::InPlace && way.method == Method::Seed && sheet_.germination_days) {
      emergence = static_cast<int>(sheet_.germination_days->middle());
    } else if (way.raised == Raised::InPlace && way.method == Method::Bulb) {
      emergence = kTuberEmergence;
    }
    const Date exposed = c.in_ground + Days{emergence};
    if (exposed >= safe) return std::nullopt;
    return Refusal{Rule::FrostRisk, c.start, exposed, safe};
  }

  // Spring sowings outdoors wait for warm soil, its date taken a week early since it is no better
  // known. Hardy seed lies and waits: for it cold soil only costs its place in the window's middle.
  std::optional<Refusal> judge_soil(Candidate& c, const Way& way) const {
    const bool sown_in_spring = way.method == Method::Seed && way.raised == Raised::InPlace &&
                                c.start >= clock_.season().from;
    if (!warm_soil_ || !sown_in_spring) return std::nullopt;
    c.cold_soil = !warm_soil_->from || c.start < *warm_soil_->from - Days{climate::kSoilDays};
    const bool pinned = entry_.pins.start_on || entry_.pins.plant_on;
    if (!c.cold_soil || pinned || frost_class(sheet_) == FrostClass::Hardy) return std::nullopt;
    Refusal refusal{Rule::ColdSoil, c.start, c.start, warm_soil_->from};
    refusal.found = climate::soil_c(setting_.climate, c.start);
    refusal.wanted = warm_soil_->needed_c;
    return refusal;
  }

  Date midwinter() const { return clock_.season().from + Days{kMidwinterAfterSeasonStart}; }

  // The cold of every winter the plant stands through: in the open, as in a nursery bed, or in a
  // frame.
  std::optional<Refusal> judge_winter(Candidate& c, const Way& way) const {
    const bool in_open = way.method == Method::Established || c.in_ground < midwinter() ||
                         (way.raised == Raised::NurseryBed && c.start < midwinter());
    const bool under_glass = !in_open && c.start < midwinter() && way.raised == Raised::Frame;
    c.overwinters = in_open || under_glass;
    if (!setting_.place.coldest_c || !c.overwinters) return std::nullopt;
    const double coldest = *setting_.place.coldest_c + (under_glass ? kFrameGain : 0);
    if (coldest >= sheet_.coldest_survived_c) return std::nullopt;
    const double fleece = sheet_.coldest_under_fleece_c.value_or(sheet_.coldest_survived_c);
    if (in_open && coldest >= fleece) {
      c.under_fleece = true;
      return std::nullopt;
    }
    Refusal refusal{.rule = Rule::WinterCold, .start = c.start};
    refusal.found = coldest;
    refusal.wanted =
        in_open ? std::min(fleece, sheet_.coldest_survived_c) : sheet_.coldest_survived_c;
    return refusal;
  }

  std::optional<Refusal> judge_before_winter(Candidate& c, const Way& way) const {
    if (way.method == Method::Established) return std::nullopt;
    const Date flower = c.timeline.first_flower.likely;
    if (flower < clock_.season().from) {
      return Refusal{Rule::FlowersBeforeWinter, c.start, flower, clock_.season().from};
    }
    const auto judged = clock_.winter_judging_day();
    if (!judged || c.start >= *judged || c.timeline.basis == growth::Basis::Window) {
      return std::nullopt;
    }
    if (sheet_.life_cycle == LifeCycle::Biennial) {
      const double share = c.timeline.forecast.respond_share;
      if (share < kHalfRosette) {
        Refusal refusal{.rule = Rule::RosetteTooSmall, .start = c.start};
        refusal.found = share;
        refusal.wanted = kHalfRosette;
        return refusal;
      }
      c.small_rosette = share < kWholeRosette;
      if (c.small_rosette) c.stem_factor = 0.5;
    } else {
      c.too_early = c.timeline.forecast.flower_share > kTooEarlyShare;
    }
    return std::nullopt;
  }

  // Enough weeks from the first cut to the earlier of the season's and the wish's end.
  std::optional<Refusal> judge_season(const Candidate& c) const {
    const Date first = c.timeline.first_cut.likely;
    const int whole = CropSpec(sheet_, group_).cutting_days();
    const bool single = sheet_.habit == Habit::Single;
    const int needed = std::min(whole, single ? kFewestSeasonDaysSingle : kFewestSeasonDays);
    Date end = std::min(clock_.season_end(), clock_.season().until - Days{1});
    if (setting_.wish_end) end = std::min(end, *setting_.wish_end);
    const int found =
        std::min(days_between(first, end) + 1,
                 c.timeline.cut_short ? static_cast<int>(c.timeline.shares.size()) : whole);
    if (found >= needed) return std::nullopt;
    const auto& hot = c.timeline.too_hot_from;
    Refusal refusal = hot ? Refusal{Rule::TooHot, c.start, first, hot}
                          : Refusal{Rule::SeasonTooShort, c.start, first, end - Days{needed - 1}};
    refusal.found = std::max(0, found);
    refusal.wanted = needed;
    return refusal;
  }

  void set_lift(Candidate& c) const {
    const Date last = c.timeline.last_cut();
    const Date fewest =
        c.timeline.first_cut.likely +
        Days{growth::fewest_cutting_days(sheet_, static_cast<int>(c.timeline.shares.size()) - 1)};
    c.lift_from = sheet_.habit == Habit::Single ? last : std::min(fewest, last);
    c.lift_to = last;
    if (stays_in_ground(sheet_.life_cycle)) {
      c.lift_from = c.lift_to = std::max(last, clock_.season().until - Days{1});
    } else if (is_planted(sheet_.life_cycle) && entry_.keep) {
      c.lift_from = c.lift_to = last + Days{kLeafDays};
    }
    if (entry_.pins.lift_on) {
      // The gardener may cut for fewer days than are useful, but not lift before the first cut.
      const Date first = std::min(c.lift_from, c.timeline.first_cut.likely);
      c.lift_from = c.lift_to = std::max(*entry_.pins.lift_on, first);
    }
  }

  void set_window_place(Candidate& c, const Way& way) const {
    c.stems_per_plant = CropSpec(sheet_, group_).stems_per_plant(way).middle();
    c.window = way.window ? clock_.window_days(*way.window, way.flowers)
                          : DateRange{c.in_ground, c.in_ground + Days{1}};
    const int length = days_between(c.window.from, c.window.until) - 1;
    const int off = std::abs(days_between(c.window_middle(), c.in_ground));
    c.place = !c.window.contains(c.in_ground)     ? WindowPlace::Outside
              : 4 * off <= length && !c.cold_soil ? WindowPlace::Middle
                                                  : WindowPlace::Inside;
  }

  // Keeps the refusal nearest to being allowed: the one met last in the judging, then the
  // smallest miss.
  void refuse(const Refusal& refusal) {
    const auto stage = [](Rule rule) {
      switch (rule) {
        case Rule::Pinned:
          return 0;
        case Rule::NoShelter:
          return 0;
        case Rule::TooLate:
          return 1;
        case Rule::FrostRisk:
          return 2;
        case Rule::ColdSoil:
          return 3;
        case Rule::WinterCold:
          return 4;
        case Rule::NoFlower:
          return 5;
        case Rule::FlowersBeforeWinter:
          return 6;
        case Rule::RosetteTooSmall:
          return 7;
        case Rule::TooHot:
          return 8;
        case Rule::SeasonTooShort:
          return 8;
      }
      return 0;
    };
    const auto miss = [](const Refusal& r) {
      if (r.found_day && r.wanted_day)
        return std::abs(days_between(*r.found_day, *r.wanted_day)) * 1.0;
      return std::abs(r.found - r.wanted);
    };
    if (!report_.refusal || stage(refusal.rule) > stage(report_.refusal->rule) ||
        (refusal.rule == report_.refusal->rule && miss(refusal) < miss(*report_.refusal))) {
      report_.refusal = refusal;
    }
  }

  const Setting& setting_;
  const Sheet& sheet_;
  const CropEntry& entry_;
  const Group* group_;
  CropClock clock_;
  std::optional<growth::WarmSoil> warm_soil_;
  bool mild_winter_;
  WayReport report_;
};

// The latest start of the same way and group whose first cut is not after `target`, nor before that
// of `like` (sown later but planted out younger, it may be).
const Candidate* latest_for(const std::vector<Candidate>& list, const Candidate& like,
                            Date target) {
  const Candidate* best = nullptr;
  for (const Candidate& c : list) {
    if (c.way != like.way || c.group != like.group) continue;
    const Date cut = c.timeline.first_cut.likely;
    if (cut > target || cut < like.timeline.first_cut.likely) continue;
    const auto rank = [](const Candidate& one) {
      return std::pair(one.start, one.timeline.first_cut.likely);
    };
    if (!best || rank(c) > rank(*best)) best = &c;
  }
  return best;
}

// The stems of each day are shared between as many parts of the ground as there are sowings.
std::vector<double> joined_shares(const std::vector<const Candidate*>& sowings) {
  std::vector<double> whole;
  const double share = 1.0 / static_cast<double>(sowings.size());
  const Date first = sowings.front()->timeline.first_cut.likely;
  for (const Candidate* sowing : sowings) {
    const growth::Timeline& timeline = sowing->timeline;
    const auto offset = static_cast<std::size_t>(days_between(first, timeline.first_cut.likely));
    whole.resize(std::max(whole.size(), offset + timeline.shares.size()));
    for (std::size_t day = 0; day < timeline.shares.size(); ++day) {
      whole[offset + day] += share * timeline.shares[day];
    }
  }
  return whole;
}

// The streams that begin with each candidate and can be completed.
void add_streams(Candidates& all, int gap) {
  for (const Candidate& first : all.list) {
    std::vector<const Candidate*> sowings{&first};
    for (int j = 1; j < all.wanted_sowings; ++j) {
      const Date target = first.timeline.first_cut.likely + Days{j * gap};
      const Candidate* next = latest_for(all.list, *sowings.back(), target);
      if (!next || next->start <= sowings.back()->start) break;
      sowings.push_back(next);
    }
    const int found = static_cast<int>(sowings.size());
    all.most_sowings = std::max(all.most_sowings, found);
    if (found < all.wanted_sowings) continue;
    Stream stream;
    for (const Candidate* one : sowings) {
      stream.sowings.push_back(static_cast<std::size_t>(one - all.list.data()));
    }
    stream.shares = joined_shares(sowings);
    all.streams.push_back(std::move(stream));
  }
}

}  // namespace

Range cold_store_days(const Sheet& sheet) {
  const auto& treat = sheet.pretreat;
  return treat && treat->kind == Pretreatment::Kind::ColdStore ? treat->days : kColdStoreDays;
}

Candidates candidates(const Setting& setting, const Sheet& sheet, const CropEntry& entry) {
  Candidates result;
  if (sheet.groups.empty()) {
    Generator(setting, sheet, entry, nullptr).run(result);
  }
  for (const Group& group : sheet.groups) {
    if (entry.group && *entry.group != group.name) continue;
    Generator(setting, sheet, entry, &group).run(result);
  }
  result.wanted_sowings = entry.successions;
  if (entry.successions > 1) {
    add_streams(result, entry.gap_days.value_or(static_cast<int>(
                            std::lround(sheet.succession_gap_days.value_or(kSuccessionGap)))));
  }
  return result;
}

}  // namespace trug::ground
