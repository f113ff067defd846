// SPDX-License-Identifier: MIT
#include "ground/findings.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "climate/soil.h"

namespace trug::ground {
namespace {

constexpr double kDearShare = 0.2;       // of the stretch's stems
constexpr int kHardlyFrostDays = 330;    // free of frost: frosts within five weeks of each other
constexpr int kShortSeasonDays = 91;     // free of frost: little tender is cut in less (memory)
constexpr double kVaseShare = 1.0 / 12;  // of a vase's stems: the least a kind should bring a week

double total_stems(const PlantingChoice& planting) {
  const auto stems = stems_by_day(planting);
  return std::accumulate(stems.begin(), stems.end(), 0.0);
}

class Finder {
 public:
  Finder(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
         const PlanChoice& choice)
      : plan_(plan), sheets_(sheets), climate_(climate), choice_(choice) {}

  std::vector<Finding> run() {
    for (std::size_t i = 0; i < choice_.plantings.size(); ++i) {
      const PlantingChoice& planting = choice_.plantings[i];
      if (planting.chosen) {
        look_at_chosen(planting);
      } else {
        left_out(i);
      }
      look_at_plan(planting);
    }
    dear_crops();
    look_at_place();
    short_weeks();
    if (!choice_.settled) {
      Finding finding = about_plan(FindingCode::NotSettled, Rank::Mild, "wish");
      finding.numbers = {{"rounds", choice_.rounds}};
      list_.push_back(std::move(finding));
    }
    std::ranges::stable_sort(list_, {}, [](const Finding& f) { return static_cast<int>(f.rank); });
    return std::move(list_);
  }

 private:
  Finding about(const PlantingChoice& planting, FindingCode code, Rank rank) const {
    const CropEntry& crop = entry(plan_, planting.ref);
    Finding finding{.code = code, .rank = rank, .at = crop.at, .key = "crop"};
    finding.planting = planting.ref;
    finding.planting_name = planting_name(plan_, planting.ref);
    finding.crop = crop.crop;
    if (planting.chosen) finding.way = planting.sheet->ways[planting.chosen->candidate.way].name;
    return finding;
  }

  Finding about_place(FindingCode code) const {
    Finding finding{.code = code, .rank = Rank::Mild, .key = "place"};
    finding.at = plan_.place.at;
    return finding;
  }

  Finding about_plan(FindingCode code, Rank rank, std::string key) const {
    Finding finding{.code = code, .rank = rank, .key = std::move(key)};
    finding.at = plan_.wish ? plan_.wish->at : Position{plan_.file, 1, 1};
    return finding;
  }

  void look_at_chosen(const PlantingChoice& planting) {
    const Candidate& c = planting.chosen->candidate;
    const Way& way = planting.sheet->ways[c.way];
    if (c.place == WindowPlace::Outside) {
      Finding finding = about(planting, FindingCode::LateStart, Rank::Mild);
      const growth::CropClock clock(climate_, *planting.sheet, c.group, plan_.flowering_year);
      const DateRange window = clock.window_days(*way.window, way.flowers);
      const Date last = window.until - Days{1};
      const bool early = c.in_ground < window.from;  // only a pin can ask for that
      finding.days = {
          {"in_ground", c.in_ground}, {"window_start", window.from}, {"window_end", last}};
      finding.numbers = {
          {early ? "days_early" : "days_late",
           early ? days_between(c.in_ground, window.from) : days_between(last, c.in_ground)}};
      list_.push_back(std::move(finding));
    }
    if (c.too_early) {
      Finding finding = about(planting, FindingCode::TooEarly, Rank::Mild);
      finding.days = {{"start", c.start}};
      finding.numbers = {{"share_done", c.timeline.forecast.flower_share}};
      finding.remedy = remedy_for_too_early(planting);
      list_.push_back(std::move(finding));
    }
    if (c.small_rosette) {
      Finding finding = about(planting, FindingCode::SmallRosette, Rank::Mild);
      finding.numbers = {{"share_done", c.timeline.forecast.respond_share}};
      list_.push_back(std::move(finding));
    }
    if (c.under_fleece) {
      Finding finding = about(planting, FindingCode::NeedsFleece, Rank::Mild);
      finding.numbers = {{"coldest_c", plan_.place.coldest_c.value_or(0)},
                         {"survives_c", planting.sheet->coldest_survived_c}};
      list_.push_back(std::move(finding));
    }
    if (c.needs_cold_store) {
      Finding finding = about(planting, FindingCode::NeedsCold, Rank::Mild);
      const Range days = cold_store_days(*planting.sheet);
      finding.numbers = {{"coldest_month_c", climate_.coldest_month_c().value_or(0)},
                         {"weeks_low", days.low / 7},
                         {"weeks_high", days.high / 7}};
      list_.push_back(std::move(finding));
    }
    cold_soil(planting);
    few_stems(planting);
  }

  // Hardy seed lies and waits for warmth, and the rules let nothing else be sown so early: a pin
  // does.
  void cold_soil(const PlantingChoice& planting) {
    const Candidate& c = planting.chosen->candidate;
    const FrostClass hardiness = frost_class(*planting.sheet);
    if (!c.cold_soil || hardiness == FrostClass::Hardy) return;
    Finding finding = about(planting, FindingCode::ColdSoil, Rank::Mild);
    finding.days = {{"start", c.start}};
    finding.numbers = {{"soil_c", climate::soil_c(climate_, c.start)},
                       {"wanted_c", climate::sowing_soil_c(hardiness)}};
    list_.push_back(std::move(finding));
  }

  // What the frosts of the place mean for all that is planned there.
  void look_at_place() {
    const climate::SeasonFrosts frosts = climate_.frosts(plan_.flowering_year);
    const int days = days_between(frosts.last, frosts.first);
    if (days >= kHardlyFrostDays && !choice_.plantings.empty()) {
      Finding finding = about_place(FindingCode::HardlyFrost);
      finding.numbers = {{"frost_free_days", std::min(days, 365)}};
      list_.push_back(std::move(finding));
    }
    const bool bound = std::ranges::any_of(choice_.plantings, [](const PlantingChoice& planting) {
      return frost_class(*planting.sheet) != FrostClass::Hardy;
    });
    if (days >= kShortSeasonDays || !bound) return;
    Finding finding = about_place(FindingCode::ShortSeason);
    finding.numbers = {{"frost_free_weeks", days / 7.0}};
    for (const PlantingChoice& planting : choice_.plantings) {
      const WayReport* report = planting.chosen ? nullptr : nearest_way(*planting.candidates);
      if (!report || report->refusal->rule != Rule::SeasonTooShort ||
          frost_class(*planting.sheet) == FrostClass::Hardy) {
        continue;
      }
      const Refusal& refusal = *report->refusal;
      const double wanted = days_between(refusal.in_ground, *refusal.found_day) + refusal.wanted;
      finding.words.push_back(planting_name(plan_, planting.ref) + " needs " +
                              std::to_string(static_cast<int>(std::ceil(wanted / 7))));
    }
    list_.push_back(std::move(finding));
  }

  // "A little of everything": a kind that never brings a twelfth of a vase in its best week.
  void few_stems(const PlantingChoice& planting) {
    if (!plan_.wish) return;
    const auto stems = stems_by_day(planting);
    double best = 0;
    for (std::size_t day = 0; day < stems.size(); ++day) {
      const auto last = std::min(stems.size(), day + 7);
      best =
          std::max(best, std::accumulate(stems.begin() + static_cast<std::ptrdiff_t>(day),
                                         stems.begin() + static_cast<std::ptrdiff_t>(last), 0.0));
    }
    if (best >= plan_.wish->stems_per_vase * kVaseShare) return;
    Finding finding = about(planting, FindingCode::FewStems, Rank::Mild);
    finding.numbers = {{"best_week_stems", best}, {"plants", planting.layout.plants}};
    list_.push_back(std::move(finding));
  }

  void look_at_plan(const PlantingChoice& planting) {
    if (planting.layout.plants > planting.layout.room()) {
      Finding finding = about(planting, FindingCode::TooManyPlants, Rank::Mild);
      finding.numbers = {{"plants", planting.layout.plants},
                         {"room", planting.layout.room()},
                         {"spacing_cm", planting.layout.spacing_cm}};
      finding.remedy = fewer_plants(planting);
      list_.push_back(std::move(finding));
    }
    if (!plan_.wish || plan_.wish->colours.empty() || !planting.chosen) return;
    const CropEntry& crop = entry(plan_, planting.ref);
    const auto& colours = crop.colours.empty() ? planting.sheet->colours : crop.colours;
    if (planting.sheet->roles.front() == Role::Foliage) return;
    const auto wished = [&](const std::string& colour) {
      return std::ranges::find(plan_.wish->colours, colour) != plan_.wish->colours.end();
    };
    if (colours.empty() || std::ranges::any_of(colours, wished)) return;
    Finding finding = about(planting, FindingCode::OffColour, Rank::Mild);
    finding.words = colours;
    list_.push_back(std::move(finding));
  }

  // The way that came nearest: what the gardener would try first.
  static const WayReport* nearest_way(const Candidates& candidates) {
    const WayReport* best = nullptr;
    for (const WayReport& report : candidates.reports) {
      if (!report.refusal || report.refusal->rule == Rule::Pinned) continue;
      if (!best ||
          (report.refusal->rule == Rule::TooLate) > (best->refusal->rule == Rule::TooLate)) {
        best = &report;
      }
    }
    return best;
  }

  void left_out(std::size_t index) {
    const PlantingChoice& planting = choice_.plantings[index];
    if (!planting.candidates->list.empty()) {
      ground_taken(index);
      return;
    }
    const WayReport* report = nearest_way(*planting.candidates);
    const bool late = report && report->refusal->rule == Rule::TooLate;
    Finding finding =
        about(planting, late ? FindingCode::TooLate : FindingCode::CannotGrow, Rank::Broken);
    if (report) {
      finding.way = planting.sheet->ways[report->way].name;
      finding.refusal = report->refusal;
    } else if (!planting.candidates->reports.empty()) {
      finding.refusal = planting.candidates->reports.front().refusal;
    }
    finding.remedy = remedy_for_year(plan_, sheets_, climate_, planting.ref);
    list_.push_back(std::move(finding));
  }

  // The neighbours' dates against the crop's own: when the one before can leave at the earliest,
  // when the one after must have the ground at the latest.
  void ground_taken(std::size_t index) {
    const PlantingChoice& planting = choice_.plantings[index];
    Finding finding = about(planting, FindingCode::GroundTaken, Rank::Broken);
    const Bounds own = bounds(planting);
    finding.days = {{"in_ground_from", own.in_first},
                    {"in_ground_to", own.in_last},
                    {"lift_from", own.lift_first}};
    const Days gap{plan_.work.days_between_crops};
    if (const PlantingChoice* before = neighbour(index, -1)) {
      finding.days.emplace_back("free_from", bounds(*before).lift_first + gap);
      finding.words.push_back("after:" + entry(plan_, before->ref).crop);
    }
    if (const PlantingChoice* after = neighbour(index, 1)) {
      finding.days.emplace_back("needed_by", bounds(*after).in_last - gap);
      finding.words.push_back("before:" + entry(plan_, after->ref).crop);
    }
    finding.remedy = remedy_for_ground(plan_, sheets_, climate_, planting.ref);
    list_.push_back(std::move(finding));
  }

  struct Bounds {
    Date in_first = Date::max(), in_last = Date::min(), lift_first = Date::max();
  };
  static Bounds bounds(const PlantingChoice& planting) {
    Bounds result;
    for (const Candidate& c : planting.candidates->list) {
      result.in_first = std::min(result.in_first, c.in_ground);
      result.in_last = std::max(result.in_last, c.in_ground);
      result.lift_first = std::min(result.lift_first, c.lift_from);
    }
    return result;
  }

  // The nearest planting of the same stretch that is grown, in the given direction.
  const PlantingChoice* neighbour(std::size_t index, int step) const {
    const PlantingRef ref = choice_.plantings[index].ref;
    for (auto i = static_cast<std::ptrdiff_t>(index) + step;
         i >= 0 && i < static_cast<std::ptrdiff_t>(choice_.plantings.size()); i += step) {
      const PlantingChoice& other = choice_.plantings[static_cast<std::size_t>(i)];
      if (other.ref.bed != ref.bed || other.ref.stretch != ref.stretch) return nullptr;
      if (other.chosen) return &other;
    }
    return nullptr;
  }

  // What a stretch would give without each of its crops, the others chosen anew.
  void dear_crops() {
    for (const PlantingChoice& planting : choice_.plantings) {
      const auto& stretch = plan_.beds[planting.ref.bed].stretches[planting.ref.stretch];
      if (stretch.crops.size() < 2 || !planting.chosen) continue;
      const double with = stretch_stems(planting.ref, choice_);
      const double without = stems_without(planting.ref);
      if (without - with <= kDearShare * with) continue;
      Finding finding = about(planting, FindingCode::CostsStems, Rank::Mild);
      finding.numbers = {{"stems", without - with}, {"stretch_stems", with}};
      finding.remedy = leave_out(plan_, planting.ref, 0);
      list_.push_back(std::move(finding));
    }
  }

  double stretch_stems(PlantingRef ref, const PlanChoice& choice) const {
    double stems = 0;
    for (const PlantingChoice& planting : choice.plantings) {
      const bool same = planting.ref.bed == ref.bed && planting.ref.stretch == ref.stretch;
      if (same && planting.chosen) stems += total_stems(planting);
    }
    return stems;
  }

  double stems_without(PlantingRef ref) const {
    Plan smaller = plan_;
    const Bed& bed = plan_.beds[ref.bed];
    smaller.beds = {bed};
    smaller.beds[0].stretches = {bed.stretches[ref.stretch]};
    auto& crops = smaller.beds[0].stretches[0].crops;
    crops.erase(crops.begin() + static_cast<std::ptrdiff_t>(ref.crop));
    return stretch_stems({0, 0, 0}, choose_plan(smaller, sheets_, climate_));
  }

  void short_weeks() {
    if (!plan_.wish) return;
    Finding finding = about_plan(FindingCode::ShortWeeks, Rank::Short, "wish");
    double missing = 0;
    for (const Week& week : choice_.weeks) {
      if (week.stems >= week.wanted) continue;
      finding.words.push_back(iso_week(week.monday));
      finding.days.emplace_back("week", week.monday);
      missing += week.wanted - week.stems;
    }
    if (finding.words.empty()) return;
    finding.numbers = {{"short_weeks", static_cast<double>(finding.words.size())},
                       {"weeks", static_cast<double>(choice_.weeks.size())},
                       {"missing_stems", missing}};
    list_.push_back(std::move(finding));
  }

  const Plan& plan_;
  const Sheets& sheets_;
  const climate::Climate& climate_;
  const PlanChoice& choice_;
  std::vector<Finding> list_;
};

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

std::string_view to_string(FindingCode code) {
  switch (code) {
    case FindingCode::CannotGrow:
      return "cannot-grow";
    case FindingCode::GroundTaken:
      return "ground-taken";
    case FindingCode::TooLate:
      return "too-late";
    case FindingCode::ShortWeeks:
      return "short-weeks";
    case FindingCode::LateStart:
      return "late-start";
    case FindingCode::TooEarly:
      return "too-early";
    case FindingCode::SmallRosette:
      return "small-rosette";
    case FindingCode::NeedsFleece:
      return "needs-fleece";
    case FindingCode::NeedsCold:
      return "needs-cold";
    case FindingCode::ColdSoil:
      return "cold-soil";
    case FindingCode::HardlyFrost:
      return "hardly-frost";
    case FindingCode::ShortSeason:
      return "short-season";
    case FindingCode::CostsStems:
      return "costs-stems";
    case FindingCode::TooManyPlants:
      return "too-many-plants";
    case FindingCode::FewStems:
      return "few-stems";
    case FindingCode::OffColour:
      return "off-colour";
    case FindingCode::NotSettled:
      return "not-settled";
  }
  return "";
}

double Finding::number(std::string_view name) const {
  for (const auto& [label, value] : numbers) {
    if (label == name) return value;
  }
  return 0;
}

std::optional<Date> Finding::day(std::string_view name) const {
  for (const auto& [label, value] : days) {
    if (label == name) return value;
  }
  return std::nullopt;
}

std::vector<Finding> find(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
                          const PlanChoice& choice) {
  return Finder(plan, sheets, climate, choice).run();
}

}  // namespace trug::ground
