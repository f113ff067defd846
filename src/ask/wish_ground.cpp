// SPDX-License-Identifier: MIT
#include "ask/wish_ground.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <tuple>
#include <utility>

#include "ask/ask.h"
#include "harvest/vase.h"

namespace trug::ask {
namespace {

using harvest::Part;
using harvest::Span;
using harvest::Wanted;

constexpr int kFewestOfAKind = 3;  // three to five of a kind suffice (common practice)
constexpr double kPriceOfAKind =
    3;  // square metres times weeks: few kinds, enough of each (memory)
constexpr double kLeastForGround = 0.25;  // stems for a square metre and week (memory)
constexpr double kHair = 1e-6;
constexpr double kWorthPlanting = 0.02;  // of a week's stems, the least that a step may add
constexpr int kMostSteps = 4000;

// One growing with the kind of crop it is of.
struct Choice {
  const Growing* growing = nullptr;
  std::size_t kind = 0;
  int plants = 0;
  int step = 1;  // plants added or taken at once: a twelfth of a week's stems
};

// Plants of every choice, and what they come to in each week.
class Mix {
 public:
  Mix(Wanted wanted, std::size_t weeks) : wanted_(wanted), main_(weeks), filler_(weeks) {}

  std::size_t add_kind(Part part, std::vector<double> stems) {
    parts_.push_back(wanted_.counts_as(part));
    stems_.emplace_back(stems.size());
    plants_.push_back(0);
    for (std::size_t week = 0; week < stems.size(); ++week)
      give(stems_.size() - 1, week, stems[week]);
    return stems_.size() - 1;
  }
  void add_choice(const Growing& growing, std::size_t kind) {
    const double steps = wanted_.stems / 12 / growing.best_week();
    choices_.push_back({&growing, kind, 0, std::max(1, static_cast<int>(steps))});
  }

  // Plants what adds most to the weeks for the ground it takes, until nothing is worth its ground.
  void fill() {
    for (int step = 0; step < kMostSteps; ++step) {
      Choice* best = nullptr;
      double most = 0;
      for (Choice& choice : choices_) {
        const int number = next_number(choice);
        const double gain = this->gain(choice, number);
        if (gain < kWorthPlanting * wanted_.stems && gain < number * kWorthPlanting) continue;
        const double price = price_of(choice, number);
        if (gain < kLeastForGround * ground_of(choice, number)) continue;
        if (gain > most * price) {
          most = gain / price;
          best = &choice;
        }
      }
      if (best == nullptr) return;
      plant(*best, next_number(*best));
    }
  }

  // At least the fewest of a kind, of the choice that adds most for its ground.
  void plant_one_of(std::size_t kind) {
    if (plants_[kind] > 0) return;
    Choice* best = nullptr;
    double most = -1;
    for (Choice& choice : choices_) {
      if (choice.kind != kind) continue;
      const double worth = gain(choice, kFewestOfAKind) / price_of(choice, kFewestOfAKind);
      if (worth > most) {
        most = worth;
        best = &choice;
      }
    }
    if (best != nullptr) plant(*best, kFewestOfAKind);
  }

  // Takes away, dearest first, what no week needs. `keep`: kinds of which some are wanted anyhow.
  void thin(const std::vector<bool>& keep) {
    std::vector<double> floor;
    for (std::size_t week = 0; week < main_.size(); ++week) floor.push_back(usable(week));
    std::vector<Choice*> order;
    for (Choice& choice : choices_) order.push_back(&choice);
    std::ranges::stable_sort(order, std::greater{},
                             [](const Choice* c) { return ground_of(*c, 1); });
    for (bool changed = true; changed;) {
      changed = false;
      for (Choice* choice : order) {
        for (const int number : {choice->plants, choice->step, 1}) {
          while (may_take(*choice, number, keep) && holds(*choice, number, floor)) {
            plant(*choice, -number);
            changed = true;
          }
        }
      }
    }
  }

  const std::vector<Choice>& choices() const { return choices_; }
  bool is_full(std::size_t week) const { return usable(week) >= wanted_.stems - kHair; }

 private:
  double usable(std::size_t week) const {
    return harvest::usable(wanted_.stems, main_[week], filler_[week]);
  }
  double fit(double stems) const { return std::min(stems, wanted_.most_of_a_kind()); }

  int next_number(const Choice& choice) const {
    return plants_[choice.kind] > 0 ? choice.step : std::max(choice.step, kFewestOfAKind);
  }
  // Square metres times weeks.
  static double ground_of(const Choice& choice, int number) {
    return number * choice.growing->m2 * choice.growing->summer_weeks;
  }
  double price_of(const Choice& choice, int number) const {
    const double ground = ground_of(choice, number);
    return plants_[choice.kind] > 0 ? ground : ground + kPriceOfAKind;
  }

  // Main and filler parts of a week with so many more stems of a kind.
  std::pair<double, double> with(std::size_t kind, std::size_t week, double more) const {
    const double stems = stems_[kind][week];
    const double change = fit(std::max(0.0, stems + more)) - fit(stems);
    const bool is_main = parts_[kind] == Part::Main;
    return {main_[week] + (is_main ? change : 0), filler_[week] + (is_main ? 0 : change)};
  }

  double gain(const Choice& choice, int number) const {
    double sum = 0;
    for (std::size_t week = 0; week < main_.size(); ++week) {
      const double stems = choice.growing->stems[week] * number;
      if (stems == 0) continue;
      const auto [main, filler] = with(choice.kind, week, stems);
      sum +=
          harvest::first_half_twice(wanted_.stems, harvest::usable(wanted_.stems, main, filler)) -
          harvest::first_half_twice(wanted_.stems, usable(week));
    }
    return sum;
  }

  bool may_take(const Choice& choice, int number, const std::vector<bool>& keep) const {
    if (number <= 0 || choice.plants < number) return false;
    const int left = plants_[choice.kind] - number;
    return left >= kFewestOfAKind || (left == 0 && !keep[choice.kind]);
  }
  bool holds(const Choice& choice, int number, const std::vector<double>& floor) const {
    for (std::size_t week = 0; week < main_.size(); ++week) {
      const auto [main, filler] = with(choice.kind, week, -choice.growing->stems[week] * number);
      if (harvest::usable(wanted_.stems, main, filler) < floor[week] - kHair) return false;
    }
    return true;
  }

  void give(std::size_t kind, std::size_t week, double more) {
    std::tie(main_[week], filler_[week]) = with(kind, week, more);
    stems_[kind][week] = std::max(0.0, stems_[kind][week] + more);
  }
  void plant(Choice& choice, int number) {
    choice.plants += number;
    plants_[choice.kind] += number;
    for (std::size_t week = 0; week < main_.size(); ++week) {
      give(choice.kind, week, choice.growing->stems[week] * number);
    }
  }

  Wanted wanted_;
  std::vector<Part> parts_;                 // by kind
  std::vector<std::vector<double>> stems_;  // by kind and week
  std::vector<int> plants_;                 // by kind
  std::vector<double> main_, filler_;       // by week, no kind above its most
  std::vector<Choice> choices_;
};

void add(Span& sum, const Span& more) {
  sum.low += more.low;
  sum.likely += more.likely;
  sum.high += more.high;
}
Span scaled(const Span& span, double by) {
  return {span.low * by, span.likely * by, span.high * by};
}

// As many plants as give the likely stems where each gives most, as is likely, and least.
Span plants_of(const Choice& choice) {
  return {std::ceil(choice.plants / choice.growing->most - kHair), 1.0 * choice.plants,
          std::ceil(choice.plants / choice.growing->least - kHair)};
}

// The most ground that is taken on one day, with the days between two crops.
double most_at_once(const std::vector<Choice>& choices, double Span::*end, Days between) {
  double most = 0;
  for (const Choice& first : choices) {
    double taken = 0;
    for (const Choice& other : choices) {
      const DateRange days{other.growing->ground.from, other.growing->ground.until + between};
      if (days.contains(first.growing->ground.from)) {
        taken += plants_of(other).*end * other.growing->m2;
      }
    }
    most = std::max(most, first.plants > 0 ? taken : 0);
  }
  return most;
}

// What stands outside the beds: its likely stems by week of the wish.
struct Standing {
  Part part = Part::Main;
  std::vector<double> stems;
};

// All that a wish is filled from.
struct Crops {
  std::vector<Date> mondays;
  std::vector<std::vector<Growing>> of;  // by kind
  std::map<std::string, Standing> elsewhere;
  bool liked = false;  // each of them is wanted, useful or not
};

GroundCrop ground_crop(const std::vector<const Choice*>& choices,
                       const std::vector<Date>& mondays) {
  GroundCrop crop{.sheet = choices.front()->growing->sheet,
                  .ways = {},
                  .first_week = mondays.back(),
                  .last_week = mondays.front()};
  for (const Choice* choice : choices) {
    const Growing& growing = *choice->growing;
    if (std::ranges::find(crop.ways, growing.way) == crop.ways.end()) {
      crop.ways.push_back(growing.way);
    }
    add(crop.plants, plants_of(*choice));
    add(crop.m2, scaled(plants_of(*choice), growing.m2));
    for (std::size_t week = 0; week < mondays.size(); ++week) {
      if (growing.stems[week] <= 0) continue;
      crop.first_week = std::min(crop.first_week, mondays[week]);
      crop.last_week = std::max(crop.last_week, mondays[week]);
    }
  }
  return crop;
}

GroundNeeded needed(const Crops& crops, const Wanted& wanted, Days between) {
  Mix mix(wanted, crops.mondays.size());
  auto elsewhere = crops.elsewhere;
  for (const auto& growings : crops.of) {
    const Sheet& sheet = *growings.front().sheet;
    Standing& there = elsewhere[sheet.name];
    there.stems.resize(crops.mondays.size());
    const auto kind = mix.add_kind(harvest::part_of(sheet.roles.front()), there.stems);
    for (const Growing& growing : growings) mix.add_choice(growing, kind);
    elsewhere.erase(sheet.name);
  }
  for (const auto& [name, there] : elsewhere) mix.add_kind(there.part, there.stems);
  if (crops.liked) {
    for (std::size_t kind = 0; kind < crops.of.size(); ++kind) mix.plant_one_of(kind);
  }
  mix.fill();
  mix.thin(std::vector<bool>(crops.of.size(), crops.liked));
  GroundNeeded result;
  std::map<std::size_t, std::vector<const Choice*>> by_kind;
  for (const Choice& choice : mix.choices()) {
    if (choice.plants <= 0) continue;
    by_kind[choice.kind].push_back(&choice);
    result.planted.push_back({*choice.growing, choice.plants});
  }
  for (const auto& [kind, choices] : by_kind) {
    result.crops.push_back(ground_crop(choices, crops.mondays));
    add(result.plants, result.crops.back().plants);
    add(result.m2, result.crops.back().m2);
  }
  std::ranges::stable_sort(result.crops, {}, &GroundCrop::first_week);
  for (const auto end : {&Span::low, &Span::likely, &Span::high}) {
    result.shared_m2.*end = most_at_once(mix.choices(), end, between);
  }
  for (std::size_t week = 0; week < crops.mondays.size(); ++week) {
    if (!mix.is_full(week)) result.lacking.push_back(crops.mondays[week]);
  }
  return result;
}

std::map<std::string, Standing> standing_elsewhere(const Garden& garden,
                                                   const std::vector<Date>& mondays) {
  std::vector<std::size_t> outside;
  for (std::size_t i = 0; i < garden.plan.plantings.size(); ++i) {
    if (!garden.plan.plantings[i].patch) outside.push_back(i);
  }
  std::map<std::string, Standing> result;
  if (outside.empty()) return result;
  const Garden there = with_only(garden, outside);
  const auto weeks =
      harvest::count_weeks(there.plan, there.climate, ground::cuts(there.plan, choose(there)));
  for (std::size_t week = 0; week < weeks.size(); ++week) {
    for (const harvest::KindInWeek& kind : weeks[week].kinds) {
      Standing& standing = result[kind.crop];
      standing.part = harvest::part_of(garden.sheets.at(kind.crop)->roles.front());
      standing.stems.resize(mondays.size());
      standing.stems[week] += kind.stems.likely;
    }
  }
  return result;
}

}  // namespace

WishGround wish_ground(const Garden& garden) {
  const Wish& wish = *garden.plan.wish;
  Crops crops{
      .mondays = wish_mondays(garden), .of = {}, .elsewhere = {}, .liked = !wish.like.empty()};
  crops.elsewhere = standing_elsewhere(garden, crops.mondays);
  WishGround result;
  for (const Sheet* sheet : wished_sheets(garden)) {
    auto found = growings(garden, *sheet, crops.mondays);
    std::erase_if(found, [](const Growing& growing) { return !growing.usual; });
    if (!found.empty()) {
      crops.of.push_back(std::move(found));
    } else if (crops.liked) {
      result.not_grown.push_back(sheet->name);
    }
  }
  const Days between{garden.plan.work.days_between_crops};
  Wanted wanted = harvest::wanted(wish);
  result.as_wished = needed(crops, wanted, between);
  wanted.stems /= 2;
  result.half = needed(crops, wanted, between);
  wanted.stems *= 4;
  result.twice = needed(crops, wanted, between);
  return result;
}

}  // namespace trug::ask
