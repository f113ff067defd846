// SPDX-License-Identifier: MIT
#include "ask/findings.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <span>
#include <utility>

#include "climate/soil.h"

namespace trug::ask {
namespace {

using ground::Candidate;
using ground::Candidates;
using ground::Rule;
using ground::Sowing;
using ground::WayReport;

constexpr int kHardlyFrostDays = 330;    // free of frost: frosts within five weeks of each other
constexpr int kShortSeasonDays = 91;     // free of frost: little tender is cut in less (memory)
constexpr double kVaseShare = 1.0 / 12;  // of a vase's stems: the least a kind should bring a week

// All there is to look at.
struct View {
  const Plan& plan;
  const climate::Climate& climate;
  const ground::Schedule& chosen;    // by the averages, as are the flags that are judged
  const ground::Schedule& schedule;  // as measured weather moves it
  const std::vector<harvest::Week>& weeks;

  std::span<const Sowing> sowings(std::size_t planting) const { return chosen.of(planting); }
  bool grown(std::size_t planting) const { return !sowings(planting).empty(); }
  const Sheet& sheet(std::size_t planting) const { return *chosen.weighed[planting].sheet; }
  const Candidates& weighed(std::size_t planting) const {
    return *chosen.weighed[planting].candidates;
  }
};

// --- A crop that is left out.

// The way that came nearest: what the gardener would try first.
const WayReport* nearest_way(const Candidates& candidates) {
  const WayReport* best = nullptr;
  for (const WayReport& report : candidates.reports) {
    if (!report.refusal || report.refusal->rule == Rule::Pinned) continue;
    if (!best || (report.refusal->rule == Rule::TooLate) > (best->refusal->rule == Rule::TooLate)) {
      best = &report;
    }
  }
  return best;
}

struct DateBounds {
  Date in_first = Date::max(), in_last = Date::min(), lift_first = Date::max();
};

DateBounds date_bounds(const Candidates& candidates) {
  DateBounds result;
  for (const Candidate& c : candidates.list) {
    result.in_first = std::min(result.in_first, c.in_ground);
    result.in_last = std::max(result.in_last, c.in_ground);
    result.lift_first = std::min(result.lift_first, c.lift_from);
  }
  return result;
}

// The nearest plantings on the same ground that are grown.
std::optional<std::size_t> grown_before(const View& view, std::size_t planting) {
  auto before = view.plan.plantings[planting].follows;
  while (before && !view.grown(*before)) before = view.plan.plantings[*before].follows;
  return before;
}

std::optional<std::size_t> grown_after(const View& view, std::size_t planting) {
  std::size_t last = planting;
  for (std::size_t i = planting + 1; i < view.plan.plantings.size(); ++i) {
    if (view.plan.plantings[i].follows != last) continue;
    if (view.grown(i)) return i;
    last = i;
  }
  return std::nullopt;
}

// The neighbours' dates against the crop's own: when the one before can leave at the earliest, when
// the one after must have the ground at the latest.
GroundTaken ground_taken(const View& view, std::size_t planting) {
  const DateBounds own = date_bounds(view.weighed(planting));
  const Days gap{view.plan.work.days_between_crops};
  GroundTaken found{own.in_first, own.in_last, own.lift_first, {}, {}};
  if (const auto before = grown_before(view, planting)) {
    found.before = {*before, date_bounds(view.weighed(*before)).lift_first + gap};
  }
  if (const auto after = grown_after(view, planting)) {
    found.after = {*after, date_bounds(view.weighed(*after)).in_last - gap};
  }
  return found;
}

Found left_out(const View& view, std::size_t planting) {
  const Candidates& weighed = view.weighed(planting);
  if (!weighed.list.empty()) {
    if (weighed.wanted_sowings <= 1 || !weighed.streams.empty()) {
      return ground_taken(view, planting);
    }
    return FewerSowings{weighed.most_sowings, weighed.wanted_sowings};
  }
  if (const WayReport* report = nearest_way(weighed)) {
    if (report->refusal->rule == Rule::TooLate) return TooLate{*report->refusal};
    return CannotGrow{view.sheet(planting).ways[report->way].name, report->refusal};
  }
  if (weighed.reports.empty()) return CannotGrow{};
  return CannotGrow{"", weighed.reports.front().refusal};
}

// --- A crop that is grown.

std::optional<LateStart> late_start(const Sowing& sowing) {
  if (sowing.days_late() + sowing.days_early() == 0) return std::nullopt;
  return LateStart{sowing.raised_by().name, sowing.in_ground, sowing.window, sowing.days_late(),
                   sowing.days_early()};
}

std::optional<NotInCut> not_in_cut(const Sowing& sowing) {
  if (sowing.is_cut()) return std::nullopt;
  NotInCut found{sowing.lift, {}};
  if (!sowing.without_flower) found.first_cut = sowing.timeline.first_cut.likely;
  return found;
}

std::optional<TooEarly> too_early(const Sowing& sowing) {
  if (!sowing.too_early) return std::nullopt;
  return TooEarly{sowing.start, sowing.timeline.forecast.flower_share};
}

std::optional<SmallRosette> small_rosette(const Sowing& sowing) {
  if (!sowing.small_rosette) return std::nullopt;
  return SmallRosette{sowing.timeline.forecast.respond_share};
}

std::optional<NeedsFleece> needs_fleece(const View& view, const Sowing& sowing) {
  if (!sowing.under_fleece) return std::nullopt;
  return NeedsFleece{view.plan.place.coldest_c.value_or(0), sowing.sheet->coldest_survived_c};
}

std::optional<NeedsCold> needs_cold(const View& view, const Sowing& sowing) {
  if (!sowing.needs_cold_store) return std::nullopt;
  const Range days = ground::cold_store_days(*sowing.sheet);
  return NeedsCold{view.climate.coldest_month_c().value_or(0), {days.low / 7, days.high / 7}};
}

// Hardy seed lies and waits for warmth, and the rules let nothing else be sown so early: a pin
// does.
std::optional<ColdSoil> cold_soil(const View& view, const Sowing& sowing) {
  const FrostClass hardiness = frost_class(*sowing.sheet);
  if (!sowing.cold_soil || hardiness == FrostClass::Hardy) return std::nullopt;
  return ColdSoil{sowing.start, climate::soil_c(view.climate, sowing.start),
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

// "A little of everything": a kind that never brings a twelfth of a vase in its best week.
std::optional<FewStems> few_stems(const View& view, std::size_t planting) {
  if (!view.plan.wish) return std::nullopt;
  const auto by_day = stems_by_day(view.sowings(planting));
  double best = 0;
  for (auto day = by_day.begin(); day != by_day.end(); ++day) {
    const auto last = by_day.end() - day > 7 ? day + 7 : by_day.end();
    best = std::max(best, std::accumulate(day, last, 0.0));
  }
  if (best >= view.plan.wish->stems_per_vase * kVaseShare) return std::nullopt;
  return FewStems{best, view.chosen.weighed[planting].layout.plants};
}

// --- What the plan says of a crop, grown or not.

std::optional<TooManyPlants> too_many_plants(const View& view, std::size_t planting) {
  const ground::Layout& layout = view.chosen.weighed[planting].layout;
  if (layout.plants <= layout.room()) return std::nullopt;
  return TooManyPlants{layout.plants, layout.room(), layout.spacing_cm};
}

std::optional<OffColour> off_colour(const View& view, std::size_t planting) {
  if (!view.plan.wish || view.plan.wish->colours.empty() || !view.grown(planting)) {
    return std::nullopt;
  }
  const Sheet& sheet = view.sheet(planting);
  const CropEntry& crop = view.plan.plantings[planting].asked;
  const auto& colours = crop.colours.empty() ? sheet.colours : crop.colours;
  const auto wished = [&](const std::string& colour) {
    return std::ranges::find(view.plan.wish->colours, colour) != view.plan.wish->colours.end();
  };
  if (sheet.roles.front() == Role::Foliage || colours.empty() ||
      std::ranges::any_of(colours, wished)) {
    return std::nullopt;
  }
  return OffColour{colours};
}

// --- What the frosts of the place mean for all that is planned there.

int frost_free_days(const View& view) {
  const climate::SeasonFrosts frosts = view.climate.frosts(view.plan.flowering_year);
  return days_between(frosts.last, frosts.first);
}

std::optional<HardlyFrost> hardly_frost(const View& view) {
  const int days = frost_free_days(view);
  if (days < kHardlyFrostDays || view.plan.plantings.empty()) return std::nullopt;
  return HardlyFrost{std::min(days, 365)};
}

// The weeks a crop that waits for the frosts needs between them, where they are too few for it.
std::optional<ShortSeason::Need> season_needed(const View& view, std::size_t planting) {
  if (view.grown(planting) || frost_class(view.sheet(planting)) == FrostClass::Hardy) {
    return std::nullopt;
  }
  const WayReport* report = nearest_way(view.weighed(planting));
  if (!report || report->refusal->rule != Rule::SeasonTooShort) return std::nullopt;
  const ground::Refusal& refusal = *report->refusal;
  const double wanted = days_between(refusal.in_ground, *refusal.found_day) + refusal.wanted;
  return ShortSeason::Need{planting, static_cast<int>(std::ceil(wanted / 7))};
}

std::optional<ShortSeason> short_season(const View& view) {
  const int days = frost_free_days(view);
  const bool bound = std::ranges::any_of(view.chosen.weighed, [](const ground::Weighed& weighed) {
    return frost_class(*weighed.sheet) != FrostClass::Hardy;
  });
  if (days >= kShortSeasonDays || !bound) return std::nullopt;
  ShortSeason found{days / 7.0, {}};
  for (std::size_t i = 0; i < view.plan.plantings.size(); ++i) {
    if (const auto need = season_needed(view, i)) found.needs.push_back(*need);
  }
  return found;
}

// --- The wish.

std::optional<ShortWeeks> short_weeks(const View& view) {
  if (!view.plan.wish) return std::nullopt;
  ShortWeeks found{{}, static_cast<int>(view.weeks.size()), 0};
  for (const harvest::Week& week : view.weeks) {
    if (week.stems >= week.wanted) continue;
    found.mondays.push_back(week.monday);
    found.missing_stems += week.wanted - week.stems;
  }
  if (found.mondays.empty()) return std::nullopt;
  return found;
}

std::optional<NotSettled> not_settled(const View& view) {
  if (view.chosen.settled) return std::nullopt;
  return NotSettled{view.chosen.rounds};
}

class List {
 public:
  explicit List(const Plan& plan) : plan_(plan) {}

  template <class T>
  void add(std::size_t planting, std::optional<T> found) {
    if (found) findings_.push_back(about_planting(plan_, planting, std::move(*found)));
  }
  // Of the first sowing of which it is true.
  template <class Check>
  void add_first(std::span<const Sowing> sowings, Check check) {
    for (const Sowing& sowing : sowings) {
      auto found = check(sowing);
      if (!found) continue;
      add(sowing.planting, std::move(found));
      findings_.back().sowing = sowing.number;
      return;
    }
  }
  template <class T>
  void add_place(std::optional<T> found) {
    if (found) findings_.push_back({plan_.place.at, "place", {}, std::move(*found), {}});
  }
  template <class T>
  void add_wish(std::optional<T> found) {
    const Position at = plan_.wish ? plan_.wish->at : Position{plan_.file, 1, 1};
    if (found) findings_.push_back({at, "wish", {}, std::move(*found), {}});
  }
  std::vector<Finding> sorted() && {
    sort_by_rank(findings_);
    return std::move(findings_);
  }

 private:
  const Plan& plan_;
  std::vector<Finding> findings_;
};

void look_at_grown(const View& view, std::size_t planting, List& list) {
  const auto sowings = view.sowings(planting);
  list.add_first(view.schedule.of(planting), not_in_cut);
  list.add_first(sowings, late_start);
  list.add_first(sowings, too_early);
  list.add_first(sowings, small_rosette);
  list.add_first(sowings, [&](const Sowing& sowing) { return needs_fleece(view, sowing); });
  list.add_first(sowings, [&](const Sowing& sowing) { return needs_cold(view, sowing); });
  list.add_first(sowings, [&](const Sowing& sowing) { return cold_soil(view, sowing); });
  list.add(planting, few_stems(view, planting));
}

}  // namespace

std::string_view to_string(Rank rank) {
  switch (rank) {
    case Rank::Broken:
      return "broken";
    case Rank::Short:
      return "short";
    case Rank::Mild:
      return "mild";
  }
  return "";
}

std::vector<std::string_view> all_finding_codes() {
  return []<class... Each>(const std::variant<Each...>*) {
    return std::vector<std::string_view>{Each::kCode...};
  }(static_cast<const Found*>(nullptr));
}

std::string_view Finding::code() const {
  return std::visit([](const auto& one) { return one.kCode; }, found);
}

Rank Finding::rank() const {
  return std::visit([](const auto& one) { return one.kRank; }, found);
}

Finding about_planting(const Plan& plan, std::size_t planting, Found found) {
  return {plan.plantings[planting].asked.at, "crop", planting, std::move(found), {}};
}

void sort_by_rank(std::vector<Finding>& findings) {
  std::ranges::stable_sort(findings, {}, &Finding::rank);
}

std::vector<Finding> find(const Plan& plan, const climate::Climate& climate,
                          const ground::Schedule& chosen, const ground::Schedule& schedule,
                          const std::vector<harvest::Week>& weeks) {
  const View view{plan, climate, chosen, schedule, weeks};
  List list(plan);
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    if (view.grown(i)) {
      look_at_grown(view, i, list);
    } else {
      list.add(i, std::optional(left_out(view, i)));
    }
    list.add(i, too_many_plants(view, i));
    list.add(i, off_colour(view, i));
  }
  list.add_place(hardly_frost(view));
  list.add_place(short_season(view));
  list.add_wish(short_weeks(view));
  list.add_wish(not_settled(view));
  return std::move(list).sorted();
}

}  // namespace trug::ask
