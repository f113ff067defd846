// SPDX-License-Identifier: MIT
// What is found in a crop that is grown, and in what the plan asks for of any.
#include <algorithm>
#include <numeric>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "ask/find.h"
#include "ask/gave_way.h"
#include "climate/soil.h"
#include "ground/starts.h"
#include "growth/cover.h"
#include "growth/winter.h"
#include "work/seeds.h"

namespace trug::ask {
namespace {

using ground::Sowing;

constexpr double kVaseShare = 1.0 / 12;  // of a vase's stems: the least a kind should bring a week
constexpr double kFarAbove = 3;          // times the wish (memory)
constexpr double kHeldBackStems = 10;    // fewer are no matter (memory)
constexpr double kHeldBack = 0.75;       // of the stems on free ground (memory)
constexpr double kNarrow = 0.75;         // of the spacing: a side under it is too narrow (memory)

// Gathers what is found of one planting.
class List {
 public:
  List(const View& view, std::size_t planting) : view_(view), planting_(planting) {}

  template <class Kind>
  void add(std::optional<Kind> found, int sowing = 0) {
    if (!found) return;
    findings_.push_back(about_planting(view_.plan(), planting_, std::move(*found)));
    findings_.back().sowing = sowing;
  }
  // Of the first sowing of which it is true.
  template <class Check>
  void add_first(std::span<const Sowing> sowings, Check check) {
    for (const Sowing& sowing : sowings) {
      if (auto found = check(sowing)) return add(std::move(found), sowing.number);
    }
  }
  std::vector<Finding> take() && { return std::move(findings_); }

 private:
  const View& view_;
  std::size_t planting_;
  std::vector<Finding> findings_;
};

std::optional<NotInCut> not_in_cut(const Sowing& sowing, bool measured) {
  if (sowing.is_cut()) return std::nullopt;
  NotInCut found{.lift = sowing.lift, .measured = measured};
  if (!sowing.without_flower) found.first_cut = sowing.timeline.first_cut.likely;
  return found;
}

// The first day of its way that keeps the rules, where none of its window does.
std::optional<Date> first_allowed(const View& view, const Sowing& sowing) {
  Date first = sowing.in_ground;
  for (const ground::Candidate& c : view.weighed(sowing.planting).candidates->list) {
    if (c.way == sowing.way && c.group == sowing.group) first = std::min(first, c.in_ground);
  }
  return first >= sowing.window.until ? std::optional(first) : std::nullopt;
}

std::optional<LateStart> late_start(const View& view, const Sowing& sowing) {
  if (sowing.days_late() + sowing.days_early() == 0) return std::nullopt;
  LateStart found{sowing.raised_by().name, sowing.in_ground, sowing.window, sowing.days_late(),
                  sowing.days_early()};
  const Pins& pins = view.plan().plantings[sowing.planting].asked.pins;
  if (pins.start_on || pins.plant_on || sowing.days_early() > 0) return found;
  found.first_allowed = first_allowed(view, sowing);
  const auto before = grown_before(view, sowing.planting);
  if (found.first_allowed || !before || sowing.number > 1) return found;
  const Date lift = view.sowings(*before).back().lift;
  const Days gap{view.plan().work.days_between_crops};
  if (sowing.in_ground > lift + gap + Days{ground::kFortnight}) return found;
  found.before = before;
  found.lift = lift;
  return found;
}

std::optional<HeldBack> held_back(const View& view, std::size_t planting) {
  const auto waits = waiting(view.plan(), view.chosen, planting);
  if (!waits || waits->stems >= kHeldBack * waits->free_stems) return std::nullopt;
  if (waits->free_stems - waits->stems < kHeldBackStems) return std::nullopt;
  const int days_late = view.sowings(planting)[0].days_late();
  return HeldBack{waits->before, waits->lift,  waits->in_ground,
                  days_late,     waits->stems, waits->free_stems};
}

std::optional<FewerSowings> fewer_sowings(const View& view, std::size_t planting) {
  const auto asked = view.plan().plantings[planting].asked.successions;
  const auto useful = static_cast<int>(view.schedule.of(planting).size());
  if (!asked || useful >= *asked) return std::nullopt;
  return FewerSowings{useful, *asked};
}

std::optional<TooEarly> too_early(const Sowing& sowing) {
  if (!sowing.too_early) return std::nullopt;
  return TooEarly{sowing.start, sowing.timeline.forecast.flower_share};
}

std::optional<SmallRosette> small_rosette(const Sowing& sowing) {
  if (!sowing.small_rosette) return std::nullopt;
  return SmallRosette{sowing.timeline.forecast.respond_share};
}

std::optional<AgainstRule> against_rule(const Sowing& sowing) {
  if (!sowing.against) return std::nullopt;
  return AgainstRule{sowing.stands, *sowing.against};
}

std::optional<ShortStems> short_stems(const Sowing& sowing) {
  if (sowing.cold_share() >= 1) return std::nullopt;
  return ShortStems{sowing.cold_share()};
}

// What lives through the winter before its flowers; of what is planted to be kept, the one after.
struct Wintered {
  double alive = 1;
  bool covered = false;
};

Wintered wintered(const Sowing& sowing, const growth::Survival& in_bed, bool keep) {
  if (sowing.overwinters || !keep) return {sowing.alive, sowing.under_fleece};
  const bool covered = in_bed.bare < growth::kUsuallyAlive && in_bed.covered > in_bed.bare;
  return {covered ? in_bed.covered : in_bed.bare, covered};
}

std::optional<WinterLosses> winter_losses(const View& view, const Sowing& sowing) {
  const Sheet& sheet = *sowing.sheet;
  const auto& coldest_c = view.plan().place.coldest_c;
  if (!coldest_c) return std::nullopt;
  const growth::Survival in_bed =
      growth::in_bed(view.garden.climate, sheet, *coldest_c,
                     growth::cover_gain(sowing.cover, sowing.raised_by()).coldest_c);
  const bool keep = view.plan().plantings[sowing.planting].asked.keep;
  const auto [alive, covered] = wintered(sowing, in_bed, keep);
  const bool loses = covered || alive < growth::kUsuallyAlive;
  if (!loses || (sowing.against && sowing.against->rule == ground::Rule::WinterCold))
    return std::nullopt;
  WinterLosses found{.coldest_c = *coldest_c, .survives_c = sheet.survives_c};
  found.alive = alive;
  found.covered = covered;
  const bool in_frame = !covered && alive != in_bed.bare;
  found.felt_c = found.coldest_c + (in_frame ? 0 : growth::snow_cover_c(view.garden.climate));
  found.snow_guessed = !view.plan().place.snow;
  found.bare = covered ? in_bed.bare : alive;
  found.mulch = work::is_mulched(sheet);
  found.spare = sowing.stands ? 0 : work::spare_plants(sowing);
  found.lift = (sowing.stands || keep) && sheet.lift_and_store.has_value();
  return found;
}

std::optional<OneYear> one_year(const View& view, const Sowing& sowing) {
  if (!sowing.one_year || sowing.stands) return std::nullopt;
  return OneYear{view.garden.climate.hottest_month_max_c().value_or(0),
                 sowing.sheet->lives_to_mean_max_c.value_or(0)};
}

std::optional<NeedsCold> needs_cold(const View& view, const Sowing& sowing) {
  if (!sowing.needs_cold_store) return std::nullopt;
  const Range days = ground::cold_store_days(*sowing.sheet);
  return NeedsCold{view.garden.climate.coldest_month_c().value_or(0),
                   {days.low / 7, days.high / 7}};
}

// Hardy seed lies and waits for warmth, and the rules let nothing else be sown so early: a pin
// does.
std::optional<ColdSoil> cold_soil(const View& view, const Sowing& sowing) {
  const FrostClass hardiness = frost_class(*sowing.sheet);
  if (!sowing.cold_soil || hardiness == FrostClass::Hardy) return std::nullopt;
  return ColdSoil{sowing.start, climate::soil_c(view.garden.climate, sowing.start),
                  climate::sowing_soil_c(hardiness)};
}

// Of all sowings together, by day from the first cut.
std::vector<double> stems_by_day(std::span<const Sowing> sowings) {
  std::vector<double> whole;
  for (const Sowing& sowing : sowings) {
    const int days =
        days_between(sowings.front().timeline.first_cut.likely, sowing.timeline.first_cut.likely);
    const auto offset = static_cast<std::size_t>(std::max(0, days));
    const auto by_day = ground::stems_by_day(sowing);
    whole.resize(std::max(whole.size(), offset + by_day.size()));
    for (std::size_t day = 0; day < by_day.size(); ++day) whole[offset + day] += by_day[day];
  }
  return whole;
}

std::optional<OutOfWish> out_of_wish(const View& view, std::size_t planting) {
  const auto wish = harvest::wish_days(view.plan(), view.garden.climate);
  if (!wish) return std::nullopt;
  OutOfWish found{.first_cut = Date::max()};
  for (const Sowing& sowing : view.sowings(planting)) {
    Date day = sowing.timeline.first_cut.likely;
    found.first_cut = std::min(found.first_cut, day);
    for (const double stems : ground::stems_by_day(sowing)) {
      found.stems += stems;
      if (wish->contains(day)) found.in_wish += stems;
      day += Days{1};
    }
  }
  if (found.stems < 1 || found.in_wish >= ground::kLeastUseful * found.stems) return std::nullopt;
  return found;
}

// "A little of everything": a kind that never brings a twelfth of a vase in its best week.
std::optional<FewStems> few_stems(const View& view, std::size_t planting) {
  if (!view.plan().wish) return std::nullopt;
  const auto by_day = stems_by_day(view.sowings(planting));
  double best = 0;
  for (auto day = by_day.begin(); day != by_day.end(); ++day) {
    const auto last = by_day.end() - day > 7 ? day + 7 : by_day.end();
    best = std::max(best, std::accumulate(day, last, 0.0));
  }
  const double least = view.plan().wish->stems_per_vase * kVaseShare;
  if (best >= least) return std::nullopt;
  const int year = view.plan().flowering_year;
  const int first_year = first_year_in_cut(*view.weighed(planting).sheet,
                                           view.plan().plantings[planting].asked.since, year);
  // What is lifted before its first cut is told so.
  const bool is_cut = std::ranges::any_of(view.sowings(planting), &ground::Sowing::is_cut);
  if (best <= 0 && first_year <= year && !is_cut) return std::nullopt;
  return FewStems{best, least, view.weighed(planting).layout.plants, first_year};
}

// One planting that would fill the weeks in which it is cut again and again, by itself.
std::optional<AboveWish> above_wish(const View& view, std::size_t planting) {
  if (!view.plan().wish) return std::nullopt;
  AboveWish found{.plants = view.weighed(planting).layout.plants};
  ground::Schedule own;
  const auto sowings = view.schedule.of(planting);
  own.sowings.assign(sowings.begin(), sowings.end());
  for (const harvest::Week& week :
       harvest::count_weeks(view.plan(), view.garden.climate, ground::cuts(view.plan(), own))) {
    if (week.stems.likely <= 0) continue;
    ++found.weeks;
    found.stems += week.stems.likely;
    found.wanted_stems += week.vase.wanted;
  }
  if (found.stems <= kFarAbove * found.wanted_stems || found.weeks == 0) return std::nullopt;
  return found;
}

std::optional<TooManyPlants> too_many_plants(const View& view, std::size_t planting) {
  if (!view.plan().plantings[planting].patch) return std::nullopt;  // it takes no ground here
  const ground::Layout& layout = view.weighed(planting).layout;
  if (layout.plants <= layout.room()) return std::nullopt;
  return TooManyPlants{layout.plants, layout.room(), layout.spacing_cm};
}

// The least side of its ground against the room one plant wants.
std::optional<TooNarrow> too_narrow(const View& view, std::size_t planting) {
  const auto& patch = view.plan().plantings[planting].patch;
  if (!patch) return std::nullopt;
  const double spacing_cm = view.weighed(planting).layout.spacing_cm;
  const int side_cm = whole_cm(std::min(patch->length, patch->width));
  if (side_cm >= kNarrow * spacing_cm) return std::nullopt;
  return TooNarrow{side_cm, patch->width < patch->length, spacing_cm};
}

std::optional<OffColour> off_colour(const View& view, std::size_t planting) {
  const auto& wish = view.plan().wish;
  if (!wish || wish->colours.empty() || !view.grown(planting)) return std::nullopt;
  const Sheet& sheet = view.sheet(planting);
  const CropEntry& crop = view.plan().plantings[planting].asked;
  const auto& colours = crop.colours.empty() ? sheet.colours : crop.colours;
  const auto wished = [&](const std::string& colour) {
    return std::ranges::find(wish->colours, colour) != wish->colours.end();
  };
  if (sheet.roles.front() == Role::Foliage || colours.empty() ||
      std::ranges::any_of(colours, wished)) {
    return std::nullopt;
  }
  return OffColour{colours, wish->colours};
}

}  // namespace

std::vector<Finding> of_grown(const View& view, std::size_t planting) {
  List list(view, planting);
  const auto sowings = view.sowings(planting);
  const bool measured = view.garden.weather.has_value();
  list.add_first(view.schedule.of(planting),
                 [&](const Sowing& sowing) { return not_in_cut(sowing, measured); });
  // What it loses by its wait says more than the days alone.
  const auto held = held_back(view, planting);
  list.add(held);
  if (!held) {
    list.add_first(sowings, [&](const Sowing& sowing) { return late_start(view, sowing); });
  }
  list.add_first(sowings, too_early);
  list.add_first(sowings, small_rosette);
  list.add_first(sowings, against_rule);
  list.add_first(sowings, [&](const Sowing& sowing) { return against_told(view, sowing); });
  list.add_first(sowings, short_stems);
  list.add_first(sowings, [&](const Sowing& sowing) { return winter_losses(view, sowing); });
  list.add_first(sowings, [&](const Sowing& sowing) { return one_year(view, sowing); });
  list.add_first(sowings, [&](const Sowing& sowing) { return needs_cold(view, sowing); });
  list.add_first(sowings, [&](const Sowing& sowing) { return cold_soil(view, sowing); });
  list.add_first(sowings, heat_pause);
  list.add(one_group(view, planting));
  list.add(few_stems(view, planting));
  list.add(out_of_wish(view, planting));
  list.add(fewer_sowings(view, planting));
  list.add(above_wish(view, planting));
  return std::move(list).take();
}

std::vector<Finding> of_asked(const View& view, std::size_t planting) {
  List list(view, planting);
  list.add(too_many_plants(view, planting));
  list.add(too_narrow(view, planting));
  list.add(off_colour(view, planting));
  return std::move(list).take();
}

}  // namespace trug::ask
