// SPDX-License-Identifier: MIT
#include "ground/candidates.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <iterator>
#include <span>
#include <utility>

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
constexpr double kHalfRosette = 0.5;  // memory
constexpr double kWeeksOff = 2;       // a pinned start may leave the usual weeks by this
constexpr int kLeafDays = 42;         // bulbs kept: until the leaves have died (common practice)
constexpr int kFewestDaysToCut = 8;   // so that two crops of a stretch never share a week
constexpr int kFewestSeasonDays = 28;
constexpr int kFewestSeasonDaysSingle = 14;

// Generates and judges the candidates of one crop and group.
class Generator {
 public:
  Generator(const Setting& setting, const Sheet& sheet, const CropEntry& entry, const Group* group,
            const Begun& begun)
      : setting_(setting),
        sheet_(sheet),
        entry_(entry),
        group_(group),
        begun_(begun),
        clock_(setting.climate, sheet, group, setting.flowering_year, setting.rules),
        warm_soil_(clock_.warm_soil()),
        mild_winter_(setting.climate.coldest_month_c().value_or(kMildWinterC) > kMildWinterC) {}

  void run(Candidates& out) {
    for (std::size_t i = 0; i < sheet_.ways.size(); ++i) {
      report_ = WayReport{.way = i, .group = group_};
      const Way& way = sheet_.ways[i];
      const bool other_pinned =
          begun_.way ? *begun_.way != i : entry_.pins.way && *entry_.pins.way != way.name;
      if (other_pinned || entry_.since.has_value() != stands_by(way)) {
        refuse({.rule = Rule::Pinned});
      } else if (begun_.way) {
        try_begun(i, out);
      } else if (begun_.young_plants) {
        try_young_plants(i, out);
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
    if (pins.start_on && !pins.plant_on && way.weeks_under_cover) {
      days = within_reach(way, *pins.start_on, days);
    }
    for (Date day = days.from; day < days.until; day += Days{1}) {
      if (!pins.plant_on && !is_work_day(day) && !(pins.start_on && !way.weeks_under_cover))
        continue;
      try_in_ground(index, day, out);
    }
  }

  // Young plants are set out as bought ones are; where the trade sells none, as those raised here
  // at the end of their weeks.
  void try_young_plants(std::size_t index, Candidates& out) {
    const Way& way = sheet_.ways[index];
    const bool sold =
        std::ranges::find(sheet_.ways, Method::BoughtPlants, &Way::method) != sheet_.ways.end();
    if (!way.window || (sold ? way.method != Method::BoughtPlants : !way.weeks_under_cover)) {
      refuse({.rule = Rule::Pinned});
      return;
    }
    const int age = sold ? 0 : static_cast<int>(std::lround(7 * way.weeks_under_cover->high));
    const DateRange window = clock_.window_days(*way.window, way.flowers);
    for (Date day = window.from; day < window.until + Days{7 * kLateWeeks}; day += Days{1}) {
      if (is_work_day(day)) try_start(index, day - Days{age}, day, out);
    }
  }

  // The way by which it has begun: the days that are known stand, the others keep the rules.
  void try_begun(std::size_t index, Candidates& out) {
    const Way& way = sheet_.ways[index];
    if (begun_.start && begun_.in_ground) {
      try_start(index, *begun_.start, *begun_.in_ground, out);
    } else if (begun_.in_ground) {
      const int low = static_cast<int>(std::ceil(way.weeks_under_cover->low));
      const int high = std::max(low, static_cast<int>(way.weeks_under_cover->high));
      for (int weeks = low; weeks <= high; ++weeks) {
        try_start(index, *begun_.in_ground - Days{7 * weeks}, *begun_.in_ground, out);
      }
    } else {
      set_out_begun(index, out);
    }
  }

  // Raised plants go out on the pinned day, else when it is time; where no such day keeps the
  // rules, on the first that does, and in the last resort at the end of their weeks.
  void set_out_begun(std::size_t index, Candidates& out) {
    const Way& way = sheet_.ways[index];
    const Date start = *begun_.start;
    const DateRange window = clock_.window_days(*way.window, way.flowers);
    DateRange days = within_reach(way, start, window);
    if (const auto& pin = entry_.pins.plant_on; pin && *pin > start) days = {*pin, *pin + Days{1}};
    const auto before = report_.allowed;
    for (Date day = days.from; day < days.until; day += Days{1}) {
      if (is_work_day(day) || entry_.pins.plant_on) try_start(index, start, day, out);
    }
    const Date end = clock_.season().until;
    for (Date day = days.until; report_.allowed == before && day < end; day += Days{1}) {
      if (is_work_day(day)) try_start(index, start, day, out);
    }
    if (report_.allowed > before) return;
    must_stand_ = true;
    try_start(index, start, start + Days{std::lround(7 * way.weeks_under_cover->high)}, out);
    must_stand_ = false;
  }

  // The days of `window` on which plants started on that day can go out; where there are none, all
  // on which they can: pins beat windows.
  DateRange within_reach(const Way& way, Date start, DateRange window) const {
    const Range& weeks = *way.weeks_under_cover;
    const DateRange reach{start + Days{std::lround(7 * (weeks.low - kWeeksOff))},
                          start + Days{std::lround(7 * (weeks.high + kWeeksOff)) + 1}};
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
    candidate.young_plants = begun_.young_plants;
    candidate.begun = begun_;
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
    // What has begun has, and what stands in the ground stands there: no rule undoes it.
    const bool has_begun = begun_.way || begun_.first_cut;
    const bool is_there = begun_.in_ground.has_value() || must_stand_;
    if (auto refusal = judge_dates(c)) return refusal;
    if (auto refusal = judge_frost(c, way); refusal && !is_there) return refusal;
    if (auto refusal = judge_soil(c, way); refusal && !is_there) return refusal;
    if (auto refusal = judge_winter(c, way); refusal && !has_begun) return refusal;
    auto timeline = clock_.timeline(way, c.start, c.in_ground);
    if (begun_.first_cut) {
      if (timeline) c.off_record = days_between(*begun_.first_cut, timeline->first_cut.likely);
      timeline = clock_.timeline(way, c.start, c.in_ground, begun_.first_cut);
    }
    if (!timeline && !has_begun) return no_flower(c, way);
    c.without_flower = !timeline;
    if (!timeline) timeline = clock_.without_flower(way, c.start, c.in_ground);
    const Date soonest = soonest_cut(c, way, timeline->basis);
    if (timeline->first_cut.likely < soonest && !has_begun && !begun_.first_cut) {
      return too_soon(c, way, timeline->first_cut.likely, soonest);
    }
    c.timeline = std::move(*timeline);
    if (auto refusal = judge_before_winter(c, way); refusal && !has_begun) return refusal;
    if (auto refusal = judge_season(c); refusal && !has_begun) return refusal;
    c.stem_factor *= years_share(way);
    c.needs_cold_store = wants_cold(way);
    set_lift(c);
    set_window(c, way);
    return std::nullopt;
  }

  // What is not yet cut in full for its age gives a share; the figures of young plants that a way
  // has of its own allow for it.
  double years_share(const Way& way) const {
    if (!stays_in_ground(sheet_.life_cycle)) return 1;
    const int years = entry_.since ? std::max(1, setting_.flowering_year - *entry_.since) : 1;
    const double share = cut_share(sheet_, years);
    return share > 0 && !entry_.since && way.stems_per_plant ? 1 : share;
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
    const auto not_before = [](Date day, const std::optional<Date>& limit, Rule rule) {
      return limit && day < *limit ? std::optional(Refusal{rule, day, day, limit}) : std::nullopt;
    };
    if (auto refusal = not_before(c.in_ground, begun_.in_ground_from, Rule::TooLate)) {
      return refusal;
    }
    if (c.stands || begun_.way) return std::nullopt;
    if (c.young_plants) return not_before(c.in_ground, setting_.today, Rule::TooLate);
    const auto too_late = [&](const std::optional<Date>& limit, Rule rule) {
      return not_before(c.start, limit, rule);
    };
    if (auto refusal = too_late(setting_.first_day, Rule::TooLate)) return refusal;
    if (auto refusal = too_late(begun_.start_from, Rule::TooLate)) return refusal;
    if (begun_.again_from) {
      const Date again = std::max(*begun_.again_from, setting_.today.value_or(*begun_.again_from));
      if (auto refusal = too_late(again, Rule::TooLate)) return refusal;
    }
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
      c.small_rosette = share < kWholeRosette;
      if (c.small_rosette) c.stem_factor = 0.5;
      if (share < kHalfRosette) {
        Refusal refusal{.rule = Rule::RosetteTooSmall, .start = c.start};
        refusal.found = share;
        refusal.wanted = kHalfRosette;
        return refusal;
      }
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
    if (begun_.lift) c.lift_from = c.lift_to = *begun_.lift;
    if (begun_.gone_by) {
      const Date by = *begun_.gone_by - Days{setting_.work.days_between_crops};
      c.lift_to = std::min(c.lift_to, by);
      c.lift_from = std::min(c.lift_from, by);
    }
  }

  void set_window(Candidate& c, const Way& way) const {
    c.stems_per_plant = CropSpec(sheet_, group_).stems_per_plant(way).middle();
    c.window = way.window ? clock_.window_days(*way.window, way.flowers)
                          : DateRange{c.in_ground, c.in_ground + Days{1}};
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
  const Begun& begun_;
  bool must_stand_ = false;  // no day keeps the rules, but it is to be set out
  CropClock clock_;
  std::optional<growth::WarmSoil> warm_soil_;
  bool mild_winter_;
  WayReport report_;
};

void generate(const Setting& setting, const Sheet& sheet, const CropEntry& entry,
              const Begun& begun, Candidates& out) {
  if (sheet.groups.empty()) {
    Generator(setting, sheet, entry, nullptr, begun).run(out);
  }
  for (const Group& group : sheet.groups) {
    if (entry.group && *entry.group != group.name) continue;
    Generator(setting, sheet, entry, &group, begun).run(out);
  }
}

// Keeps the candidates for which that is least.
template <class Of>
void keep_least(std::vector<Candidate>& list, Of of) {
  if (list.empty()) return;
  const auto least = of(*std::ranges::min_element(list, {}, of));
  std::erase_if(list, [&](const Candidate& c) { return of(c) != least; });
}

// The candidates of one sowing of which something is known.
Candidates candidates_of(const Setting& setting, const Sheet& sheet, const CropEntry& entry,
                         Begun begun) {
  Candidates result;
  generate(setting, sheet, entry, begun, result);
  if (begun.young_plants && result.list.empty()) {
    begun.young_plants = false;
    return candidates_of(setting, sheet, entry, begun);
  }
  // Begun nobody knows how: so that it agrees best with what is known of its end.
  if (begun.first_cut && !begun.way) {
    keep_least(result.list, [](const Candidate& c) { return std::abs(c.off_record); });
  }
  if (begun.start_from) keep_least(result.list, [](const Candidate& c) { return c.start; });
  if (begun.in_ground_from) keep_least(result.list, [](const Candidate& c) { return c.in_ground; });
  return result;
}

// Whether anything tells this start from any other.
bool is_known(const Begun& begun) {
  return begun != Begun{.number = begun.number, .repeat = begun.repeat, .gone_by = begun.gone_by};
}

// Of each sowing of a succession of which something is known.
void add_known_sowings(const Setting& setting, const Sheet& sheet, const CropEntry& entry,
                       const std::vector<Begun>& known, Candidates& all) {
  const int last = known.empty() ? 0 : known.back().number;
  for (int number = 1; number <= last; ++number) {
    const Begun* begun = standing(known, number);
    if (!begun || !is_known(*begun)) continue;
    Candidates own = candidates_of(setting, sheet, entry, *begun);
    all.known.push_back({number, all.list.size(), all.list.size() + own.list.size()});
    std::ranges::move(own.list, std::back_inserter(all.list));
  }
}

}  // namespace

Range cold_store_days(const Sheet& sheet) {
  const auto& treat = sheet.pretreat;
  return treat && treat->kind == Pretreatment::Kind::ColdStore ? treat->days : kColdStoreDays;
}

Candidates candidates(const Setting& setting, const Sheet& sheet, const CropEntry& entry,
                      const std::vector<Begun>& known) {
  const Begun* only = entry.successions == 1 ? standing(known, 0) : nullptr;
  const Begun* any = known.empty() ? nullptr : &known.front();
  Candidates result = candidates_of(setting, sheet, entry,
                                    only  ? *only
                                    : any ? Begun{.gone_by = any->gone_by}
                                          : Begun{});
  if (entry.successions != 1) {
    add_known_sowings(setting, sheet, entry, known, result);
  }
  return result;
}

}  // namespace trug::ground
