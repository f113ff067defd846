// SPDX-License-Identifier: MIT
#include "ground/bound.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace trug::ground {
namespace {

using harvest::Part;
using Table = std::vector<std::vector<double>>;  // by kind and week

constexpr double kRounding = 0.005;              // stems that an exact choice may lose a crop
constexpr double kDearest = 0.85 * 4 / 3 * 2.5;  // a main stem beside fillers that wait for it

// The kinds of one part, the cheapest first, none above its most.
class Shelf {
 public:
  Shelf(const harvest::Wanted& wanted, const std::vector<Part>& kinds,
        const std::vector<double>& prices, Part part)
      : most_(wanted.most_of_a_kind()), prices_(prices) {
    for (std::size_t kind = 0; kind < kinds.size(); ++kind) {
      if (wanted.counts_as(kinds[kind]) == part) order_.push_back(kind);
    }
    std::ranges::stable_sort(order_, {}, [&](std::size_t kind) { return prices[kind]; });
  }

  double room() const { return most_ * static_cast<double>(order_.size()); }
  double cost(double stems) const {
    double sum = 0;
    fill(stems, [&](std::size_t kind, double taken) { sum += prices_[kind] * taken; });
    return sum;
  }
  template <class Take>
  void fill(double stems, const Take& take) const {
    for (const std::size_t kind : order_) {
      const double taken = std::min(stems, most_);
      take(kind, taken);
      stems -= taken;
    }
  }

 private:
  const double most_;
  const std::vector<double>& prices_;
  std::vector<std::size_t> order_;
};

// Worth less cost is concave and bends only along a few lines, so it is greatest where two of them
// cross: at the steps of either part, where fillers are three to a main stem, and where the vases
// are half or wholly full.
class Corners {
 public:
  Corners(const harvest::Wanted& wanted, const Shelf& mains_shelf, const Shelf& fillers_shelf)
      : wanted_(wanted.stems), mains_(mains_shelf), fillers_(fillers_shelf) {
    const double most = wanted.most_of_a_kind();
    const std::vector<double> mains = {0, most, 2 * most, mains_.room(), wanted_ / 8};
    const std::vector<double> fillers = {0, most, harvest::kMostFiller * wanted_, fillers_.room(),
                                         wanted_ * 3 / 8};
    for (const double m : mains) {
      for (const double f : fillers) look(m, f);
      look(m, harvest::kFillersPerMain * m);
      for (const double full : {wanted_ / 2, wanted_}) look(m, filler_for(full, m));
    }
    for (const double f : fillers) {
      look(f / harvest::kFillersPerMain, f);
      for (const double full : {wanted_ / 2, wanted_}) look(main_for(full, f), f);
    }
  }

  double main = 0, filler = 0, worth = 0;

 private:
  // The filler stems with which `main` ones give so many usable ones, and the other way round.
  static double filler_for(double usable, double main) {
    const double missing = usable - main;
    return missing <= harvest::kFillersPerMain * main ? missing : 2 * usable - 5 * main;
  }
  static double main_for(double usable, double filler) {
    const double missing = usable - filler;
    return filler <= harvest::kFillersPerMain * missing ? missing : (usable - filler / 2) / 2.5;
  }

  void look(double m, double f) {
    m = std::clamp(m, 0.0, std::min(wanted_, mains_.room()));
    f = std::clamp(f, 0.0, std::min(harvest::kMostFiller * wanted_, fillers_.room()));
    const double gain =
        harvest::kUsableWorth * harvest::first_half_twice(wanted_, harvest::usable(wanted_, m, f));
    const double beyond = gain - mains_.cost(m) - fillers_.cost(f);
    if (beyond > worth) {
      main = m;
      filler = f;
      worth = beyond;
    }
  }

  const double wanted_;
  const Shelf& mains_;
  const Shelf& fillers_;
};

// One set of prices: the bound it gives, and the stems wanted and offered at them.
class Prices {
 public:
  Prices(const PlanProblem& problem, const std::vector<Picks>& picks)
      : problem_(problem), weeks_(problem.wanted->size()) {
    PlanWeeks plan(problem);
    for (std::size_t i = 0; i < picks.size(); ++i) plan.add(i, picks[i]);
    for (std::size_t kind = 0; kind < problem.kinds.size(); ++kind) {
      prices_.push_back(plan.next_stem(kind));
      prices_.back().resize(weeks_);
    }
    best_found_ = score_of(problem, picks, plan).value;
  }

  double bound() {
    Table surplus(problem_.kinds.size(), std::vector<double>(weeks_));  // offered, not wanted
    const double bound = stretches(surplus) + elsewhere(surplus) + wishes(surplus);
    step(surplus, bound);
    return bound;
  }

 private:
  std::vector<WeekWorths> worths(const StretchGround& ground) const {
    std::vector<WeekWorths> result;
    for (const StretchCrop& crop : ground.crops) {
      result.emplace_back();
      for (const double price : prices_[crop.kind]) {
        result.back().push_back(harvest::Beside::flat(harvest::kStemWorth + price));
      }
    }
    return result;
  }

  double stretches(Table& surplus) const {
    double sum = 0;
    for (const StretchGround& ground : problem_.stretches) {
      const std::vector<WeekWorths> flat = worths(ground);
      const Solution solution = best_choice(ground, flat);
      sum += score_of(ground, solution.picks, flat).value +
             kRounding * static_cast<double>(ground.crops.size() + 1);
      for (std::size_t i = 0; i < ground.crops.size(); ++i) {
        StretchGround alone = ground;
        alone.crops = {ground.crops[i]};
        const std::vector<double> weekly = weekly_stems(alone, {solution.picks[i]});
        std::vector<double>& of_kind = surplus[ground.crops[i].kind];
        for (std::size_t week = 0; week < std::min(weeks_, weekly.size()); ++week) {
          of_kind[week] += weekly[week];
        }
      }
    }
    return sum;
  }

  double elsewhere(Table& surplus) const {
    double sum = 0;
    for (std::size_t kind = 0; kind < problem_.elsewhere.size(); ++kind) {
      const std::vector<double>& weekly = problem_.elsewhere[kind];
      for (std::size_t week = 0; week < weekly.size(); ++week) {
        const double price = week < weeks_ ? prices_[kind][week] : 0;
        sum += (harvest::kStemWorth + price) * weekly[week];
        if (week < weeks_) surplus[kind][week] += weekly[week];
      }
    }
    return sum;
  }

  double wishes(Table& surplus) const {
    double sum = 0;
    std::vector<double> prices(problem_.kinds.size());
    for (std::size_t week = 0; week < weeks_; ++week) {
      for (std::size_t kind = 0; kind < prices.size(); ++kind) prices[kind] = prices_[kind][week];
      const Priced priced = best_at_prices((*problem_.wanted)[week], problem_.kinds, prices);
      sum += priced.worth;
      for (std::size_t kind = 0; kind < prices.size(); ++kind) {
        surplus[kind][week] -= priced.stems[kind];
      }
    }
    return sum;
  }

  // Cheaper where stems are left over, dearer where they are short; the nearer the bound to what
  // was found, the less.
  void step(const Table& surplus, double bound) {
    double square = 0;
    for (const auto& weekly : surplus) {
      square += std::inner_product(weekly.begin(), weekly.end(), weekly.begin(), 0.0);
    }
    if (square <= 0) return;
    const double length = std::max(0.0, bound - best_found_) / square;
    for (std::size_t kind = 0; kind < surplus.size(); ++kind) {
      for (std::size_t week = 0; week < weeks_; ++week) {
        double& price = prices_[kind][week];
        if ((*problem_.wanted)[week].stems <= 0) continue;
        price = std::clamp(price - length * surplus[kind][week], 0.0, kDearest);
      }
    }
  }

  const PlanProblem& problem_;
  const std::size_t weeks_;
  Table prices_;
  double best_found_ = 0;
};

}  // namespace

Priced best_at_prices(const harvest::Wanted& wanted, const std::vector<Part>& kinds,
                      const std::vector<double>& prices) {
  Priced result{.stems = std::vector<double>(kinds.size())};
  if (wanted.stems <= 0) return result;
  const Shelf main(wanted, kinds, prices, Part::Main);
  const Shelf filler(wanted, kinds, prices, Part::Filler);
  const Corners corners(wanted, main, filler);
  const auto take = [&](std::size_t kind, double stems) { result.stems[kind] = stems; };
  main.fill(corners.main, take);
  filler.fill(corners.filler, take);
  result.worth = corners.worth;
  return result;
}

double upper_bound(const PlanProblem& problem, const std::vector<Picks>& picks, int steps) {
  Prices prices(problem, picks);
  double least = std::numeric_limits<double>::max();
  for (int step = 0; step < steps; ++step) least = std::min(least, prices.bound());
  return least;
}

}  // namespace trug::ground
