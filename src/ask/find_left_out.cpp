// SPDX-License-Identifier: MIT
// Why a crop is left out.
#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "ask/find.h"
#include "ground/options.h"
#include "ground/plan_choice.h"
#include "harvest/weeks.h"

namespace trug::ask {
namespace {

using ground::Candidate;
using ground::Candidates;
using ground::Rule;
using ground::WayReport;

struct DateBounds {
  Date in_first = Date::max(), in_last = Date::min(), lift_first = Date::max();
};

DateBounds date_bounds(const View& view, std::size_t planting) {
  DateBounds result;
  for (const Candidate& c : view.weighed(planting).candidates->list) {
    result.in_first = std::min(result.in_first, c.in_ground);
    result.in_last = std::max(result.in_last, c.in_ground);
    result.lift_first = std::min(result.lift_first, c.lift_from);
  }
  return result;
}

std::optional<std::size_t> grown_after(const View& view, std::size_t planting) {
  std::size_t last = planting;
  for (std::size_t i = planting + 1; i < view.plan().plantings.size(); ++i) {
    if (view.plan().plantings[i].follows != last) continue;
    if (view.grown(i)) return i;
    last = i;
  }
  return std::nullopt;
}

// What it could still give behind the one before, where that frees the ground by `free`.
std::optional<GroundTaken::Hardly> hardly_useful(const View& view, std::size_t planting,
                                                 Date free) {
  const auto wish = harvest::wish_days(view.plan(), view.garden.climate);
  if (!wish) return std::nullopt;
  GroundTaken::Hardly found;
  for (const Candidate& c : view.weighed(planting).candidates->list) {
    const double stems = ground::stems_within(c, *wish) * view.weighed(planting).layout.plants;
    found.best_stems = std::max(found.best_stems, stems);
    if (c.in_ground >= free) found.stems = std::max(found.stems, stems);
  }
  if (found.stems >= ground::kLeastUseful * found.best_stems) return std::nullopt;
  return found;
}

// The neighbours' dates against the crop's own: when the one before can leave at the earliest, when
// the one after must have the ground at the latest.
GroundTaken ground_taken(const View& view, std::size_t planting) {
  const DateBounds own = date_bounds(view, planting);
  const Days gap{view.plan().work.days_between_crops};
  GroundTaken found{own.in_first, own.in_last, own.lift_first, {}, {}};
  if (const auto before = grown_before(view, planting)) {
    found.before = {*before, date_bounds(view, *before).lift_first + gap};
    if (found.before->day <= own.in_last) {
      found.hardly = hardly_useful(view, planting, found.before->day);
    }
  }
  if (const auto after = grown_after(view, planting)) {
    found.after = {*after, date_bounds(view, *after).in_last - gap};
  }
  return found;
}

// What was possible until a day that is past is nearer than anything else.
bool came_nearer(const ground::Refusal& one, const ground::Refusal& other) {
  const bool late = one.rule == Rule::TooLate;
  if (late != (other.rule == Rule::TooLate)) return late;
  return ground::is_nearer(one, other);
}

// The last start that keeps the rules, had the plan begun in time, and the last usual one of its
// way; nullopt: there is none.
struct LastStarts {
  const Way* way = nullptr;
  Date possible, usual;
};

std::optional<LastStarts> last_starts(const View& view, std::size_t planting) {
  const Plan alone = with_only(view.plan(), {planting});
  const ground::Schedule chosen =
      ground::choose_plan(alone, view.garden.sheets, view.garden.climate, {});
  const std::vector<Candidate>& list = chosen.weighed.front().candidates->list;
  const auto last = std::ranges::max_element(list, {}, &Candidate::start);
  if (last == list.end() || last->start >= view.garden.first_day()) return std::nullopt;
  LastStarts found{&view.sheet(planting).ways[last->way], last->start, last->start};
  if (found.way->pre_chilled) {
    // They begin with their weeks in the cold.
    const Days cold{std::lround(ground::cold_store_days(view.sheet(planting)).low)};
    found.possible = found.usual = last->start - cold;
    return found;
  }
  if (last->days_late() == 0) return found;
  found.usual = Date::min();
  for (const Candidate& c : list) {
    if (c.way == last->way && c.days_late() == 0) found.usual = std::max(found.usual, c.start);
  }
  if (found.usual == Date::min()) found.usual = found.possible;
  return found;
}

}  // namespace

std::optional<std::size_t> grown_before(const View& view, std::size_t planting) {
  auto before = view.plan().plantings[planting].follows;
  while (before && !view.grown(*before)) before = view.plan().plantings[*before].follows;
  return before;
}

const WayReport* nearest_way(const Candidates& candidates) {
  const WayReport* best = nullptr;
  for (const WayReport& report : candidates.reports) {
    if (!report.refusal || report.refusal->rule == Rule::Pinned ||
        report.refusal->rule == Rule::NotUsual) {
      continue;
    }
    if (!best || came_nearer(*report.refusal, *best->refusal)) best = &report;
  }
  return best;
}

Found left_out(const View& view, std::size_t planting) {
  const Candidates& candidates = *view.weighed(planting).candidates;
  if (!candidates.list.empty()) return ground_taken(view, planting);
  if (const auto last = last_starts(view, planting)) {
    return TooLate{last->way->name, last->way->method == Method::Seed, last->usual, last->possible,
                   view.garden.first_day()};
  }
  if (const WayReport* report = nearest_way(candidates)) {
    const Way& way = view.sheet(planting).ways[report->way];
    const ground::Refusal& refusal = *report->refusal;
    if (refusal.rule != Rule::TooLate) return CannotGrow{way.name, refusal};
    const Date latest = refusal.found_day.value_or(refusal.start);
    return TooLate{way.name, way.method == Method::Seed, latest, latest,
                   refusal.wanted_day.value_or(refusal.start)};
  }
  if (candidates.reports.empty()) return CannotGrow{};
  return CannotGrow{"", candidates.reports.front().refusal};
}

}  // namespace trug::ask
