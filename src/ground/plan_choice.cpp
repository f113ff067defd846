// SPDX-License-Identifier: MIT
#include "ground/plan_choice.h"

#include <algorithm>
#include <cmath>

namespace trug::ground {
namespace {

int across(Millimetres length, double spacing_cm) {
  const double plants = static_cast<double>(length.value()) / (spacing_cm * 10);
  return std::max(1, static_cast<int>(std::floor(plants + 0.5)));
}

double weight(WindowPlace place) {
  switch (place) {
    case WindowPlace::Middle:
      return 1;
    case WindowPlace::Inside:
      return 0.95;
    case WindowPlace::Outside:
      return 0.8;
  }
  return 1;
}

// The common count of days: day 0 is a Monday two seasons before the flowering year.
class DayCount {
 public:
  DayCount(const climate::Climate& climate, int year)
      : zero_(monday_of(climate.season_start(year - 2))),
        horizon_(days_between(zero_, climate.season_start(year + 1)) + 120) {}
  int number(Date day) const { return days_between(zero_, day); }
  Date date(int number) const { return zero_ + Days{number}; }
  int horizon() const { return horizon_; }
  std::size_t weeks() const { return static_cast<std::size_t>(horizon_ / 7 + 1); }

 private:
  Date zero_;
  int horizon_;
};

double plant_stems(const Candidate& c, int plants) {
  return c.stems_per_plant * c.stem_factor * plants * kFitShare;
}

std::vector<Option> options_of(const PlantingChoice& planting, const DayCount& count) {
  std::vector<Option> options;
  options.reserve(planting.candidates->list.size());
  for (const Candidate& c : planting.candidates->list) {
    options.push_back({.start = count.number(c.start),
                       .in_ground = count.number(c.in_ground),
                       .first_cut = count.number(c.timeline.first_cut.likely),
                       .lift_from = count.number(c.lift_from),
                       .lift_to = count.number(c.lift_to),
                       .off_middle = std::abs(days_between(c.window_middle, c.in_ground)),
                       .way_rank = static_cast<int>(c.way),
                       .weight = weight(c.place),
                       .plants = plant_stems(c, planting.layout.plants),
                       .shares = &c.timeline.shares});
  }
  return options;
}

// One stretch's problem and the choice now held for it.
struct StretchState {
  std::size_t first = 0;  // of its plantings in the plan's list
  Problem problem;
  Solution solution;
  std::vector<double> weekly;  // weighted stems, as the value counts them
};

std::vector<double> weekly_stems(const StretchState& state, std::size_t weeks) {
  std::vector<double> result(weeks, 0.0);
  for (std::size_t i = 0; i < state.solution.picks.size(); ++i) {
    const auto& pick = state.solution.picks[i];
    if (!pick) continue;
    const Option& option = state.problem.crops[i][pick->option];
    for (std::size_t day = 0; day < option.shares->size(); ++day) {
      const int number = option.first_cut + static_cast<int>(day);
      if (number > pick->lift) break;
      result[static_cast<std::size_t>(number / 7)] +=
          option.plants * option.weight * (*option.shares)[day];
    }
  }
  return result;
}

// The same picks judged by another problem's wish.
Score judged(const Solution& solution, const Problem& problem) {
  Score score;
  for (std::size_t i = 0; i < solution.picks.size(); ++i) {
    const auto& pick = solution.picks[i];
    if (!pick) {
      score = score + Score{.left_out = 1};
      continue;
    }
    const Option& option = problem.crops[i][pick->option];
    score = score + Score{0,
                          value_of(option, pick->lift, problem),
                          option.off_middle,
                          option.way_rank,
                          option.start,
                          pick->lift};
  }
  return score;
}

class Rounds {
 public:
  Rounds(std::vector<StretchState>& states, const std::optional<std::vector<double>>& wanted,
         std::size_t weeks)
      : states_(states), wanted_(wanted), weeks_(weeks) {}

  void apart() {
    for (StretchState& state : states_) {
      state.problem.wanted = wanted_;
      state.solution = choose(state.problem);
      state.weekly = weekly_stems(state, weeks_);
    }
  }

  // True where a stretch changed.
  bool go_round() {
    bool changed = false;
    for (StretchState& state : states_) {
      state.problem.wanted = left_by_others(state);
      Solution better = choose(state.problem);
      if (better.score > judged(state.solution, state.problem)) {
        state.solution = std::move(better);
        state.weekly = weekly_stems(state, weeks_);
        changed = true;
      }
    }
    return changed;
  }

 private:
  std::vector<double> left_by_others(const StretchState& state) const {
    std::vector<double> left = *wanted_;
    for (const StretchState& other : states_) {
      if (&other == &state) continue;
      for (std::size_t week = 0; week < weeks_; ++week) {
        left[week] = std::max(0.0, left[week] - other.weekly[week]);
      }
    }
    return left;
  }

  std::vector<StretchState>& states_;
  const std::optional<std::vector<double>>& wanted_;
  std::size_t weeks_;
};

std::string cache_key(const CropEntry& entry) {
  const Pins& p = entry.pins;
  const auto day = [](const std::optional<Date>& d) { return d ? iso(*d) : std::string(); };
  return entry.crop + '\n' + entry.group.value_or("") + '\n' + (entry.keep ? "k" : "") + '\n' +
         p.way.value_or("") + '\n' + day(p.start_on) + '\n' + day(p.plant_on) + '\n' +
         day(p.lift_on) + '\n' + day(p.not_before) + '\n' + std::to_string(entry.successions) +
         '\n' + std::to_string(entry.gap_days.value_or(0));
}

std::vector<PlantingChoice> weigh(const Plan& plan, const Sheets& sheets, const Setting& setting) {
  std::vector<PlantingChoice> result;
  std::map<std::string, std::shared_ptr<const Candidates>> known;
  for (const PlantingRef ref : plantings(plan)) {
    const CropEntry& crop = entry(plan, ref);
    const Bed& bed = plan.beds[ref.bed];
    PlantingChoice planting{.ref = ref, .sheet = sheets.at(crop.crop)};
    planting.layout = layout(bed, bed.stretches[ref.stretch], crop, *planting.sheet);
    auto& shared = known[cache_key(crop)];
    if (!shared) {
      shared = std::make_shared<Candidates>(candidates(setting, *planting.sheet, crop));
    }
    planting.candidates = shared;
    result.push_back(std::move(planting));
  }
  return result;
}

std::vector<StretchState> stretch_states(const Plan& plan,
                                         const std::vector<PlantingChoice>& plantings,
                                         const DayCount& count) {
  std::vector<StretchState> states;
  for (std::size_t i = 0; i < plantings.size(); ++i) {
    if (plantings[i].ref.crop == 0) {
      states.push_back({.first = i});
      states.back().problem.gap = plan.work.days_between_crops;
      states.back().problem.horizon = count.horizon();
    }
    states.back().problem.crops.push_back(options_of(plantings[i], count));
  }
  return states;
}

void take_over(const std::vector<StretchState>& states, const DayCount& count,
               std::vector<PlantingChoice>& plantings) {
  for (const StretchState& state : states) {
    std::optional<Date> next;
    for (std::size_t i = state.solution.picks.size(); i-- > 0;) {
      PlantingChoice& planting = plantings[state.first + i];
      const auto& pick = state.solution.picks[i];
      if (!pick) continue;
      planting.chosen =
          Chosen{planting.candidates->list[pick->option], count.date(pick->lift), next};
      next = planting.chosen->candidate.in_ground;
    }
  }
}

std::optional<std::vector<double>> wanted_weeks(const Plan& plan, const climate::Climate& climate,
                                                const DayCount& count) {
  const auto wish = wish_days(plan, climate);
  if (!wish) return std::nullopt;
  std::vector<double> wanted(count.weeks(), 0.0);
  const int first = count.number(wish->from) / 7;
  const int last = count.number(wish->until - Days{1}) / 7;
  for (int week = first; week <= last; ++week) {
    wanted[static_cast<std::size_t>(week)] = plan.wish->vases_per_week * plan.wish->stems_per_vase;
  }
  return wanted;
}

}  // namespace

Layout layout(const Bed& bed, const Stretch& stretch, const CropEntry& entry, const Sheet& sheet) {
  Layout result;
  result.spacing_cm = entry.spacing_cm.value_or(sheet.spacing_cm.middle());
  const int strips = std::max(1, entry.successions);
  result.rows = strips * across(Millimetres{stretch.length.value() / strips}, result.spacing_cm);
  result.per_row = across(bed.width, result.spacing_cm);
  result.plants = entry.plants.value_or(result.room());
  return result;
}

std::vector<Week> count_weeks(const Plan& plan, const climate::Climate& climate,
                              const std::vector<PlantingChoice>& plantings) {
  const auto wish = wish_days(plan, climate);
  const DateRange days = wish.value_or(DateRange{climate.season_start(plan.flowering_year),
                                                 climate.season_start(plan.flowering_year + 1)});
  std::vector<Week> weeks;
  for (Date monday = monday_of(days.from); monday < days.until; monday += Days{7}) {
    const double wanted = plan.wish ? plan.wish->vases_per_week * plan.wish->stems_per_vase : 0;
    weeks.push_back({.monday = monday, .wished = wish.has_value(), .wanted = wanted});
  }
  for (const PlantingChoice& planting : plantings) {
    if (!planting.chosen) continue;
    const std::vector<double> stems = stems_by_day(planting);
    for (std::size_t day = 0; day < stems.size(); ++day) {
      const Date date =
          planting.chosen->candidate.timeline.first_cut.likely + Days{static_cast<int>(day)};
      const int week = days_between(weeks.front().monday, monday_of(date)) / 7;
      if (date < weeks.front().monday || week >= static_cast<int>(weeks.size())) continue;
      weeks[static_cast<std::size_t>(week)].stems += stems[day];
    }
  }
  return weeks;
}

std::optional<DateRange> wish_days(const Plan& plan, const climate::Climate& climate) {
  if (!plan.wish) return std::nullopt;
  const Date season = climate.season_start(plan.flowering_year);
  const auto in_season = [&](MonthDay day) {
    const Date date = on(day, year_of(season));
    return date < season ? on(day, year_of(season) + 1) : date;
  };
  return DateRange{in_season(plan.wish->from), in_season(plan.wish->to) + Days{1}};
}

std::vector<double> stems_by_day(const PlantingChoice& planting) {
  const Chosen& chosen = *planting.chosen;
  const auto& timeline = chosen.candidate.timeline;
  const double stems = plant_stems(chosen.candidate, planting.layout.plants);
  const int days = days_between(timeline.first_cut.likely, chosen.lift) + 1;
  std::vector<double> result;
  for (std::size_t i = 0; i < timeline.shares.size() && static_cast<int>(i) < days; ++i) {
    result.push_back(stems * timeline.shares[i]);
  }
  return result;
}

PlanChoice choose_plan(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
                       ChoiceOptions options) {
  Setting setting{.climate = climate,
                  .place = plan.place,
                  .work = plan.work,
                  .flowering_year = plan.flowering_year};
  if (const auto wish = wish_days(plan, climate)) setting.wish_end = wish->until - Days{1};
  PlanChoice result;
  result.plantings = weigh(plan, sheets, setting);
  const DayCount count(climate, plan.flowering_year);
  std::vector<StretchState> states = stretch_states(plan, result.plantings, count);
  const auto wanted = wanted_weeks(plan, climate, count);
  Rounds rounds(states, wanted, count.weeks());
  rounds.apart();
  result.exact = states.size() <= 1 || !plan.wish;
  if (options.rounds && !result.exact) {
    result.settled = false;
    while (!result.settled && result.rounds < kMostRounds) {
      result.settled = !rounds.go_round();
      ++result.rounds;
    }
  }
  take_over(states, count, result.plantings);
  result.weeks = count_weeks(plan, climate, result.plantings);
  return result;
}

}  // namespace trug::ground
