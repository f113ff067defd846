// SPDX-License-Identifier: MIT
#include "ground/findings.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <span>

#include "climate/soil.h"
#include "ground/plan_choice.h"

namespace trug::ground {
namespace {

constexpr double kDearShare = 0.2;       // of the stretch's stems
constexpr int kHardlyFrostDays = 330;    // free of frost: frosts within five weeks of each other
constexpr int kShortSeasonDays = 91;     // free of frost: little tender is cut in less (memory)
constexpr double kVaseShare = 1.0 / 12;  // of a vase's stems: the least a kind should bring a week

class Finder {
 public:
  Finder(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
         const Schedule& schedule, const std::vector<harvest::Week>& weeks)
      : plan_(plan), sheets_(sheets), climate_(climate), schedule_(schedule), weeks_(weeks) {}

  std::vector<Finding> run() {
    for (std::size_t i = 0; i < plan_.plantings.size(); ++i) {
      if (sowings(i).empty()) {
        left_out(i);
      } else {
        look_at_chosen(i);
      }
      look_at_plan(i);
    }
    dear_crops();
    look_at_place();
    short_weeks();
    if (!schedule_.settled) {
      Finding finding = about_plan(FindingCode::NotSettled, Rank::Mild, "wish");
      finding.numbers = {{"rounds", schedule_.rounds}};
      list_.push_back(std::move(finding));
    }
    std::ranges::stable_sort(list_, {}, [](const Finding& f) { return static_cast<int>(f.rank); });
    return std::move(list_);
  }

 private:
  std::span<const Sowing> sowings(std::size_t planting) const { return schedule_.of(planting); }
  const Sheet& sheet(std::size_t planting) const { return *schedule_.weighed[planting].sheet; }

  Finding about(std::size_t planting, FindingCode code, Rank rank) const {
    const Planting& of = plan_.plantings[planting];
    Finding finding{.code = code, .rank = rank, .at = of.asked.at, .key = "crop"};
    finding.planting = planting;
    finding.planting_name = of.name;
    finding.crop = of.asked.crop;
    if (const auto sown = sowings(planting); !sown.empty()) {
      finding.way = sown.front().raised_by().name;
    }
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

  void look_at_chosen(std::size_t planting) {
    const Sowing& c = sowings(planting).front();
    const Way& way = c.raised_by();
    if (c.place == WindowPlace::Outside) {
      Finding finding = about(planting, FindingCode::LateStart, Rank::Mild);
      const growth::CropClock clock(climate_, *c.sheet, c.group, plan_.flowering_year);
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
      finding.remedy = remedy_for_too_early(schedule_, planting);
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
                         {"survives_c", c.sheet->coldest_survived_c}};
      list_.push_back(std::move(finding));
    }
    if (c.needs_cold_store) {
      Finding finding = about(planting, FindingCode::NeedsCold, Rank::Mild);
      const Range days = cold_store_days(*c.sheet);
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
  void cold_soil(std::size_t planting) {
    const Sowing& c = sowings(planting).front();
    const FrostClass hardiness = frost_class(*c.sheet);
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
    if (days >= kHardlyFrostDays && !plan_.plantings.empty()) {
      Finding finding = about_place(FindingCode::HardlyFrost);
      finding.numbers = {{"frost_free_days", std::min(days, 365)}};
      list_.push_back(std::move(finding));
    }
    const bool bound = std::ranges::any_of(schedule_.weighed, [](const Weighed& weighed) {
      return frost_class(*weighed.sheet) != FrostClass::Hardy;
    });
    if (days >= kShortSeasonDays || !bound) return;
    Finding finding = about_place(FindingCode::ShortSeason);
    finding.numbers = {{"frost_free_weeks", days / 7.0}};
    for (std::size_t i = 0; i < plan_.plantings.size(); ++i) {
      const WayReport* report =
          sowings(i).empty() ? nearest_way(*schedule_.weighed[i].candidates) : nullptr;
      if (!report || report->refusal->rule != Rule::SeasonTooShort ||
          frost_class(sheet(i)) == FrostClass::Hardy) {
        continue;
      }
      const Refusal& refusal = *report->refusal;
      const double wanted = days_between(refusal.in_ground, *refusal.found_day) + refusal.wanted;
      finding.words.push_back(plan_.plantings[i].name + " needs " +
                              std::to_string(static_cast<int>(std::ceil(wanted / 7))));
    }
    list_.push_back(std::move(finding));
  }

  // "A little of everything": a kind that never brings a twelfth of a vase in its best week.
  void few_stems(std::size_t planting) {
    if (!plan_.wish) return;
    const auto by_day = planting_stems(planting);
    double best = 0;
    for (std::size_t day = 0; day < by_day.size(); ++day) {
      const auto last = std::min(by_day.size(), day + 7);
      best =
          std::max(best, std::accumulate(by_day.begin() + static_cast<std::ptrdiff_t>(day),
                                         by_day.begin() + static_cast<std::ptrdiff_t>(last), 0.0));
    }
    if (best >= plan_.wish->stems_per_vase * kVaseShare) return;
    Finding finding = about(planting, FindingCode::FewStems, Rank::Mild);
    finding.numbers = {{"best_week_stems", best},
                       {"plants", schedule_.weighed[planting].layout.plants}};
    list_.push_back(std::move(finding));
  }

  // Of all sowings together, by day from the first cut.
  std::vector<double> planting_stems(std::size_t planting) const {
    const auto sown = sowings(planting);
    std::vector<double> whole;
    for (const Sowing& sowing : sown) {
      const int days =
          days_between(sown.front().timeline.first_cut.likely, sowing.timeline.first_cut.likely);
      const auto offset = static_cast<std::size_t>(std::max(0, days));
      const auto by_day = stems_by_day(sowing);
      whole.resize(std::max(whole.size(), offset + by_day.size()));
      for (std::size_t day = 0; day < by_day.size(); ++day) whole[offset + day] += by_day[day];
    }
    return whole;
  }

  void look_at_plan(std::size_t planting) {
    const Layout& layout = schedule_.weighed[planting].layout;
    if (layout.plants > layout.room()) {
      Finding finding = about(planting, FindingCode::TooManyPlants, Rank::Mild);
      finding.numbers = {
          {"plants", layout.plants}, {"room", layout.room()}, {"spacing_cm", layout.spacing_cm}};
      finding.remedy = fewer_plants(layout);
      list_.push_back(std::move(finding));
    }
    if (!plan_.wish || plan_.wish->colours.empty() || sowings(planting).empty()) return;
    const CropEntry& crop = plan_.plantings[planting].asked;
    const auto& colours = crop.colours.empty() ? sheet(planting).colours : crop.colours;
    if (sheet(planting).roles.front() == Role::Foliage) return;
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

  void left_out(std::size_t planting) {
    const Candidates& weighed = *schedule_.weighed[planting].candidates;
    if (!weighed.list.empty() && (weighed.wanted_sowings <= 1 || !weighed.streams.empty())) {
      ground_taken(planting);
      return;
    }
    const WayReport* report = nearest_way(weighed);
    const bool late = report && report->refusal->rule == Rule::TooLate;
    Finding finding =
        about(planting, late ? FindingCode::TooLate : FindingCode::CannotGrow, Rank::Broken);
    if (report) {
      finding.way = sheet(planting).ways[report->way].name;
      finding.refusal = report->refusal;
    } else if (!weighed.reports.empty()) {
      finding.refusal = weighed.reports.front().refusal;
    }
    finding.remedy = remedy_for_year(plan_, sheets_, climate_, planting);
    list_.push_back(std::move(finding));
  }

  // The neighbours' dates against the crop's own: when the one before can leave at the earliest,
  // when the one after must have the ground at the latest.
  void ground_taken(std::size_t planting) {
    Finding finding = about(planting, FindingCode::GroundTaken, Rank::Broken);
    const DateBounds own = date_bounds(planting);
    finding.days = {{"in_ground_from", own.in_first},
                    {"in_ground_to", own.in_last},
                    {"lift_from", own.lift_first}};
    const Days gap{plan_.work.days_between_crops};
    if (const auto before = grown_before(planting)) {
      finding.days.emplace_back("free_from", date_bounds(*before).lift_first + gap);
      finding.words.push_back("after:" + plan_.plantings[*before].asked.crop);
    }
    if (const auto after = grown_after(planting)) {
      finding.days.emplace_back("needed_by", date_bounds(*after).in_last - gap);
      finding.words.push_back("before:" + plan_.plantings[*after].asked.crop);
    }
    finding.remedy = remedy_for_ground(plan_, sheets_, climate_, planting);
    list_.push_back(std::move(finding));
  }

  struct DateBounds {
    Date in_first = Date::max(), in_last = Date::min(), lift_first = Date::max();
  };
  DateBounds date_bounds(std::size_t planting) const {
    DateBounds result;
    for (const Candidate& c : schedule_.weighed[planting].candidates->list) {
      result.in_first = std::min(result.in_first, c.in_ground);
      result.in_last = std::max(result.in_last, c.in_ground);
      result.lift_first = std::min(result.lift_first, c.lift_from);
    }
    return result;
  }

  // The nearest plantings on the same ground that are grown.
  std::optional<std::size_t> grown_before(std::size_t planting) const {
    auto before = plan_.plantings[planting].follows;
    while (before && sowings(*before).empty()) before = plan_.plantings[*before].follows;
    return before;
  }
  std::optional<std::size_t> grown_after(std::size_t planting) const {
    std::size_t last = planting;
    for (std::size_t i = planting + 1; i < plan_.plantings.size(); ++i) {
      if (plan_.plantings[i].follows != last) continue;
      if (!sowings(i).empty()) return i;
      last = i;
    }
    return std::nullopt;
  }

  // What a stretch would give without each of its crops, the others chosen anew.
  void dear_crops() {
    for (const auto& chain : chains(plan_)) {
      if (chain.size() < 2) continue;
      double with = 0;
      for (const std::size_t i : chain) with += stems(sowings(i));
      for (const std::size_t i : chain) {
        if (sowings(i).empty()) continue;
        const double without = stems_without(chain, i);
        if (without - with <= kDearShare * with) continue;
        Finding finding = about(i, FindingCode::CostsStems, Rank::Mild);
        finding.numbers = {{"stems", without - with}, {"stretch_stems", with}};
        finding.remedy = leave_out(plan_, i, 0);
        list_.push_back(std::move(finding));
      }
    }
  }

  double stems_without(std::vector<std::size_t> chain, std::size_t planting) const {
    std::erase(chain, planting);
    return stems(choose_plan(with_only(plan_, chain), sheets_, climate_).sowings);
  }

  void short_weeks() {
    if (!plan_.wish) return;
    Finding finding = about_plan(FindingCode::ShortWeeks, Rank::Short, "wish");
    double missing = 0;
    for (const harvest::Week& week : weeks_) {
      if (week.stems >= week.wanted) continue;
      finding.words.push_back(iso_week(week.monday));
      finding.days.emplace_back("week", week.monday);
      missing += week.wanted - week.stems;
    }
    if (finding.words.empty()) return;
    finding.numbers = {{"short_weeks", static_cast<double>(finding.words.size())},
                       {"weeks", static_cast<double>(weeks_.size())},
                       {"missing_stems", missing}};
    list_.push_back(std::move(finding));
  }

  const Plan& plan_;
  const Sheets& sheets_;
  const climate::Climate& climate_;
  const Schedule& schedule_;
  const std::vector<harvest::Week>& weeks_;
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
                          const Schedule& schedule, const std::vector<harvest::Week>& weeks) {
  return Finder(plan, sheets, climate, schedule, weeks).run();
}

}  // namespace trug::ground
