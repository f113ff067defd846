// SPDX-License-Identifier: MIT
#include "ask/advise.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "ask/ask.h"
#include "ask/gave_way.h"

namespace trug::ask {
namespace {

using ground::Candidate;
using ground::Schedule;
using ground::Sowing;

constexpr double kDearShare = 0.2;                        // of the stretch's stems
constexpr int kMostDaysTried = 20, kFewestDaysTried = 7;  // of cutting, before an earlier lift
constexpr double kFrameM2 = 1;                            // of the frame that is asked for
constexpr double kHardly = 0.25;                          // of the stems on free ground
constexpr double kLeastWorth = 3;                         // stems, as the choice counts them

// All that grows on the ground of a planting.
std::vector<std::size_t> chain_of(const Plan& plan, std::size_t planting) {
  for (auto& chain : chains(plan)) {
    if (std::ranges::find(chain, planting) != chain.end()) return std::move(chain);
  }
  return {};
}

std::size_t place_in(const std::vector<std::size_t>& chain, std::size_t planting) {
  return static_cast<std::size_t>(std::ranges::find(chain, planting) - chain.begin());
}

// The day on which the one `before` it on the ground is to be lifted: after as many days of cutting
// as still leave it its place, a week at least. Tried on the stretch alone; nullopt where none
// does.
std::optional<Date> earlier_lift(const Garden& garden, std::size_t planting, std::size_t before) {
  const std::string& crop = garden.plan.plantings[before].asked.crop;
  if (stays_in_ground(garden.sheets.at(crop)->life_cycle)) return std::nullopt;
  const auto chain = chain_of(garden.plan, planting);
  const std::size_t first = place_in(chain, before), next = place_in(chain, planting);
  const Garden stretch = with_only(garden, chain);
  const Schedule now = choose(stretch);
  for (int days = kMostDaysTried; days >= kFewestDaysTried && !now.of(first).empty(); --days) {
    // The earliest that keeps this many days of cutting on any date the crop before could have.
    Date lift = Date::max();
    for (const Candidate& c : now.weighed[first].candidates->list) {
      lift = std::min(lift, c.timeline.first_cut.likely + Days{days});
    }
    if (lift < garden.today) break;
    const ChangedPlan tried = changed(stretch.plan, LiftOn{first, lift});
    const Schedule schedule = choose(with_plan(stretch, tried.plan));
    const auto lifted = schedule.of(first);
    if (schedule.of(next).empty() || lifted.empty() || lifted.back().lift != lift) continue;
    return lift;
  }
  return std::nullopt;
}

// The first day on which a sowing begun the same way is not too early any more.
std::optional<Date> not_too_early(const Schedule& schedule, const Finding& finding) {
  const auto sowings = schedule.of(*finding.planting);
  const Candidate& taken = sowings[static_cast<std::size_t>(std::max(0, finding.sowing - 1))];
  std::optional<Date> first;
  for (const Candidate& c : schedule.weighed[*finding.planting].candidates->list) {
    if (c.way != taken.way || c.too_early || c.start <= taken.start) continue;
    if (!first || c.start < *first) first = c.start;
  }
  return first;
}

// A planting grown from plants that the trade sells, though it is raised as a rule.
std::vector<Change> from_bought_plants(const Garden& garden, const Schedule& schedule,
                                       std::size_t planting) {
  std::vector<Change> list;
  const ground::Weighed& weighed = schedule.weighed[planting];
  for (const ground::WayReport& report : weighed.candidates->reports) {
    if (!report.refusal || report.refusal->rule != ground::Rule::NotUsual) continue;
    list.push_back(ByWay{planting, weighed.sheet->ways[report.way].name, garden.adds_from()});
  }
  return list;
}

double missing_stems(const std::vector<Finding>& findings) {
  for (const Finding& finding : findings) {
    const auto* weeks = std::get_if<ShortWeeks>(&finding.found);
    if (weeks) return weeks->missing_stems;
  }
  return 0;
}

// The changes worth trying for each kind of finding, the likeliest first.
struct Changes {
  const Garden& garden;
  const Schedule& schedule;
  const Finding& finding;

  std::size_t planting() const { return *finding.planting; }

  std::vector<Change> operator()(const GroundTaken& found) const {
    std::vector<Change> list;
    if (found.before) {
      const std::size_t before = found.before->planting;
      const auto lift = earlier_lift(garden, planting(), before);
      if (lift) list.push_back(LiftOn{before, *lift});
    }
    list.push_back(LeaveOut{planting()});
    return list;
  }
  std::vector<Change> operator()(const CannotGrow&) const {
    std::vector<Change> list = without_pins();
    for (Change& bought : from_bought_plants(garden, schedule, planting())) {
      list.push_back(std::move(bought));
    }
    return list;
  }
  std::vector<Change> operator()(const FewerSowings& found) const {
    return {Sowings{planting(), found.useful}};
  }
  // So late that it is cut for a fortnight, or for a week at least.
  std::vector<Change> operator()(const NotInCut& found) const {
    if (!found.first_cut) return {};
    return {LiftOn{planting(), *found.first_cut + Days{13}},
            LiftOn{planting(), *found.first_cut + Days{6}}};
  }
  std::vector<Change> operator()(const TooManyPlants& found) const {
    return {Plants{planting(), found.room}};
  }
  // Lifted in time the one before leaves it the ground; where it cannot be, the ground is better
  // left than planted for so few.
  std::vector<Change> operator()(const HeldBack& found) const {
    std::vector<Change> list;
    const auto waits = waiting(garden.plan, schedule, planting());
    const auto lift = waits ? earlier_lift(garden.plan, schedule, *waits) : std::nullopt;
    if (lift) list.push_back(LiftOn{found.before, *lift});
    const bool is_told = schedule.of(planting()).front().start < garden.today;
    if (found.stems < kHardly * found.free_stems && !is_told) list.push_back(LeaveOut{planting()});
    return list;
  }
  // As many as bring enough, where the ground holds them.
  std::vector<Change> operator()(const FewStems& found) const {
    if (found.best_week_stems <= 0) return {};
    const double times = found.least_stems / found.best_week_stems;
    const int plants = static_cast<int>(std::ceil(found.plants * times));
    if (plants > schedule.weighed[planting()].layout.room()) return {};
    return {Plants{planting(), plants}};
  }
  // What is in the ground already cannot be fewer.
  std::vector<Change> operator()(const AboveWish& found) const {
    if (schedule.of(planting()).front().in_ground < garden.today) return {};
    const double share = found.wanted_stems / found.stems;
    // What is wanted at most; where weeks would go short without the rest, half.
    return {Plants{planting(), static_cast<int>(std::ceil(found.plants * share))},
            Plants{planting(), (found.plants + 1) / 2}};
  }
  std::vector<Change> operator()(const TooEarly&) const {
    const auto day = not_too_early(schedule, finding);
    return day ? std::vector<Change>{StartAfter{planting(), *day}} : without_pins();
  }
  std::vector<Change> operator()(const AgainstRule&) const { return without_pins(); }
  std::vector<Change> operator()(const CostsStems&) const { return {LeaveOut{planting()}}; }
  template <class Other>
  std::vector<Change> operator()(const Other&) const {
    return {};
  }

  std::vector<Change> without_pins() const {
    if (garden.plan.plantings[planting()].asked.pins == Pins{}) return {};
    return {Unpin{planting()}};
  }
};

// What each crop costs its stretch: what that gives without it, the others chosen anew, against
// what it gives with all; alone both times, since other beds' stems move what it is best for.
std::vector<Finding> dear_crops(const Garden& garden) {
  std::vector<Finding> list;
  for (const auto& chain : chains(garden.plan)) {
    if (chain.size() < 2) continue;
    const Garden stretch = with_only(garden, chain);
    const Schedule now = choose(stretch);
    const double stems_now = stems(now.sowings);
    for (std::size_t i = 0; i < chain.size(); ++i) {
      if (now.of(i).empty()) continue;
      const Schedule without = choose(with_plan(stretch, changed(stretch.plan, LeaveOut{i}).plan));
      const double more = stems(without.sowings) - stems_now;
      if (more <= kDearShare * stems_now) continue;
      list.push_back(about_planting(garden.plan, chain[i], CostsStems{more, stems_now}));
    }
  }
  return list;
}

class Adviser {
 public:
  Adviser(const Garden& garden, const Outcome& now, const AllSheets& all_sheets)
      : garden_(garden), now_(now), all_sheets_(all_sheets) {}

  std::vector<Finding> run() {
    std::vector<Finding> findings = now_.findings;
    for (Finding& dear : dear_crops(garden_)) findings.push_back(std::move(dear));
    sort_by_rank(findings);
    for (Finding& finding : findings) {
      if (auto* assumed = std::get_if<ShelterAssumed>(&finding.found)) {
        const Difference found = ask(garden_, now_, Frame{kFrameM2});
        assumed->frame_stems = found.stems;
        assumed->frame_weeks = found.weeks;
      }
      if (std::holds_alternative<TooLate>(finding.found)) {
        finding.remedy = still_possible(finding);
      } else if (std::holds_alternative<ShortWeeks>(finding.found)) {
        finding.remedy = sooner();
      } else if (finding.planting) {
        finding.remedy = tried(finding);
      }
      if (!finding.remedy) finding.remedy = other_year(finding);
    }
    std::erase_if(findings, [](const Finding& finding) {
      return std::holds_alternative<CostsStems>(finding.found) && !finding.remedy;
    });
    fill_free_ground(garden_, now_, all_sheets_, findings);
    return findings;
  }

 private:
  // The first change that helps.
  std::optional<Remedy> tried(const Finding& finding) const {
    for (const Change& change :
         std::visit(Changes{garden_, now_.schedule, finding}, finding.found)) {
      const Difference found = ask(garden_, now_, change);
      // What is lifted sooner for the next is not to leave the weeks worse off.
      const bool loses = std::holds_alternative<LiftOn>(change) && found.worth < 0;
      if (loses || !helps(found, finding)) continue;
      return Remedy{.change = change, .costs_stems = -found.stems, .gives_weeks = found.weeks};
    }
    return std::nullopt;
  }

  bool helps(const Difference& found, const Finding& finding) const {
    // What is broken may be mended into what is short, by a late start.
    const auto is_as_bad = [&](const Finding& fresh) {
      return fresh.rank() != Rank::Mild && fresh.rank() <= finding.rank();
    };
    const bool breaks =
        found.weeks < 0 || std::ranges::any_of(found.fresh, is_as_bad) || breaks_rule(found);
    // What a crop costs is found by asking, and seen nowhere before: the weeks are to gain by it.
    const bool is_dear = std::holds_alternative<CostsStems>(finding.found);
    const bool clears = is_dear ? found.worth >= kLeastWorth : has(found.cleared, finding);
    return clears && !breaks && leaves_the_past(found, *finding.planting);
  }

  // What of a planting was begun before today was begun just so.
  bool leaves_the_past(const Difference& found, std::size_t planting) const {
    const auto place = found.plan.place[planting];
    if (!place) return true;
    return std::ranges::all_of(found.after.schedule.of(*place), [&](const Sowing& now) {
      const auto same = [&](const Sowing& old) {
        return old.way == now.way && old.start == now.start;
      };
      return now.start >= garden_.today || std::ranges::any_of(now_.schedule.of(planting), same);
    });
  }

  // Of the plantings that are raised after their usual time and have not begun, the one that would
  // fill most of the weeks if its plants were bought.
  std::optional<Remedy> sooner() const {
    std::optional<Remedy> best;
    double fewest = missing_stems(now_.findings);
    for (const Sowing& sowing : now_.schedule.sowings) {
      if (sowing.number > 1 || sowing.days_late() == 0 || sowing.start < garden_.today) continue;
      for (const Change& change : from_bought_plants(garden_, now_.schedule, sowing.planting)) {
        const Difference found = ask(garden_, now_, change);
        const double missing = missing_stems(found.after.findings);
        if (found.weeks <= 0 || missing >= fewest || breaks_rule(found)) continue;
        fewest = missing;
        best = Remedy{.change = change, .costs_stems = -found.stems, .gives_weeks = found.weeks};
      }
    }
    return best;
  }

  // Every other way of a crop that it is too late for, what gives most first.
  std::optional<Remedy> still_possible(const Finding& finding) const {
    Remedy remedy;
    const Garden alone = with_only(garden_, {*finding.planting});
    for (const Way& way : now_.schedule.weighed[*finding.planting].sheet->ways) {
      if (!grows(alone, ByWay{0, way.name, garden_.adds_from()})) continue;
      const Change change = ByWay{*finding.planting, way.name, garden_.adds_from()};
      const Difference found = ask(garden_, now_, change);
      if (helps(found, finding)) {
        remedy.ways.push_back({change, way.name, found.stems, found.weeks});
      }
    }
    if (remedy.ways.empty()) return std::nullopt;
    // What gives most weeks their vases first.
    std::ranges::stable_sort(remedy.ways, std::greater{}, [](const StillPossible& one) {
      return std::pair(one.weeks, one.stems);
    });
    remedy.change = remedy.ways.front().change;
    remedy.costs_stems = -remedy.ways.front().stems;
    remedy.gives_weeks = remedy.ways.front().weeks;
    return remedy;
  }

  // Whether a planting's garden, where nothing else is, grows it by the rules with a change.
  static bool grows(const Garden& alone, const Change& change) {
    const Schedule chosen = choose(with_plan(alone, changed(alone.plan, change).plan));
    return !chosen.sowings.empty() && !chosen.sowings.front().against;
  }

  // Where nothing helps this year: when to begin it for the next in which it grows.
  std::optional<Remedy> other_year(const Finding& finding) const {
    const bool broken = std::holds_alternative<CannotGrow>(finding.found) ||
                        std::holds_alternative<TooLate>(finding.found);
    if (!broken) return std::nullopt;
    Garden alone = with_only(garden_, {*finding.planting});
    alone.plan.plantings.front().asked.pins = {};  // they are this year's, as is what happened
    alone.plan.plantings.front().happened.clear();
    alone.plan.plantings.front().told.clear();
    alone.plan.began = std::max(garden_.first_day(), garden_.today);  // nothing was begun before
    // What is begun the year before may be too late for the next already.
    for (const int later : {1, 2}) {
      const Year year{garden_.plan.flowering_year + later};
      const Schedule chosen = choose(with_plan(alone, changed(alone.plan, year).plan));
      if (chosen.sowings.empty() || chosen.sowings.front().against) continue;
      return Remedy{.change = with_start(year, chosen)};
    }
    return Remedy{};
  }

  // With its way's usual days to begin it.
  static Year with_start(Year year, const Schedule& chosen) {
    const Sowing& sowing = chosen.sowings.front();
    DateRange days{sowing.start, sowing.start + Days{1}};
    for (const Candidate& c : chosen.weighed.front().candidates->list) {
      if (c.way != sowing.way || c.days_late() + c.days_early() > 0) continue;
      days.from = std::min(days.from, c.start);
      days.until = std::max(days.until, c.start + Days{1});
    }
    year.way = sowing.raised_by().name;
    year.start = days;
    year.sown = sowing.raised_by().method == Method::Seed;
    return year;
  }

  const Garden& garden_;
  const Outcome& now_;
  const AllSheets& all_sheets_;
};

}  // namespace

std::vector<Finding> advised(const Garden& garden, const Outcome& now,
                             const AllSheets& all_sheets) {
  return Adviser(garden, now, all_sheets).run();
}

}  // namespace trug::ask
