// SPDX-License-Identifier: MIT
#include "ask/ideas.h"

#include <algorithm>
#include <functional>
#include <iterator>

#include "ground/schedule.h"
#include "ground/starts.h"

namespace trug::ask {
namespace {

// Whether the crop stands on the plot's stretch already: nothing follows itself.
bool stands_there(const Plan& plan, const Plot& plot, const std::string& crop) {
  if (!plot.stretch) return false;
  return std::ranges::any_of(plan.plantings, [&](const Planting& planting) {
    return planting.patch && planting.patch->bed == plot.bed &&
           planting.patch->stretch == static_cast<int>(*plot.stretch) + 1 &&
           planting.asked.crop == crop;
  });
}

bool grows_in(const std::vector<Kinds>& weeks, const std::string& crop) {
  return std::ranges::any_of(weeks, [&](const Kinds& kinds) { return kinds.contains(crop); });
}

// A name that no planting of the bed has: "zinnia 2".
std::optional<std::string> id_for(const Plan& plan, std::size_t bed, const std::string& crop) {
  const auto taken = [&](const std::string& name) {
    return std::ranges::any_of(plan.plantings, [&](const Planting& planting) {
      return planting.patch && planting.patch->bed == bed &&
             planting.asked.id.value_or(planting.asked.crop) == name;
    });
  };
  if (!taken(crop)) return std::nullopt;
  int number = 2;
  while (taken(crop + " " + std::to_string(number))) ++number;
  return crop + " " + std::to_string(number);
}

// Those of its colours that are wished for, where not all are.
std::vector<std::string> colours_to_buy(const Plan& plan, const Sheet& sheet) {
  if (!plan.wish || sheet.roles.front() == Role::Foliage) return {};
  const std::vector<std::string>& wished = plan.wish->colours;
  std::vector<std::string> result;
  std::ranges::copy_if(sheet.colours, std::back_inserter(result), [&](const std::string& colour) {
    return std::ranges::find(wished, colour) != wished.end();
  });
  if (result.size() == sheet.colours.size()) result.clear();
  return result;
}

// Weighs every start on a plot beside all that grows.
class Thinker {
 public:
  Thinker(const Garden& garden, const Outcome& now, const IdeaRules& rules)
      : garden_(garden),
        now_(now),
        rules_(rules),
        all_(kinds_of(now)),
        worth_now_(rules.weighing.of(all_)),
        summer_(summer_of(garden)) {}

  // By crop.
  std::map<std::string, Idea> best_on(const Plot& plot,
                                      const std::vector<Growing>& growings) const {
    const auto others = plot.instead_of ? kinds_of(now_, plot.instead_of) : all_;
    std::map<std::string, Idea> best;
    for (const Growing& growing : growings) {
      const int plants = may_stand(growing, plot) ? plants_on(plot, *growing.sheet) : 0;
      if (plants < kFewestOfAKind) continue;
      const Idea idea{&plot, &growing, plants, gain(growing, plants, others)};
      const auto known = best.emplace(growing.sheet->name, idea).first;
      if (idea.gain > known->second.gain) known->second = idea;
    }
    return best;
  }

 private:
  bool may_stand(const Growing& growing, const Plot& plot) const {
    return growing.usual && fits(growing, plot, summer_) &&
           !stands_there(garden_.plan, plot, growing.sheet->name);
  }

  double gain(const Growing& growing, int plants, std::vector<Kinds> weeks) const {
    const double price = grows_in(weeks, growing.sheet->name) ? 0 : rules_.price_of_a_kind;
    add_to(weeks, growing, plants);
    return rules_.weighing.of(weeks) - worth_now_ - price;
  }

  const Garden& garden_;
  const Outcome& now_;
  const IdeaRules& rules_;
  const std::vector<Kinds> all_;
  const double worth_now_;
  const DateRange summer_;
};

}  // namespace

std::vector<Kinds> kinds_of(const Outcome& outcome, std::optional<std::size_t> without) {
  std::vector<Kinds> weeks;
  for (const harvest::Week& week : outcome.weeks) {
    Kinds& kinds = weeks.emplace_back();
    for (const harvest::KindInWeek& kind : week.kinds) {
      if (kind.planting == without) continue;
      const Sheet& sheet = *outcome.schedule.weighed[kind.planting].sheet;
      kinds[kind.crop].part = harvest::part_of(sheet.roles.front());
      kinds[kind.crop].stems += kind.stems.likely;
    }
  }
  return weeks;
}

void add_to(std::vector<Kinds>& weeks, const Growing& growing, int plants) {
  for (std::size_t week = 0; week < weeks.size(); ++week) {
    if (growing.stems[week] <= 0) continue;
    harvest::Kind& kind = weeks[week][growing.sheet->name];
    kind.part = harvest::part_of(growing.sheet->roles.front());
    kind.stems += growing.stems[week] * plants;
  }
}

double Weighing::of(const std::vector<Kinds>& weeks) const {
  double sum = 0;
  for (const Kinds& kinds : weeks) {
    std::vector<harvest::Kind> list;
    double stems = 0;
    for (const auto& [crop, kind] : kinds) {
      list.push_back(kind);
      stems += kind.stems;
    }
    sum += wanted ? usable_worth * harvest::first_half_twice(wanted->stems,
                                                             harvest::vase(*wanted, list).usable) +
                        stem_worth * stems
                  : stems;
  }
  return sum;
}

Change change_of(const Garden& garden, const Plot& plot, const Sheet& sheet) {
  const CropEntry asked{.crop = sheet.name,
                        .id = id_for(garden.plan, plot.bed, sheet.name),
                        .colours = colours_to_buy(garden.plan, sheet),
                        .pins = {.not_before = garden.adds_from()}};
  if (plot.instead_of) return Instead{*plot.instead_of, asked};
  if (!plot.stretch) return AddStretch{plot.bed, plot.length, asked};
  return AddCrop{plot.bed, *plot.stretch, plot.after, asked};
}

int plants_on(const Plot& plot, const Sheet& sheet) {
  Planting planting;
  planting.patch = Patch{plot.bed, 1, {}, plot.length, plot.width};
  return ground::layout(planting, sheet).plants;
}

bool fits(const Growing& growing, const Plot& plot, DateRange summer) {
  if (growing.ground.from < plot.days.from || growing.ground.until > plot.days.until) return false;
  switch (growing.free) {
    case ground::Free::Never:
      return false;
    case ground::Free::Any:
      return true;
    case ground::Free::Near:
      return days_between(plot.days.from, growing.ground.from) <= ground::kFortnight;
    case ground::Free::Soon:
      break;
  }
  const Date bare_from = std::max(plot.days.from, summer.from);
  return days_between(bare_from, std::min(growing.ground.from, summer.until)) <=
         ground::kMostBareDays;
}

std::vector<Idea> ideas(const Garden& garden, const Outcome& now, const std::vector<Plot>& plots,
                        const std::vector<Growing>& growings, const IdeaRules& rules) {
  const Thinker thinker(garden, now, rules);
  std::vector<Idea> list;
  for (const Plot& plot : plots) {
    for (auto& [crop, idea] : thinker.best_on(plot, growings)) {
      if (idea.gain >= rules.least_gain) list.push_back(idea);
    }
  }
  std::ranges::stable_sort(list, std::greater{}, &Idea::gain);
  return list;
}

}  // namespace trug::ask
