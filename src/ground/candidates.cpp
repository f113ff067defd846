// SPDX-License-Identifier: MIT
#include "ground/candidates.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <iterator>
#include <utility>
#include <vector>

#include "garden/crop_spec.h"
#include "ground/judge.h"
#include "ground/judge_dates.h"
#include "ground/tried_ways.h"
#include "ground/wakes.h"
#include "growth/cover.h"

namespace trug::ground {
namespace {

// What is started and finds its ground taken waits in larger pots for so long, and gives so much
// less (memory).
constexpr Days kWaitsForGround{28};
constexpr double kHavingWaited = 0.8;

// What stands already is not pinched, unless it was.
bool is_pinched(const Sheet& sheet, const CropEntry& entry, const Begun& begun) {
  return begun.pinched || (!entry.since && CropSpec(sheet, nullptr, entry.pinch).pinched());
}

bool is_work_day(const Work& work, Date day) {
  return work.days.empty() ||
         std::ranges::find(work.days, std::chrono::weekday{day}) != work.days.end();
}

// A pin beats the days on which there is time.
bool may_work(const Work& work, const CropEntry& entry, Date day) {
  return entry.pins.plant_on || is_work_day(work, day);
}

// As young plants.
bool is_sold(const Sheet& sheet) {
  return std::ranges::find(sheet.ways, Method::BoughtPlants, &Way::method) != sheet.ways.end();
}

// Whether the plan names its way or one of its days.
bool is_pinned(const Pins& pins) { return pins.way || pins.start_on || pins.plant_on; }

// Generates and judges the candidates of one crop and group.
class Generator {
 public:
  Generator(const Setting& setting, const Sheet& sheet, const CropEntry& entry, const Group* group,
            const Begun& begun, Pinned pinned)
      : setting_(setting),
        sheet_(sheet),
        entry_(entry),
        group_(group),
        begun_(begun),
        pinch_(is_pinched(sheet, entry, begun)),
        clock_(setting.climate, sheet, group, setting.flowering_year, setting.rules, pinch_),
        case_{setting, sheet, entry, group, begun, clock_, pinned} {}
  // The case points into it.
  Generator(const Generator&) = delete;
  Generator& operator=(const Generator&) = delete;

  // Of the ways that want a cover, or of the others.
  void run(bool wanting_cover, Candidates& out) {
    for (std::size_t i = 0; i < sheet_.ways.size(); ++i) {
      const Way& way = sheet_.ways[i];
      if ((way.needs == Needs::Tunnel) != wanting_cover) continue;
      report_ = WayReport{.way = i, .group = group_};
      untried_.reset();
      if (is_another(sheet_, entry_, begun_, i)) {
        refuse({.rule = Rule::Pinned});
      } else if (begun_.way) {
        try_begun(i, out);
      } else if (begun_.young_plants) {
        try_young_plants(i, out);
      } else if (const auto why = not_tried(setting_, sheet_, entry_, begun_, way);
                 why && !(case_.pinned == Pinned::Told && why->rule == Rule::NoShelter)) {
        refuse(*why);
      } else {
        untried_ = why;
        try_way(i, out);
      }
      out.reports.push_back(report_);
    }
  }

 private:
  void try_way(std::size_t index, Candidates& out) {
    const Way& way = sheet_.ways[index];
    if (way.method == Method::Established) {
      try_start(index, clock_.season().from, clock_.season().from, out);
      return;
    }
    if (entry_.since) {
      const auto day = wakes_on(case_, index);
      if (day) try_start(index, *day, *day, out);
      return;
    }
    const auto window = clock_.usual_days(way);
    if (!window) return;
    const Pins& pins = entry_.pins;
    const bool two_days = pins.start_on && pins.plant_on && *pins.start_on != *pins.plant_on;
    if (is_sown_in_place(way) && two_days) {
      refuse({.rule = Rule::Pinned});  // the plan wants it planted
      return;
    }
    const DateRange days =
        days_to_try(way, pins, {window->from, window->until + Days{7 * late_weeks(way, begun_)}});
    const bool any_day = pins.plant_on || (pins.start_on && !way.weeks_under_cover);
    for (Date day = days.from; day < days.until; day += Days{1}) {
      if (any_day || is_work_day(setting_.work, day)) try_in_ground(index, day, out);
    }
  }

  // Young plants are set out as bought ones are; where the trade sells none, as those raised here
  // at the end of their weeks.
  void try_young_plants(std::size_t index, Candidates& out) {
    const Way& way = sheet_.ways[index];
    const bool sold = is_sold(sheet_);
    if (!way.window || (sold ? way.method != Method::BoughtPlants : !way.weeks_under_cover)) {
      refuse({.rule = Rule::Pinned});
      return;
    }
    const int age = sold ? 0 : static_cast<int>(std::lround(7 * way.weeks_under_cover->high));
    const DateRange window = clock_.usual_days(way).value();
    for (Date day = window.from; day < window.until + Days{7 * kLateWeeks}; day += Days{1}) {
      if (is_work_day(setting_.work, day)) try_start(index, day - Days{age}, day, out);
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
    const DateRange window = clock_.usual_days(way).value();
    DateRange days = within_reach(way, start, window);
    if (const auto& pin = entry_.pins.plant_on; pin && *pin > start) days = {*pin, *pin + Days{1}};
    const auto before = report_.allowed;
    const auto told = day_told(way, start, begun_.earlier);
    if (told) try_start(index, start, *told, out);
    for (Date day = days.from; day < days.until; day += Days{1}) {
      if (day == told) continue;
      if (may_work(setting_.work, entry_, day)) try_start(index, start, day, out);
    }
    if (!entry_.pins.plant_on) wait_for_ground(index, days.until, out);
    const Date end = clock_.season().until;
    for (Date day = days.until + kWaitsForGround; report_.allowed == before && day < end;
         day += Days{1}) {
      if (is_work_day(setting_.work, day)) try_start(index, start, day, out);
    }
    if (report_.allowed > before) return;
    case_.must_stand = true;
    const Date out_by = start + Days{std::lround(7 * way.weeks_under_cover->high)};
    try_start(index, start, std::max(out_by, soonest_out(begun_, setting_).value_or(out_by)), out);
    case_.must_stand = false;
  }

  void wait_for_ground(std::size_t index, Date from, Candidates& out) {
    const std::size_t in_time = out.list.size();
    for (Date day = from; day < from + kWaitsForGround; day += Days{1}) {
      if (is_work_day(setting_.work, day)) try_start(index, *begun_.start, day, out);
    }
    for (std::size_t i = in_time; i < out.list.size(); ++i)
      out.list[i].stem_factor *= kHavingWaited;
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
    const bool is_late = day >= clock_.usual_days(way)->until;
    for (int weeks = low; weeks <= high; ++weeks) {
      const Date start = day - Days{7 * weeks};
      if (!may_work(setting_.work, entry_, start)) continue;
      if (is_late && is_better_sown_in_place(setting_, sheet_, entry_, way, start)) continue;
      try_start(index, start, day, out);
    }
  }

  void try_start(std::size_t index, Date start, Date in_ground, Candidates& out) {
    Candidate candidate{.way = index, .group = group_, .start = start, .in_ground = in_ground};
    candidate.stands = entry_.since.has_value();
    candidate.cover = setting_.cover;
    candidate.young_plants = begun_.young_plants;
    candidate.pinched = pinch_;
    candidate.begun = begun_;
    candidate.against = untried_;
    if (auto refusal = judge(case_, candidate)) {
      refusal->in_ground = in_ground;
      refuse(*refusal);
      return;
    }
    ++report_.allowed;
    out.list.push_back(std::move(candidate));
  }

  void refuse(const Refusal& refusal) {
    if (!report_.refusal || is_nearer(refusal, *report_.refusal)) report_.refusal = refusal;
  }

  const Setting& setting_;
  const Sheet& sheet_;
  const CropEntry& entry_;
  const Group* group_;
  const Begun& begun_;
  bool pinch_;
  growth::CropClock clock_;
  Case case_;
  WayReport report_;
  std::optional<Refusal> untried_;  // the way would not be tried, but is pinned
};

void generate(const Setting& setting, const Sheet& sheet, const CropEntry& entry,
              const Begun& begun, Pinned pinned, Candidates& out) {
  const auto wants_cover = std::ranges::find(sheet.ways, Needs::Tunnel, &Way::needs);
  const bool any = wants_cover != sheet.ways.end();
  Setting under_cover = setting, own_dates = setting;
  under_cover.rules.cover = growth::cover_gain(setting.cover);
  if (any) own_dates.rules.cover = growth::cover_gain(setting.cover, *wants_cover);
  const auto run = [&](const Group* group) {
    Generator(under_cover, sheet, entry, group, begun, pinned).run(false, out);
    if (any) Generator(own_dates, sheet, entry, group, begun, pinned).run(true, out);
  };
  if (sheet.groups.empty()) run(nullptr);
  for (const Group& group : sheet.groups) {
    if (entry.group && *entry.group != group.name) continue;
    if (begun.group && *begun.group != group.name && find_group(sheet, *begun.group)) continue;
    run(&group);
  }
}

// Keeps the candidates for which that is least.
template <class Of>
void keep_least(std::vector<Candidate>& list, Of of) {
  if (list.empty()) return;
  const auto least = of(*std::ranges::min_element(list, {}, of));
  std::erase_if(list, [&](const Candidate& c) { return of(c) != least; });
}

// What the plan pins though the rules leave nothing of it: that which is nearest to them.
std::vector<Candidate> nearest_pinned(const Setting& setting, const Sheet& sheet,
                                      const CropEntry& entry, const Begun& begun) {
  if (!is_pinned(entry.pins)) return {};
  Candidates told;
  generate(setting, sheet, entry, begun, Pinned::Told, told);
  const Refusal* nearest = nullptr;
  for (const Candidate& c : told.list) {
    if (!nearest || is_nearer(*c.against, *nearest)) nearest = &*c.against;
  }
  if (!nearest) return {};
  const Refusal best = *nearest;
  std::erase_if(told.list, [&](const Candidate& c) { return is_nearer(best, *c.against); });
  return std::move(told.list);
}

// Whether what has begun was told for a day of which the rules leave nothing: had the plan's pins
// to be chosen anew, on any day, they would break one again.
Pinned pinned_as_told(const Setting& setting, const Sheet& sheet, const CropEntry& entry,
                      const Begun& begun) {
  if (!begun.way || !begun.earlier || !is_pinned(entry.pins)) return Pinned::Bound;
  Setting any_day = setting;
  any_day.first_day.reset();
  any_day.today.reset();
  Candidates kept;
  generate(any_day, sheet, entry, {.again_from = begun.again_from}, Pinned::Bound, kept);
  return kept.list.empty() ? Pinned::BoundUnlessTold : Pinned::Bound;
}

// The candidates of one sowing of which something is known.
Candidates candidates_of(const Setting& setting, const Sheet& sheet, const CropEntry& entry,
                         Begun begun) {
  if (begun.repeat > 0 && entry.since) {
    // What stood is gone: it is begun like anything else.
    CropEntry anew = entry;
    anew.since.reset();
    return candidates_of(setting, sheet, anew, std::move(begun));
  }
  Candidates result;
  generate(setting, sheet, entry, begun, pinned_as_told(setting, sheet, entry, begun), result);
  if (result.list.empty()) result.list = nearest_pinned(setting, sheet, entry, begun);
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

// What is known of the sowings of a succession that have not begun.
Begun of_free_sowings(const std::vector<Begun>& known) {
  Begun result;
  if (!known.empty()) result.gone_by = known.front().gone_by;
  for (const Begun& one : known) {
    if (!one.bought) continue;
    result.bought = one.bought;
    result.group = one.group;
  }
  return result;
}

// Whether it has begun, or something is recorded of it.
bool is_known(Begun begun, const Begun& free) {
  begun.number = begun.repeat = 0;
  begun.bought = free.bought;
  begun.group = free.group;
  begun.plants.reset();
  begun.earlier.reset();
  return begun != free;
}

// Of each sowing of a succession of which something is known.
void add_known_sowings(const Setting& setting, const Sheet& sheet, const CropEntry& entry,
                       const std::vector<Begun>& known, Candidates& all) {
  const int last = known.empty() ? 0 : known.back().number;
  for (int number = 1; number <= last; ++number) {
    const Begun* begun = standing(known, number);
    if (!begun || !is_known(*begun, of_free_sowings(known))) continue;
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
  Candidates result = candidates_of(setting, sheet, entry, only ? *only : of_free_sowings(known));
  if (entry.successions != 1) add_known_sowings(setting, sheet, entry, known, result);
  return result;
}

}  // namespace trug::ground
