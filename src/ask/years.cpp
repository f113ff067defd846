// SPDX-License-Identifier: MIT
#include "ask/years.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <random>
#include <string>
#include <utility>

#include "climate/frost.h"
#include "ground/weather_forecast.h"
#include "harvest/share.h"
#include "harvest/vase.h"

namespace trug::ask {
namespace {

constexpr Range kFit{0.7, 0.9};  // of the plants; candidates.h takes 0.75

// The same on every machine: the standard's distributions are not.
class Draw {
 public:
  explicit Draw(std::uint64_t seed) : engine_(seed) {}
  // Above 0 and under 1.
  double even() { return (static_cast<double>(engine_() >> 12) + 0.5) / 4503599627370496.0; }
  double even(Range range) { return range.low + even() * (range.high - range.low); }
  double normal() { return climate::normal_quantile(even()); }
  std::size_t one_of(std::size_t number) {
    return std::min(number - 1, static_cast<std::size_t>(even() * static_cast<double>(number)));
  }

 private:
  std::mt19937_64 engine_;
};

// What one sowing may give, beside the weather.
struct Chance {
  std::size_t crop = 0;
  double days = 0;  // standard deviation of its first cut that no recorded year explains
  Range yield;      // of what is likely
};

// A year's cuts, in the order of the sowings.
using Cuts = std::vector<harvest::Cut>;

class Years {
 public:
  Years(const Garden& garden, const Outcome& now, std::uint64_t seed)
      : draw_(seed), wanted_(harvest::wanted(*garden.plan.wish)) {
    const auto lived = ground::lived_years(now.schedule, garden.climate, garden.weather->record,
                                           garden.plan.flowering_year);
    for (const ground::LivedYear& year : lived) {
      years_.push_back(year.year);
      cuts_.push_back(ground::cuts(garden.plan, year.schedule));
    }
    std::map<std::string, std::size_t> crops;
    for (const ground::Sowing& sowing : now.schedule.sowings) {
      const auto crop = crops.try_emplace(sowing.sheet->name, crops.size()).first->second;
      if (crop == parts_.size()) parts_.push_back(harvest::part_of(sowing.sheet->roles.front()));
      chances_.push_back(chance_of(sowing, crop));
    }
  }

  const std::vector<int>& recorded() const { return years_; }

  // The stems of each week that find a place, in one year more.
  std::vector<double> next(const std::vector<harvest::Week>& weeks) {
    const Cuts& cuts = cuts_[draw_.one_of(cuts_.size())];
    std::vector<double> moved, yields;
    for (std::size_t crop = 0; crop < parts_.size(); ++crop) {
      moved.push_back(draw_.normal());
      yields.push_back(draw_.even());
    }
    std::vector<double> fit;
    for (std::size_t i = 0; i < chances_.size(); ++i) {
      fit.push_back(draw_.even(kFit) / ground::kFitShare);
    }
    std::vector<double> usable;
    for (const harvest::Week& week : weeks) {
      std::vector<harvest::Kind> kinds;
      for (const harvest::Part part : parts_) kinds.push_back({part, 0});
      for (std::size_t i = 0; i < cuts.size(); ++i) {
        const Chance& chance = chances_[i];
        const auto days = static_cast<int>(std::lround(moved[chance.crop] * chance.days));
        const double yield =
            chance.yield.low + yields[chance.crop] * (chance.yield.high - chance.yield.low);
        kinds[chance.crop].stems +=
            harvest::share_in(cuts[i], week.monday, days) * cuts[i].stems.likely * yield * fit[i];
      }
      usable.push_back(harvest::vase(wanted_, kinds).usable);
    }
    return usable;
  }

 private:
  static Chance chance_of(const ground::Sowing& sowing, std::size_t crop) {
    static const double kDeviations = climate::normal_quantile(0.9);
    const growth::Timeline& timeline = sowing.timeline;
    const double spread = timeline.basis == growth::Basis::Recorded ? 0 : timeline.spread_days;
    // Recorded years tell what the weather does to what goes by warmth.
    const double weather = timeline.basis == growth::Basis::Window ? 0 : timeline.weather_days;
    const Range yield = sowing.spec().stems_per_plant(sowing.raised_by());
    const double middle = yield.middle();
    return {crop, std::sqrt(std::max(0.0, spread * spread - weather * weather)) / kDeviations,
            middle > 0 ? Range{yield.low / middle, yield.high / middle} : Range{1, 1}};
  }

  Draw draw_;
  harvest::Wanted wanted_;
  std::vector<int> years_;
  std::vector<Cuts> cuts_;
  std::vector<harvest::Part> parts_;  // by crop
  std::vector<Chance> chances_;       // by sowing
};

// `stems`: of every drawn year.
WeekChance chance_of(const harvest::Week& week, std::vector<double> stems) {
  const auto share = [&](double least) {
    const auto count = std::ranges::count_if(stems, [&](double one) { return one >= least; });
    return static_cast<double>(count) / static_cast<double>(stems.size());
  };
  const double wanted = week.vase.wanted - 1e-9;
  const double full = share(wanted);
  const double half = share(wanted / 2) - full;
  std::ranges::sort(stems);
  const auto level = [&](double at) {
    return stems[static_cast<std::size_t>(at * static_cast<double>(stems.size() - 1) + 0.5)];
  };
  return {week.monday, full, half, {level(0.1), level(0.5), level(0.9)}};
}

}  // namespace

std::optional<Chances> chances(const Garden& garden, const Outcome& now, std::uint64_t seed,
                               int drawn) {
  Years years(garden, now, seed);
  const std::vector<int>& recorded = years.recorded();
  if (static_cast<int>(recorded.size()) < ground::kFewestYears) return std::nullopt;
  std::vector<std::vector<double>> stems(now.weeks.size());
  for (int i = 0; i < drawn; ++i) {
    const auto usable = years.next(now.weeks);
    for (std::size_t week = 0; week < usable.size(); ++week) stems[week].push_back(usable[week]);
  }
  Chances result{.first_year = recorded.back(),
                 .last_year = recorded.front(),
                 .recorded = static_cast<int>(recorded.size()),
                 .drawn = drawn,
                 .seed = seed,
                 .weeks = {}};
  for (std::size_t week = 0; week < stems.size(); ++week) {
    result.weeks.push_back(chance_of(now.weeks[week], std::move(stems[week])));
  }
  return result;
}

}  // namespace trug::ask
