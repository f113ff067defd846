// SPDX-License-Identifier: MIT
#include "ground/programme.h"

#include <algorithm>
#include <deque>
#include <tuple>
#include <utility>

namespace trug::ground {
namespace {

constexpr int kDaysPerWeek = 7;
constexpr int kNone = -1;

// Rounded to the nearest. The library's own rounding costs as much as all else of a lift day.
std::int64_t hundredths(double stems) {
  return static_cast<std::int64_t>(100 * stems + (stems < 0 ? -0.5 : 0.5));
}

// The best of crops 1..i with the ground falling free on one day, and how it was reached.
struct State {
  bool reached = false;
  Score score;
  std::optional<Pick> pick;  // of crop i
  int before = 0;            // day of the state of crop i-1 it builds on
};
using Row = std::vector<State>;

class Programme {
 public:
  Programme(const StretchGround& ground, const std::vector<WeekWorths>& worths)
      : ground_(ground), worths_(worths), last_day_(ground.horizon + 1) {
    for (int day = 0; day <= last_day_; ++day) {
      bare_.push_back(price(ground.summer.days_before(day)));
    }
  }

  Solution run() {
    rows_.emplace_back(bare_.size());
    at(rows_.back(), std::clamp(ground_.free_on, 0, last_day_)).reached = true;
    for (std::size_t crop = 0; crop < ground_.crops.size(); ++crop) add_crop(crop);
    return walk_back(best_end());
  }

 private:
  // What bare ground costs for so many days of summer.
  std::int64_t price(double days) const {
    return hundredths(kBareStems * ground_.area_m2 * days / kDaysPerWeek);
  }

  static State& at(Row& row, int day) { return row[static_cast<std::size_t>(day)]; }
  static const State& at(const Row& row, int day) { return row[static_cast<std::size_t>(day)]; }
  std::int64_t bare(int day) const { return bare_[static_cast<std::size_t>(day)]; }

  // A state's score with what lay bare up to its day given back: so states of several days compare.
  Score with_bare(int day) const {
    Score score = at(rows_.back(), day).score;
    score.value += bare(day);
    return score;
  }

  // For each day the day of the best state from `earliest(day)`, which never falls, up to it.
  template <class Earliest>
  std::vector<int> best_since(const Earliest& earliest) const {
    std::vector<int> best(bare_.size(), kNone);
    std::deque<int> days;  // later and later, worse and worse
    for (int day = 0; day <= last_day_; ++day) {
      if (at(rows_.back(), day).reached) {
        while (!days.empty() && with_bare(days.back()) < with_bare(day)) days.pop_back();
        days.push_back(day);
      }
      while (!days.empty() && days.front() < earliest(day)) days.pop_front();
      if (!days.empty()) best[static_cast<std::size_t>(day)] = days.front();
    }
    return best;
  }

  void add_crop(std::size_t crop) {
    const Summer& summer = ground_.summer;
    any_ = best_since([](int) { return 0; });
    near_ = best_since([](int day) { return day - kFortnight; });
    int soon = 0;
    soon_ = best_since([&](int day) {
      while (summer.days_before(day) - summer.days_before(soon) > kMostBareDays) ++soon;
      return soon;
    });
    Row row = without_crop(ground_.crops[crop]);
    const std::vector<Option>& options = ground_.crops[crop].options->list;
    for (std::size_t i = 0; i < options.size(); ++i) try_option(crop, i, row);
    rows_.push_back(std::move(row));
  }

  Row without_crop(const StretchCrop& crop) const {
    Row row = rows_.back();
    for (int day = 0; day <= last_day_; ++day) {
      State& state = at(row, day);
      state.score.left_out += crop.missed;
      state.pick.reset();
      state.before = day;
    }
    return row;
  }

  int state_before(const Option& option) const {
    const int day = option.in_ground;
    if (day < 0 || day > ground_.horizon) return kNone;
    const auto index = static_cast<std::size_t>(day);
    switch (option.free) {
      case Free::Never:
        return kNone;
      case Free::Any:
        return any_[index];
      case Free::Soon:
        return soon_[index];
      case Free::Near:
        return near_[index];
    }
    return kNone;
  }

  void try_option(std::size_t crop, std::size_t index, Row& row) const {
    const StretchCrop& asked = ground_.crops[crop];
    const Option& option = asked.options->list[index];
    const int before = state_before(option);
    if (before == kNone) return;
    Score base = with_bare(before);
    base.value -= bare(option.in_ground) + price(option.strips_wait_days);
    Counter counter(asked, option, worths_[crop]);
    // Where nothing follows, each day more is worth as much or more, and leaves less bare.
    const bool is_last = crop + 1 == ground_.crops.size();
    for (int lift = is_last ? option.lift_to : option.lift_from; lift <= option.lift_to; ++lift) {
      const std::int64_t value = base.value + hundredths(counter.up_to(lift));
      State& state = at(row, std::min(lift + ground_.gap, last_day_));
      // Most days end here: fewer stems, whatever the taste.
      const bool no_better = state.reached && base.left_out >= state.score.left_out;
      if (no_better && (base.left_out > state.score.left_out || value < state.score.value))
        continue;
      const Score score{base.left_out, value, base.taste + taste(option, lift)};
      if (!state.reached || score > state.score) state = {true, score, Pick{index, lift}, before};
    }
  }

  int best_end() const {
    int best = kNone;
    for (int day = 0; day <= last_day_; ++day) {
      if (!at(rows_.back(), day).reached) continue;
      if (best == kNone || with_bare(day) > with_bare(best)) best = day;
    }
    return best;
  }

  Solution walk_back(int day) const {
    Solution solution;
    solution.picks.resize(ground_.crops.size());
    solution.score = with_bare(day);
    solution.score.value -= bare_.back();
    for (std::size_t crop = ground_.crops.size(); crop > 0; --crop) {
      const State& state = at(rows_[crop], day);
      solution.picks[crop - 1] = state.pick;
      day = state.before;
    }
    return solution;
  }

  const StretchGround& ground_;
  const std::vector<WeekWorths>& worths_;
  const int last_day_;              // any day beyond the horizon, on which nothing more is put in
  std::vector<std::int64_t> bare_;  // price of all of summer before a day
  std::vector<Row> rows_;
  std::vector<int> any_, near_, soon_;  // by day: the state of the last row to build on
};

}  // namespace

std::strong_ordering Taste::operator<=>(const Taste& other) const {
  // Greater is better: what should be small is compared the other way round.
  return std::tie(other.off_middle, other.way_rank, other.start, lift) <=>
         std::tie(off_middle, way_rank, start, other.lift);
}

Taste Taste::operator+(const Taste& other) const {
  return {off_middle + other.off_middle, way_rank + other.way_rank, start + other.start,
          lift + other.lift};
}

std::strong_ordering Score::operator<=>(const Score& other) const {
  return std::tie(other.left_out, value, taste) <=> std::tie(left_out, other.value, other.taste);
}

Score Score::operator+(const Score& other) const {
  return {left_out + other.left_out, value + other.value, taste + other.taste};
}

Taste taste(const Option& option, int lift) {
  return {option.off_middle, option.way_rank, option.start, lift};
}

Counter::Counter(const StretchCrop& crop, const Option& option, const WeekWorths& worths)
    : curve_(crop.options->curves[option.curve]),
      worths_(worths),
      stems_(crop.plants * option.stems_per_plant * option.weight),
      first_cut_(option.first_cut),
      day_(option.first_cut) {
  open_week();
}

void Counter::open_week() {
  const int week = day_ / kDaysPerWeek;
  week_end_ = (week + 1) * kDaysPerWeek;
  const auto index = static_cast<std::size_t>(week);
  worth_ = index < worths_.size() ? &worths_[index] : nullptr;
  in_week_ = 0;
}

double Counter::up_to(int lift) {
  const int end = std::min(lift + 1, first_cut_ + static_cast<int>(curve_.size()));
  for (; day_ < end; ++day_) {
    if (day_ == week_end_) {
      closed_ += gain();
      open_week();
    }
    in_week_ += stems_ * curve_[static_cast<std::size_t>(day_ - first_cut_)];
  }
  return closed_ + gain();
}

double bare_before(const StretchGround& ground, int free, const Option& option) {
  const Summer& summer = ground.summer;
  const double days = summer.days_before(option.in_ground) - summer.days_before(free);
  return kBareStems * ground.area_m2 * (days + option.strips_wait_days) / kDaysPerWeek;
}

double bare_after(const StretchGround& ground, int free) {
  const Summer& summer = ground.summer;
  return kBareStems * ground.area_m2 *
         (summer.weeks_before(ground.horizon + 1) - summer.weeks_before(free));
}

Solution best_choice(const StretchGround& ground, const std::vector<WeekWorths>& worths) {
  return Programme(ground, worths).run();
}

}  // namespace trug::ground
