// SPDX-License-Identifier: MIT
// What is found in the place, and in the wish.
#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "ask/find.h"

namespace trug::ask {
namespace {

constexpr int kHardlyFrostDays = 330;  // free of frost: frosts within five weeks of each other
constexpr int kShortSeasonDays = 91;   // free of frost: little tender is cut in less (memory)

int frost_free_days(const View& view) {
  const climate::SeasonFrosts frosts = view.garden.climate.frosts(view.plan().flowering_year);
  return days_between(frosts.last, frosts.first);
}

std::optional<HardlyFrost> hardly_frost(const View& view) {
  const int days = frost_free_days(view);
  if (days < kHardlyFrostDays || view.plan().plantings.empty()) return std::nullopt;
  return HardlyFrost{std::min(days, 365)};
}

// The weeks a crop that waits for the frosts needs between them, where they are too few for it.
std::optional<ShortSeason::Need> season_needed(const View& view, std::size_t planting) {
  if (view.grown(planting) || frost_class(view.sheet(planting)) == FrostClass::Hardy) {
    return std::nullopt;
  }
  const ground::WayReport* report = nearest_way(*view.weighed(planting).candidates);
  if (!report || report->refusal->rule != ground::Rule::SeasonTooShort) return std::nullopt;
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
  for (std::size_t i = 0; i < view.plan().plantings.size(); ++i) {
    if (const auto need = season_needed(view, i)) found.needs.push_back(*need);
  }
  return found;
}

std::optional<ShortWeeks> short_weeks(const View& view) {
  if (!view.plan().wish) return std::nullopt;
  ShortWeeks found;
  for (const harvest::Week& week : view.weeks) {
    if (week.monday + Days{7} <= view.garden.today) {
      found.some_are_over = true;
      continue;
    }
    ++found.weeks;
    if (week.vase.state() == harvest::WeekState::Full) continue;
    found.mondays.push_back(week.monday);
    found.missing_stems += week.vase.wanted - week.vase.usable;
  }
  if (found.mondays.empty()) return std::nullopt;
  return found;
}

// Sold as a mix of which some colours are wished and some are not.
bool is_unknown(const View& view, std::size_t planting) {
  const Sheet& sheet = view.sheet(planting);
  if (!view.grown(planting) || sheet.roles.front() == Role::Foliage) return false;
  if (!ground::known_colours(view.plan().plantings[planting].asked, sheet).empty()) return false;
  const auto& wished = view.plan().wish->colours;
  const auto is_wished = [&](const std::string& colour) {
    return std::ranges::find(wished, colour) != wished.end();
  };
  return std::ranges::any_of(sheet.colours, is_wished) &&
         !std::ranges::all_of(sheet.colours, is_wished);
}

std::optional<UnknownColours> unknown_colours(const View& view) {
  if (!view.plan().wish || view.plan().wish->colours.empty()) return std::nullopt;
  UnknownColours found;
  for (std::size_t i = 0; i < view.plan().plantings.size(); ++i) {
    if (is_unknown(view, i)) found.plantings.push_back(i);
  }
  for (const harvest::Week& week : view.weeks) {
    found.all_stems += week.stems.likely;
    for (const harvest::KindInWeek& kind : week.kinds) {
      const bool unknown = std::ranges::binary_search(found.plantings, kind.planting);
      if (unknown) found.stems += kind.stems.likely;
    }
  }
  if (found.stems <= 0) return std::nullopt;
  return found;
}

std::optional<MaximaGuessed> maxima_guessed(const View& view) {
  if (view.garden.climate.knows_maxima()) return std::nullopt;
  MaximaGuessed found;
  for (const ground::Sowing& sowing : view.chosen.sowings) {
    const bool is_hot = sowing.timeline.too_hot_from || sowing.timeline.pause;
    const bool is_new = found.plantings.empty() || found.plantings.back() != sowing.planting;
    if (is_hot && is_new) found.plantings.push_back(sowing.planting);
  }
  if (found.plantings.empty()) return std::nullopt;
  return found;
}

std::optional<SeasonOver> season_over(const View& view) {
  const bool wish_past =
      !view.weeks.empty() && view.weeks.back().monday + Days{7} <= view.garden.today;
  bool any_late = false, any_grown = false;
  for (std::size_t i = 0; i < view.plan().plantings.size(); ++i) {
    any_grown = any_grown || view.grown(i);
    any_late = any_late || std::holds_alternative<TooLate>(left_out(view, i));
  }
  if (!wish_past && (any_grown || !any_late)) return std::nullopt;
  return SeasonOver{wish_past, view.plan().flowering_year + 1};
}

std::optional<NotSettled> not_settled(const View& view) {
  if (view.chosen.settled) return std::nullopt;
  return NotSettled{view.chosen.calls};
}

}  // namespace

std::vector<Finding> of_place(const View& view) {
  std::vector<Finding> list;
  const auto add = [&](auto found) {
    if (found) list.push_back({view.plan().place.at, "place", {}, std::move(*found), {}});
  };
  add(hardly_frost(view));
  add(short_season(view));
  add(maxima_guessed(view));
  return list;
}

std::vector<Finding> of_wish(const View& view) {
  const Plan& plan = view.plan();
  const Position at = plan.wish ? plan.wish->at : Position{plan.file, 1, 1};
  std::vector<Finding> list;
  const auto add = [&](auto found) {
    if (found) list.push_back({at, "wish", {}, std::move(*found), {}});
  };
  add(short_weeks(view));
  add(unknown_colours(view));
  add(season_over(view));
  add(not_settled(view));
  return list;
}

}  // namespace trug::ask
