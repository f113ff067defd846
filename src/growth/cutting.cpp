// SPDX-License-Identifier: MIT
#include "growth/cutting.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numeric>

#include "climate/day_length.h"
#include "growth/summer.h"

namespace trug::growth {
namespace {

// Where no temperatures are known, from October on (south April; common practice: a third to half).
constexpr double kAutumnPace = 0.4;
// Cold slows all from 15 degC down to 7, as far as days have fallen from 13 hours to ten and a half
// (memory; so that an October at 47 to 53 degrees north gives about that share, too).
constexpr double kFullPaceC = 15, kStandsC = 7;
constexpr double kLongHours = 13, kShortHours = 10.5;
constexpr int kDeclineDays = 182;  // from the longest day to the shortest
constexpr double kPaceAfterHeat = 0.7;
constexpr double kPaceInHeat = 0.4;  // of what heat slows (memory)
constexpr double kHalvingDays = 28;
constexpr int kWalkDays = 84;  // three halvings on, an eighth of the stems is not worth the walk
constexpr int kSeason = 366;
constexpr int kWorthwhileDays = 7;   // of cutting (memory)
constexpr int kWalkDaysToSeed = 28;  // hardy annuals set seed and die (memory)

// What is left of a day's stems so many days on; a halving every four weeks.
const std::array<double, kWalkDays + 1>& halvings() {
  static const auto kAll = [] {
    std::array<double, kWalkDays + 1> shares{};
    for (std::size_t day = 0; day < shares.size(); ++day) {
      shares[day] = std::exp2(-static_cast<double>(day) / kHalvingDays);
    }
    return shares;
  }();
  return kAll;
}

// Days after its weeks on which it is still cut. Bulbs and corms die back, whatever the season
// still holds.
int walk_days(const Sheet& sheet) {
  const bool dies_back = sheet.life_cycle == LifeCycle::Bulb || sheet.life_cycle == LifeCycle::Corm;
  if (sheet.habit != Habit::CutAndComeAgain || sheet.second_flush || dies_back) return 0;
  return sheet.life_cycle == LifeCycle::HardyAnnual ? kWalkDaysToSeed : kWalkDays;
}

// A curve and what follows it. Tubers give as much to the end of the season (common practice:
// dahlias are at their best in the weeks before frost).
class Curve {
 public:
  Curve(const std::vector<double>& shares, const Sheet& sheet)
      : shares_(shares), days_(static_cast<int>(shares.size()) + walk_days(sheet)) {
    if (sheet.life_cycle != LifeCycle::Tuber || shares.empty()) return;
    level_ =
        std::accumulate(shares.begin(), shares.end(), 0.0) / static_cast<double>(shares.size());
    days_ = kSeason;
  }
  bool ends_before(int day) const { return day >= days_; }
  // `day`: from its first useful cut; in the days before that ever more of what it gives then.
  double on(int day) const {
    if (day < 0) return shares_.front() * std::max(0.0, 1 + day / (kWorthwhileDays + 1.0));
    const int beyond = day - static_cast<int>(shares_.size()) + 1;
    if (level_ && 2 * day >= static_cast<int>(shares_.size())) return *level_;
    if (beyond <= 0) return shares_[static_cast<std::size_t>(day)];
    return shares_.back() * halvings()[static_cast<std::size_t>(beyond)];
  }

 private:
  const std::vector<double>& shares_;
  int days_;
  std::optional<double> level_;  // of its later half and of all days after it
};

double share(double value, double none, double whole) {
  return std::clamp((value - none) / (whole - none), 0.0, 1.0);
}

// The pace of days as the year declines.
class Autumn {
 public:
  explicit Autumn(const climate::Season& season) : season_(season) {
    const int year = year_of(season.range().until - Days{1});
    const bool southern = season.climate().southern();
    from_ = by_cold_
                ? under_long_hours(climate::longest_day(year_of(season.range().from), southern))
                : make_date(year, southern ? 4 : 10, 1);
  }
  double pace(Date day) const {
    if (day < from_) return 1;
    if (!by_cold_) return kAutumnPace;
    const double cold = share(season_.climate().average_c(day), kFullPaceC, kStandsC);
    return 1 - cold * share(hours(day), kLongHours, kShortHours);
  }

 private:
  double hours(Date day) const { return season_.day_hours(day, climate::Horizon::SunriseToSunset); }
  // The first day after the longest that is short enough to count.
  Date under_long_hours(Date longest) const {
    Date first = longest, last = longest + Days{kDeclineDays};
    while (first < last) {
      const Date middle = first + (last - first) / 2;
      if (hours(middle) < kLongHours) {
        last = middle;
      } else {
        first = middle + Days{1};
      }
    }
    return first;
  }

  const climate::Season& season_;
  bool by_cold_ = season_.climate().has_temperatures();
  Date from_;
};

// Cuts day by day to `end`, or to the plant's, but for the days of the pause, and less on slow
// ones; how many days of its curve that took.
int walk(const Curve& plant, const climate::Season& season, std::optional<DateRange> pause,
         Date first, Date end, Cutting& cutting) {
  const Autumn autumn(season);
  double pace = 1;
  int day_of_plant = -days_between(cutting.from, first);
  cutting.shares.reserve(
      static_cast<std::size_t>(std::max(0, days_between(cutting.from, end) + 1)));
  for (Date day = cutting.from; day <= end && !plant.ends_before(day_of_plant); day += Days{1}) {
    if (pause && pause->contains(day)) {
      pace = kPaceAfterHeat;
      cutting.pause = pause;
      cutting.shares.push_back(0);
      continue;
    }
    const bool slow = cutting.slow && cutting.slow->contains(day);
    cutting.shares.push_back(plant.on(day_of_plant++) * pace * (slow ? kPaceInHeat : 1) *
                             autumn.pace(day));
  }
  return day_of_plant;
}

// What comes into flower in the heat is first cut after it; a pause at the end is no cutting.
void trim(Cutting& cutting) {
  std::vector<double>& shares = cutting.shares;
  const auto first = std::ranges::find_if(shares, [](double share) { return share > 0; });
  cutting.from += Days{static_cast<int>(first - shares.begin())};
  shares.erase(shares.begin(), first);
  while (!shares.empty() && shares.back() == 0) shares.pop_back();
}

}  // namespace

Date cutting_end(const climate::Season& season, const CropSpec& crop) {
  Date end = std::min(season.end(crop.frost_class()), season.range().until - Days{1});
  if (crop.sheet().habit == Habit::CutAndComeAgain && season.next_winter()) {
    end = std::min(end, season.next_winter()->from);
  }
  return end;
}

Cutting cut_through(const climate::Season& season, const CropSpec& crop,
                    const std::vector<double>& curve, Date flower, Date first, Date end) {
  const Sheet& sheet = crop.sheet();
  const Curve plant(curve, sheet);
  Cutting cutting{.from = first};
  const bool ends = sheet.when_hot == WhenHot::Ends;
  std::vector<DateRange> hot = too_hot(season, sheet, ends ? flower : first);
  if (!hot.empty() && ends && hot.front().from <= end) {
    const Date heat = hot.front().from;
    cutting.too_hot_from = heat;
    cutting.from = std::clamp(heat - Days{kWorthwhileDays}, flower, first);
    end = heat - Days{1};
    hot.clear();
  }
  if (!hot.empty() && sheet.when_hot == WhenHot::Slows) {
    if (hot.front().from <= end) cutting.slow = hot.front();
    hot.clear();
  }
  const auto pause = hot.empty() ? std::nullopt : std::optional(hot.front());
  const int day_of_plant = walk(plant, season, pause, first, end, cutting);
  cutting.cut_short = !plant.ends_before(day_of_plant);
  trim(cutting);
  return cutting;
}

}  // namespace trug::growth
