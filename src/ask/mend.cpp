// SPDX-License-Identifier: MIT
#include "ask/mend.h"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>
#include <variant>

#include "ask/ask.h"
#include "ask/growings.h"
#include "ask/ideas.h"
#include "ask/plots.h"
#include "ground/starts.h"
#include "harvest/vase.h"

namespace trug::ask {
namespace {

using harvest::Wanted;

constexpr double kPriceOfAKind = 2;  // stems that a kind more must give: few kinds, enough of each
constexpr double kLeastGain = 3;     // stems, of all weeks
constexpr double kFuller = 0.5;      // stems by which a week is felt to be
constexpr int kMostTried = 5;        // reckoned through before the best is taken

class Mender {
 public:
  Mender(const Garden& garden, const Outcome& now, bool replant)
      : garden_(garden),
        plan_(garden.plan),
        now_(now),
        replant_(replant),
        wanted_(harvest::wanted(*garden.plan.wish)),
        summer_(summer_of(garden)) {
    const auto mondays = wish_mondays(garden);
    for (const Sheet* sheet : wished_sheets(garden)) {
      for (Growing& growing : growings(garden, *sheet, mondays)) {
        growings_.push_back(std::move(growing));
      }
    }
  }

  Mended run(const Progress& progress, int most) {
    Mended result{.additions = {}, .plan = {}, .after = {}, .bounds = bounds()};
    for (int number = 1; number <= most; ++number) {
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
      if (growing.stems[week] <= 0 || !fits(growing, plot, summer_)) continue;
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

  // The best of the likeliest, each reckoned through; it stands in the garden then.
  std::optional<Addition> best_addition() {
    const Garden garden = this->garden();
    const std::vector<Plot> free = plots(garden, now_.schedule, replant_);
    std::vector<Idea> list =
        ideas(garden, now_, free, growings_, {weighing(), kPriceOfAKind, kLeastGain});
    if (list.size() > kMostTried) list.resize(kMostTried);
    std::optional<Addition> best;
    std::optional<Difference> taken;
    double most = weighing().of(kinds_of(now_)) + kLeastGain;
    for (const Idea& idea : list) {
      const Change change = change_of(garden, *idea.plot, *idea.growing->sheet);
      Difference found = ask(garden, now_, change);
      const double value = weighing().of(kinds_of(found.after));
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

  // More than a fortnight late for the crop before it: nothing to advise.
  static bool is_too_late(const Finding& finding) {
    const auto* late = std::get_if<LateStart>(&finding.found);
    return late && late->days_late > ground::kFortnight;
  }

  // No week has lost its vases, and nothing is broken, short or late that was not.
  static bool holds(const Difference& found) {
    return found.weeks >= 0 && std::ranges::none_of(found.fresh, [](const Finding& finding) {
             return finding.rank() != Rank::Mild || is_too_late(finding) ||
                    std::holds_alternative<HeldBack>(finding.found);
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

  // The vases alone: a week that has them wants nothing more.
  Weighing weighing() const { return {.wanted = wanted_}; }

  // As it is now, with all that was added.
  Garden garden() const { return with_plan(garden_, plan_); }

  const Garden& garden_;
  Plan plan_;
  Outcome now_;
  const bool replant_;
  const Wanted wanted_;
  const DateRange summer_;
  std::vector<Growing> growings_;
};

}  // namespace

Mended mend(const Garden& garden, const Outcome& now, bool replant, const Progress& progress,
            int most) {
  return Mender(garden, now, replant).run(progress, most);
}

}  // namespace trug::ask
