// SPDX-License-Identifier: MIT
#include "ask/mend.h"

#include <algorithm>
#include <map>
#include <optional>
#include <tuple>
#include <utility>

#include "ask/ask.h"
#include "ask/growings.h"
#include "ask/plots.h"
#include "harvest/vase.h"

namespace trug::ask {
namespace {

using harvest::Wanted;

constexpr int kFewestOfAKind = 3;    // plants (common practice)
constexpr double kPriceOfAKind = 2;  // stems that a kind more must give: few kinds, enough of each
constexpr double kLeastGain = 3;     // stems, of all weeks
constexpr double kFuller = 0.5;      // stems by which a week is felt to be
constexpr int kMostTried = 5;        // reckoned through before the best is taken

using Kinds = std::map<std::string, harvest::Kind>;

// The likely stems of every week of the wish by crop.
std::vector<Kinds> kinds_of(const Outcome& outcome, std::optional<std::size_t> without = {}) {
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

double usable(const Wanted& wanted, const Kinds& kinds) {
  std::vector<harvest::Kind> list;
  for (const auto& [crop, kind] : kinds) list.push_back(kind);
  return harvest::vase(wanted, list).usable;
}

// The first half of a vase counts twice the second, as for the choice.
double worth(const Wanted& wanted, const std::vector<Kinds>& weeks) {
  double sum = 0;
  for (const Kinds& kinds : weeks) {
    sum += harvest::first_half_twice(wanted.stems, usable(wanted, kinds));
  }
  return sum;
}

bool fits(const Growing& growing, const Plot& plot) {
  return growing.ground.from >= plot.days.from && growing.ground.until <= plot.days.until;
}

int plants_on(const Plot& plot, const Sheet& sheet) {
  Planting planting;
  planting.patch = Patch{plot.bed, 1, {}, plot.length, plot.width};
  return ground::layout(planting, sheet).plants;
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

Change change_of(const Garden& garden, const Plot& plot, const std::string& crop) {
  const CropEntry asked{.crop = crop,
                        .id = id_for(garden.plan, plot.bed, crop),
                        .pins = {.not_before = garden.adds_from()}};
  if (plot.instead_of) return Instead{*plot.instead_of, asked};
  if (!plot.stretch) return AddStretch{plot.bed, plot.length, asked};
  return AddCrop{plot.bed, *plot.stretch, plot.after, asked};
}

class Mender {
 public:
  Mender(const Garden& garden, const Outcome& now, bool replant)
      : garden_(garden),
        plan_(garden.plan),
        now_(now),
        replant_(replant),
        wanted_(harvest::wanted(*garden.plan.wish)) {
    const auto mondays = wish_mondays(garden);
    for (const Sheet* sheet : wished_sheets(garden)) {
      for (Growing& growing : growings(garden, *sheet, mondays)) {
        growings_.push_back(std::move(growing));
      }
    }
  }

  Mended run(const Progress& progress) {
    Mended result{.additions = {}, .plan = {}, .after = {}, .bounds = bounds()};
    for (int number = 1; number <= kMostAdditions; ++number) {
      if (progress) progress(number);
      auto found = best_addition();
      if (!found) break;
      result.additions.push_back(std::move(*found));
    }
    result.plan = std::move(plan_);
    result.after = std::move(now_);
    return result;
  }

 private:
  // What might be planted where, and what it would be worth beside all there is.
  struct Idea {
    const Plot* plot = nullptr;
    const Growing* growing = nullptr;
    double gain = 0;
  };

  std::vector<WeekBound> bounds() const {
    const std::vector<Plot> free = plots(garden(), now_.schedule, replant_);
    std::vector<WeekBound> result;
    for (std::size_t week = 0; week < now_.weeks.size(); ++week) {
      const harvest::Week& of = now_.weeks[week];
      if (of.vase.state() == harvest::WeekState::Full) continue;
      // By stretch: its plots share the week between them.
      std::map<std::pair<std::size_t, std::optional<std::size_t>>, double> most;
      for (const Plot& plot : free) {
        double& stems = most[{plot.bed, plot.stretch}];
        stems = std::max(stems, most_stems(plot, week));
      }
      double sum = of.vase.usable;
      for (const auto& [stretch, stems] : most) sum += stems;
      result.push_back({of.monday, of.vase.usable, std::min(sum, wanted_.stems)});
    }
    return result;
  }

  double most_stems(const Plot& plot, std::size_t week) const {
    double most = 0;
    for (const Growing& growing : growings_) {
      if (growing.stems[week] <= 0 || !fits(growing, plot)) continue;
      const int plants = plants_on(plot, *growing.sheet) * pieces(plot);
      most = std::max(most, growing.stems[week] * plants);
    }
    return most;
  }

  // A bed's rest is planted piece by piece.
  int pieces(const Plot& plot) const {
    if (plot.stretch) return 1;
    const Bed& bed = plan_.beds[plot.bed];
    int rest = bed.length.value();
    for (const Stretch& stretch : bed.stretches) rest -= stretch.length.value();
    return (rest + plot.length.value() - 1) / plot.length.value();
  }

  std::vector<Idea> ideas(const std::vector<Plot>& free) const {
    const auto weeks = kinds_of(now_);
    const double worth_now = worth(wanted_, weeks);
    std::map<std::tuple<std::size_t, std::string>, Idea> best;  // by plot and crop
    for (std::size_t i = 0; i < free.size(); ++i) {
      const auto others = free[i].instead_of ? kinds_of(now_, free[i].instead_of) : weeks;
      for (const Growing& growing : growings_) {
        if (!growing.usual || !fits(growing, free[i])) continue;
        const double gain = gain_of(free[i], growing, others) - worth_now;
        Idea& idea = best[{i, growing.sheet->name}];
        if (gain > idea.gain) idea = {&free[i], &growing, gain};
      }
    }
    std::vector<Idea> list;
    for (const auto& [key, idea] : best) {
      if (idea.gain >= kLeastGain) list.push_back(idea);
    }
    std::ranges::stable_sort(list, std::greater{}, &Idea::gain);
    return list;
  }

  // What all weeks would be worth; less for a kind more, nothing for too few plants of it.
  double gain_of(const Plot& plot, const Growing& growing, std::vector<Kinds> weeks) const {
    const Sheet& sheet = *growing.sheet;
    const int plants = plants_on(plot, sheet);
    if (plants < kFewestOfAKind) return 0;
    bool is_new = true;
    for (std::size_t week = 0; week < weeks.size(); ++week) {
      is_new = is_new && !weeks[week].contains(sheet.name);
      if (growing.stems[week] <= 0) continue;
      harvest::Kind& kind = weeks[week][sheet.name];
      kind.part = harvest::part_of(sheet.roles.front());
      kind.stems += growing.stems[week] * plants;
    }
    return worth(wanted_, weeks) - (is_new ? kPriceOfAKind : 0);
  }

  // The best of the likeliest, each reckoned through; it stands in the garden then.
  std::optional<Addition> best_addition() {
    const Garden garden = this->garden();
    const std::vector<Plot> free = plots(garden, now_.schedule, replant_);
    std::vector<Idea> list = ideas(free);
    if (list.size() > kMostTried) list.resize(kMostTried);
    std::optional<Addition> best;
    std::optional<Difference> taken;
    double most = worth(wanted_, kinds_of(now_)) + kLeastGain;
    for (const Idea& idea : list) {
      const Change change = change_of(garden, *idea.plot, idea.growing->sheet->name);
      Difference found = ask(garden, now_, change);
      const double value = worth(wanted_, kinds_of(found.after));
      if (value < most || !holds(found)) continue;
      most = value;
      best = addition(change, *idea.growing->sheet, idea.plot->bed, found);
      taken = std::move(found);
    }
    if (taken) {
      plan_ = std::move(taken->plan.plan);
      now_ = std::move(taken->after);
    }
    return best;
  }

  // No week has lost its vases, and nothing is broken or short that was not.
  static bool holds(const Difference& found) {
    return found.weeks >= 0 && std::ranges::none_of(found.fresh, [](const Finding& finding) {
             return finding.rank() != Rank::Mild;
           });
  }

  Addition addition(const Change& change, const Sheet& sheet, std::size_t bed,
                    const Difference& found) const {
    Addition result{
        .change = change, .sheet = &sheet, .on = plan_.beds[bed].name, .mondays = {}, .stems = 0};
    for (std::size_t week = 0; week < now_.weeks.size(); ++week) {
      const double more = found.after.weeks[week].vase.usable - now_.weeks[week].vase.usable;
      result.stems += more;
      if (more >= kFuller) result.mondays.push_back(now_.weeks[week].monday);
    }
    return result;
  }

  // As it is now, with all that was added.
  Garden garden() const { return with_plan(garden_, plan_); }

  const Garden& garden_;
  Plan plan_;
  Outcome now_;
  const bool replant_;
  const Wanted wanted_;
  std::vector<Growing> growings_;
};

}  // namespace

Mended mend(const Garden& garden, const Outcome& now, bool replant, const Progress& progress) {
  return Mender(garden, now, replant).run(progress);
}

}  // namespace trug::ask
