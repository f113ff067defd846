// SPDX-License-Identifier: MIT
#include "ask/spare_plants.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include "harvest/vase.h"

namespace trug::ask {
namespace {

constexpr int kFewestOfAKind = 3;     // plants (common practice)
constexpr double kUnfelt = 0.01;      // of the stems a week wants, that may be lost of it
constexpr double kWorthNaming = 0.5;  // stems
constexpr double kKept[] = {0, 0.25, 0.5, 0.75};

class Weeks {
 public:
  Weeks(const Plan& plan, const Outcome& outcome)
      : outcome_(outcome), kept_(plan.plantings.size(), 1), wanted_(harvest::wanted(*plan.wish)) {
    for (const harvest::Week& week : outcome.weeks) floor_.push_back(usable(week));
  }

  // The share of a planting without which a week would lose, of those tried.
  double needed(std::size_t planting) {
    for (const double share : kKept) {
      kept_[planting] = share;
      if (holds()) return share;
    }
    return kept_[planting] = 1;
  }

  double best_week(std::size_t planting) const {
    double best = 0;
    for (const harvest::Week& week : outcome_.weeks) {
      for (const harvest::KindInWeek& kind : week.kinds) {
        if (kind.planting == planting) best = std::max(best, kind.stems.likely);
      }
    }
    return best;
  }

 private:
  double usable(const harvest::Week& week) const {
    std::map<std::string, harvest::Kind> kinds;
    for (const harvest::KindInWeek& kind : week.kinds) {
      const Sheet& sheet = *outcome_.schedule.weighed[kind.planting].sheet;
      harvest::Kind& sum = kinds[kind.crop];
      sum.part = harvest::part_of(sheet.roles.front());
      sum.stems += kind.stems.likely * kept_[kind.planting];
    }
    std::vector<harvest::Kind> list;
    for (const auto& [crop, kind] : kinds) list.push_back(kind);
    return harvest::vase(wanted_, list).usable;
  }
  bool holds() const {
    for (std::size_t i = 0; i < floor_.size(); ++i) {
      if (usable(outcome_.weeks[i]) < floor_[i] - kUnfelt * wanted_.stems) return false;
    }
    return true;
  }

  const Outcome& outcome_;
  std::vector<double> kept_;   // by planting, the share of its plants
  std::vector<double> floor_;  // usable stems by week, of all plants
  harvest::Wanted wanted_;
};

}  // namespace

std::vector<Spare> spare_plants(const Plan& plan, const Outcome& outcome) {
  std::vector<Spare> result;
  if (!plan.wish) return result;
  Weeks weeks(plan, outcome);
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    const auto sowings = outcome.schedule.of(i);
    Spare spare{.planting = i, .best = weeks.best_week(i)};
    if (sowings.empty() || !plan.plantings[i].patch || spare.best < kWorthNaming) continue;
    for (const ground::Sowing& sowing : sowings) spare.plants += sowing.plants;
    const double share = weeks.needed(i);
    spare.enough = static_cast<int>(std::ceil(share * spare.plants));
    if (share > 0) spare.enough = std::max(kFewestOfAKind, spare.enough);
    if (spare.enough < spare.plants) result.push_back(spare);
  }
  return result;
}

}  // namespace trug::ask
