// SPDX-License-Identifier: MIT
#include "ground/programme.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace trug::ground {
namespace {

using harvest::Beside;
using harvest::Kind;
using harvest::Part;

// A crop of a test as the gardener knows it; nothing in it is reckoned by the program.
struct Sown {
  Start start;
  int first_cut = 0;
  int lift_from = 0, lift_to = 0;
  double way = 1;  // weight of the way
  int off_middle = 0, way_rank = 0, sown = 0;
  double stems = 1;  // a plant's, by the curve
  std::size_t curve = 0;
};

struct Crop {
  Part part = Part::Main;
  std::vector<Sown> starts;
  std::vector<std::vector<double>> curves;
};

// What is wanted and what others give, by week.
struct Weeks {
  std::vector<harvest::Wanted> wanted;
  std::map<int, std::vector<Kind>> others;  // of other kinds
  std::map<int, double> own;                // of the stretch's own kind, elsewhere
  bool wish = true;

  harvest::Wanted at(int week) const {
    const auto index = static_cast<std::size_t>(week);
    return index < wanted.size() ? wanted[index] : harvest::Wanted{};
  }
  std::vector<Kind> others_at(int week) const {
    const auto found = others.find(week);
    return found == others.end() ? std::vector<Kind>{} : found->second;
  }
  double own_at(int week) const { return own.contains(week) ? own.at(week) : 0; }
};

constexpr int kWeeks = 80;

WeekWorths worths(const Weeks& weeks, Part part) {
  WeekWorths result;
  for (int week = 0; week < kWeeks; ++week) {
    if (!weeks.wish) {
      result.push_back(Beside::flat(1));
      continue;
    }
    const harvest::Wanted wanted = weeks.at(week);
    double main = 0, filler = 0;
    for (const Kind& kind : weeks.others_at(week)) {
      (wanted.counts_as(kind.part) == Part::Main ? main : filler) +=
          std::min(kind.stems, wanted.most_of_a_kind());
    }
    result.push_back(Beside(wanted, part, weeks.own_at(week), main, filler));
  }
  return result;
}

Option option(const Sown& sown) {
  return {.start = sown.sown,
          .in_ground = sown.start.in_ground,
          .first_cut = sown.first_cut,
          .lift_from = sown.lift_from,
          .lift_to = sown.lift_to,
          .off_middle = sown.off_middle,
          .way_rank = sown.way_rank,
          .free = free_before(sown.start),
          .weight = sown.way * place_weight(sown.start),
          .stems_per_plant = sown.stems,
          .curve = sown.curve};
}

// A stretch, what its weeks want and the answer.
struct Case {
  StretchGround ground{.horizon = 300, .summer = {70, 210}};
  std::vector<Crop> crops;
  Weeks weeks;

  Solution choose() {
    std::vector<WeekWorths> all;
    ground.crops.clear();
    for (const Crop& crop : crops) {
      auto options = std::make_shared<Options>();
      options->curves = crop.curves;
      for (const Sown& sown : crop.starts) options->list.push_back(option(sown));
      ground.crops.push_back({.options = options});
      all.push_back(worths(weeks, crop.part));
    }
    return best_choice(ground, all);
  }
};

TEST(Programme, WhatHasBegunHasTheGroundBeforeWhatHasNot) {
  const auto grown = [](double stems) {
    return Option{.start = 70,
                  .in_ground = 70,
                  .first_cut = 110,
                  .lift_from = 130,
                  .lift_to = 130,
                  .stems_per_plant = stems};
  };
  const auto crop = [&](double stems, int missed) {
    auto options = std::make_shared<Options>();
    options->curves = {std::vector<double>(21, 1.0 / 21)};
    options->list = {grown(stems)};
    return StretchCrop{.options = options, .missed = missed};
  };
  for (const bool first : {true, false}) {
    StretchGround ground{.horizon = 300, .summer = {70, 210}};
    ground.crops = {crop(first ? 1 : 90, first ? 1000 : 1), crop(first ? 90 : 1, first ? 1 : 1000)};
    const std::vector<WeekWorths> worths(2, WeekWorths(kWeeks, Beside::flat(1)));
    const Solution solution = best_choice(ground, worths);
    EXPECT_EQ(solution.picks[0].has_value(), first);
    EXPECT_EQ(solution.picks[1].has_value(), !first);
  }
}

// ---- Examples worked by hand. Day 0 is a Monday; 12 stems are wanted in weeks 15 to 24; a square
// metre is bare for a week at the price of a stem from day 70 to 210; a stem a day for three weeks
// from the first cut, lifted when it is over.

Case example(double area_m2 = 1) {
  Case result;
  result.ground.area_m2 = area_m2;
  result.weeks.wanted.assign(15, {0});
  result.weeks.wanted.insert(result.weeks.wanted.end(), 10, {12});
  return result;
}

std::vector<double> each_day(int days, double stems = 1) {
  return std::vector<double>(static_cast<std::size_t>(days), stems);
}

Sown sown(int in_ground, int first_cut, int days = 21) {
  return {.start = {.in_ground = in_ground},
          .first_cut = first_cut,
          .lift_from = first_cut + days - 1,
          .lift_to = first_cut + days - 1,
          .sown = in_ground};
}

Crop crop_of(int window_first, int window_last, int first_allowed, std::vector<Sown> starts,
             int days = 21) {
  for (Sown& start : starts) {
    start.start.window_first = window_first;
    start.start.window_last = window_last;
    start.start.first_allowed = first_allowed;
  }
  return {.starts = std::move(starts), .curves = {each_day(days)}};
}

void two_kinds_of_six_in_weeks_16_to_18(Weeks& weeks) {
  for (const int week : {16, 17, 18}) weeks.others[week] = {{Part::Main, 6}, {Part::Main, 6}};
}

struct Answer {
  std::vector<int> in_ground, lifts;
  std::int64_t hundredths = 0;
  bool operator==(const Answer&) const = default;
};

Answer answer(Case& example) {
  const Solution solution = example.choose();
  Answer result{.hundredths = solution.score.value};
  for (std::size_t i = 0; i < solution.picks.size(); ++i) {
    if (!solution.picks[i]) continue;
    result.in_ground.push_back(example.crops[i].starts[solution.picks[i]->option].start.in_ground);
    result.lifts.push_back(solution.picks[i]->lift);
  }
  return result;
}

std::ostream& operator<<(std::ostream& out, const Answer& a) {
  for (std::size_t i = 0; i < a.lifts.size(); ++i) {
    out << "in the ground " << a.in_ground[i] << ", lifted " << a.lifts[i] << "; ";
  }
  return out << a.hundredths;
}

// The week's others leave nothing before day 133, but a start on day 100 is late by choice.
TEST(WorkedExamples, FreeGroundDoesNotWaitBeyondItsWindow) {
  Case one = example();
  two_kinds_of_six_in_weeks_16_to_18(one.weeks);
  one.crops = {crop_of(70, 90, 80, {sown(80, 112), sown(100, 133)})};
  EXPECT_EQ(answer(one), (Answer{{80}, {132}, -842}));
  // Pinned: ten days late, 0.85 of a stem a day, 5.95 a week in weeks that have nothing else.
  one.crops[0].starts.erase(one.crops[0].starts.begin());
  one.crops[0].starts[0].start.pinned = true;
  EXPECT_EQ(answer(one), (Answer{{100}, {153}, 1148}));
}

TEST(WorkedExamples, HandOver) {
  Case two = example();
  Sown first = sown(0, 105);
  first.lift_from = 118;
  two.crops = {
      crop_of(0, 20, 0, {first}),
      crop_of(60, 110, 60, {sown(125, 161), sown(132, 168), sown(139, 175), sown(153, 189)})};
  EXPECT_EQ(answer(two), (Answer{{0, 132}, {125, 188}, 3017}));
}

// The last of three starts would give most, but its ground would lie bare for seven weeks.
TEST(WorkedExamples, Waiting) {
  Case three = example();
  two_kinds_of_six_in_weeks_16_to_18(three.weeks);
  three.crops = {crop_of(70, 130, 77, {sown(77, 112), sown(98, 133), sown(119, 147)})};
  EXPECT_EQ(answer(three), (Answer{{98}, {153}, 1241}));
}

TEST(WorkedExamples, AMainCropBesideFillers) {
  Case four = example();
  for (const int week : {16, 17, 18}) four.weeks.others[week] = {{Part::Filler, 20}};
  four.crops = {crop_of(70, 90, 80, {sown(80, 112)})};
  four.crops[0].curves = {each_day(21, 6.0 / 7)};
  EXPECT_EQ(answer(four), (Answer{{80}, {132}, 1153}));
  four.crops[0].part = Part::Filler;
  EXPECT_EQ(answer(four), (Answer{{80}, {132}, -683}));
}

TEST(WorkedExamples, NextYearsFlowersAreThreeWeeksLateAtMost) {
  Case five = example(0.5);
  five.crops = {crop_of(0, 10, 0, {sown(0, 11, 7)}, 7),
                crop_of(10, 20, 10, {sown(31, 112, 14), sown(45, 112, 14)}, 14)};
  for (Sown& start : five.crops[1].starts) start.start.flowers_next_year = true;
  EXPECT_EQ(answer(five), (Answer{{0, 31}, {17, 125}, 1066}));
}

// ---- Brute force by the words of the rules. Nothing below uses Score, Free, Summer, Beside or
// place_weight.

// A score written so that the smaller is the better, field by field.
using Tally = std::array<long long, 6>;

Tally tally(const Score& s) {
  return {s.left_out, -s.value, s.taste.off_middle, s.taste.way_rank, s.taste.start, -s.taste.lift};
}

void add(Tally& sum, const Tally& more) {
  for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += more[i];
}

double late_or_last_weight(const Start& start) {
  const int late = start.in_ground - start.window_last;
  if (late > 0) return std::max(0.3, 0.9 - 0.005 * late);
  const double share = 1.0 * (start.in_ground - start.window_first) /
                       std::max(1, start.window_last - start.window_first);
  if (share <= 0.75) return 1;
  return start.flowers_next_year ? 0.9 : 0.97;
}

// Every subset, way, date and lift there is.
class BruteForce {
 public:
  explicit BruteForce(const Case& problem) : case_(problem) {
    for (const Crop& crop : problem.crops) {
      choices_.emplace_back();
      for (std::size_t i = 0; i < crop.starts.size(); ++i) {
        const Sown& sown = crop.starts[i];
        for (int lift = sown.lift_from; lift <= sown.lift_to; ++lift) {
          const double hundredths = 100 * worth(crop, sown, lift);
          on_edge_ |= std::abs(hundredths - std::floor(hundredths) - 0.5) < 1e-6;
          choices_.back().push_back(
              {&sown,
               lift,
               {0, -std::llround(hundredths), sown.off_middle, sown.way_rank, sown.sown, -lift}});
        }
      }
    }
  }

  // Whether half a hundredth had to be rounded somewhere: two ways of adding up may then differ.
  bool on_edge() const { return on_edge_; }

  Tally best() {
    best_.fill(1'000'000'000);
    from(0, case_.ground.free_on, {});
    return best_;
  }

  // The same picks' score; fails where they break a rule.
  Tally of(const Solution& solution) const {
    Tally sum{};
    int free = case_.ground.free_on;
    for (std::size_t i = 0; i < solution.picks.size(); ++i) {
      if (!solution.picks[i]) {
        ++sum[0];
        continue;
      }
      const Sown& sown = case_.crops[i].starts.at(solution.picks[i]->option);
      const int lift = solution.picks[i]->lift;
      EXPECT_TRUE(allowed(sown.start, free)) << "crop " << i;
      EXPECT_TRUE(lift >= sown.lift_from && lift <= sown.lift_to);
      for (const Choice& choice : choices_[i]) {
        if (choice.sown == &sown && choice.lift == lift) add(sum, choice.gain);
      }
      sum[1] += bare_until(sown.start.in_ground) - bare_until(free);
      free = lift + case_.ground.gap;
    }
    sum[1] += bare_until(case_.ground.horizon + 1) - bare_until(free);
    return sum;
  }

 private:
  struct Choice {
    const Sown* sown;
    int lift;
    Tally gain;
  };

  double summer_weeks(int day) const {
    const auto [from, until] = case_.ground.summer;
    return (std::min(std::max(day, from), until) - from) / 7.0;
  }

  // Nothing is counted after the horizon.
  long long bare_until(int day) const {
    const int counted = std::min(day, case_.ground.horizon + 1);
    return std::llround(100 * case_.ground.area_m2 * summer_weeks(counted));
  }

  bool allowed(const Start& s, int free) const {
    if (free > s.in_ground) return false;
    if (s.pinned) return true;
    if (s.in_ground <= s.window_last) {
      return summer_weeks(s.in_ground) - summer_weeks(free) < 6 + 1e-9 ||
             s.in_ground <= s.first_allowed + 14;
    }
    if (s.in_ground > s.window_last + (s.flowers_next_year ? 21 : 70)) return false;
    if (s.first_allowed > s.window_last && s.in_ground <= s.first_allowed + 14) return true;
    return s.in_ground <= free + 14;
  }

  double worth(const Crop& crop, const Sown& sown, int lift) const {
    std::map<int, double> weekly;
    const std::vector<double>& curve = crop.curves.at(sown.curve);
    for (int day = sown.first_cut; day <= lift; ++day) {
      const auto index = static_cast<std::size_t>(day - sown.first_cut);
      if (index >= curve.size()) break;
      weekly[day / 7] += sown.stems * sown.way * late_or_last_weight(sown.start) * curve[index];
    }
    double sum = 0;
    for (const auto& [week, stems] : weekly) {
      if (!case_.weeks.wish) {
        sum += stems;
        continue;
      }
      std::vector<Kind> kinds = case_.weeks.others_at(week);
      kinds.push_back({crop.part, case_.weeks.own_at(week)});
      const double without = harvest::vase(case_.weeks.at(week), kinds).value;
      kinds.back().stems += stems;
      sum += harvest::vase(case_.weeks.at(week), kinds).value - without;
    }
    return sum;
  }

  void from(std::size_t crop, int free, const Tally& sum) {
    if (crop == choices_.size()) {
      Tally end = sum;
      end[1] += bare_until(case_.ground.horizon + 1) - bare_until(free);
      best_ = std::min(best_, end);
      return;
    }
    Tally without = sum;
    ++without[0];
    from(crop + 1, free, without);
    for (const Choice& choice : choices_[crop]) {
      const int in_ground = choice.sown->start.in_ground;
      if (in_ground > case_.ground.horizon || !allowed(choice.sown->start, free)) continue;
      Tally with = sum;
      add(with, choice.gain);
      with[1] += bare_until(in_ground) - bare_until(free);
      from(crop + 1, choice.lift + case_.ground.gap, with);
    }
  }

  const Case& case_;
  std::vector<std::vector<Choice>> choices_;
  Tally best_{};
  bool on_edge_ = false;
};

// Chains drawn from a seed. Half of them of round numbers, so that many choices are worth the same
// and the later fields of the score decide.
class Drawn {
 public:
  explicit Drawn(unsigned seed) : random_(seed), round_(seed % 2 == 0) {
    constexpr std::array kGaps{0, 1, 7, 7, 14};
    StretchGround& ground = drawn.ground;
    ground.gap = kGaps[static_cast<std::size_t>(below(5))];
    ground.free_on = below(2) == 0 ? 0 : below(50);
    ground.area_m2 = round_ ? 1 : 0.3 + 2 * part();
    ground.summer = {below(40), 60 + below(100)};
    // Days from crop to crop: tight, so that some must be left out.
    const int pace = 10 + below(50);
    const int crops = 1 + below(3);
    for (int i = 0; i < crops; ++i) drawn.crops.push_back(crop(ground.free_on + i * pace));
    // Now and then the count of days ends among the crops.
    ground.horizon = below(8) == 0 ? pace * crops : 400;
    weeks();
  }

  Case drawn;

 private:
  int below(int limit) { return static_cast<int>(random_() % static_cast<unsigned>(limit)); }
  double part() { return static_cast<double>(random_()) / 4294967296.0; }

  std::vector<double> curve() {
    std::vector<double> shares;
    const int days = 1 + below(24);
    for (int day = 0; day < days; ++day) shares.push_back(round_ ? 0.25 * below(3) : part());
    return shares;
  }

  // The days on which a way keeps the rules, with pauses in them, and starts on some of them.
  Crop crop(int about) {
    Crop result{.part = below(3) == 0 ? Part::Filler : Part::Main};
    result.curves = {curve(), curve()};
    const int window_first = about - below(20);
    const int window_last = window_first + below(60);
    const bool next_year = below(4) == 0;
    int first_allowed = 0, last = -1000;
    for (int day = about; day < about + 100; day += below(4) == 0 ? 5 + below(20) : 1 + below(6)) {
      if (day - last > 7) first_allowed = day;
      last = day;
      if (below(3) != 0 || result.starts.size() == 7) continue;
      result.starts.push_back(start(day));
      result.starts.back().start = {day,           window_first, window_last,
                                    first_allowed, next_year,    below(10) == 0};
    }
    return result;
  }

  Sown start(int in_ground) {
    Sown sown;
    sown.sown = in_ground - 7 * below(3);
    sown.first_cut = in_ground + 8 + below(round_ ? 3 : 25);
    sown.lift_from = sown.first_cut + below(14);
    sown.lift_to = sown.lift_from + below(7);
    sown.off_middle = below(3);
    sown.way_rank = below(3);
    sown.way = sown.way_rank == 0 ? 1 : 0.97;
    sown.stems = round_ ? 4.0003 : 1 + 5 * part();  // no worth is just half a hundredth
    sown.curve = static_cast<std::size_t>(below(2));
    return sown;
  }

  void weeks() {
    Weeks& weeks = drawn.weeks;
    weeks.wish = below(4) != 0;
    const bool mixed = below(5) != 0;
    for (int week = 5 + below(20); week > 0; --week) {
      weeks.wanted.push_back({below(3) == 0 ? 0.0 : below(30), mixed});
      const int number = static_cast<int>(weeks.wanted.size()) - 1;
      for (int kinds = below(3); kinds > 0; --kinds) {
        weeks.others[number].push_back(
            {below(2) == 0 ? Part::Filler : Part::Main, 1.0 * below(20)});
      }
      if (below(3) == 0) weeks.own[number] = below(8);
    }
  }

  std::mt19937 random_;
  bool round_;
};

TEST(Programme, IsExactOnDrawnChains) {
  int left_out = 0, pinned = 0, next_year = 0, soon = 0, near = 0, later_ground = 0, on_edge = 0;
  for (unsigned seed = 0; seed < 2000; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Drawn chain(seed);
    const Solution solution = chain.drawn.choose();
    BruteForce brute(chain.drawn);
    if (brute.on_edge()) {
      ++on_edge;
      EXPECT_NEAR(static_cast<double>(brute.best()[1]), static_cast<double>(brute.of(solution)[1]),
                  static_cast<double>(chain.drawn.crops.size()));
      EXPECT_EQ(brute.best()[0], solution.score.left_out);
      continue;
    }
    EXPECT_EQ(brute.of(solution), tally(solution.score));
    EXPECT_EQ(brute.best(), tally(solution.score));
    left_out += solution.score.left_out > 0;
    for (std::size_t i = 0; i < solution.picks.size(); ++i) {
      if (!solution.picks[i]) continue;
      const Start& start = chain.drawn.crops[i].starts[solution.picks[i]->option].start;
      pinned += start.pinned;
      next_year += start.flowers_next_year;
      soon += free_before(start) == Free::Soon;
      near += free_before(start) == Free::Near;
    }
    later_ground += chain.drawn.ground.free_on > 0;
  }
  // The draw is worth nothing where a rule is never met.
  EXPECT_LT(on_edge, 20);
  EXPECT_GT(left_out, 300);
  EXPECT_GT(pinned, 200);
  EXPECT_GT(next_year, 200);
  EXPECT_GT(soon, 200);
  EXPECT_GT(near, 200);
  EXPECT_GT(later_ground, 500);
}

// ---- Single rules.

struct TieRow {
  std::string name;
  Sown better, worse;
};

// In each row the better option loses in every field that comes after the one that decides.
TEST(Programme, BreaksTiesInTheirOrder) {
  const auto start = [](int off_middle, int way_rank, int day, int lift, std::size_t curve = 0) {
    Sown result = sown(30, 40);
    result.start.window_last = 60;
    result.off_middle = off_middle;
    result.way_rank = way_rank;
    result.sown = day;
    result.lift_from = result.lift_to = lift;
    result.curve = curve;
    return result;
  };
  const std::vector<TieRow> rows = {
      {"most stems", start(9, 9, 30, 53, 1), start(0, 0, 0, 60)},
      {"nearest the middle of its window", start(3, 9, 30, 53), start(4, 0, 0, 60)},
      {"the sheet's first way", start(3, 1, 30, 53), start(3, 2, 0, 60)},
      {"earlier start", start(3, 1, 20, 53), start(3, 1, 21, 60)},
      // Both after the last stem and before the summer, so worth the same.
      {"later lift", start(3, 1, 20, 60), start(3, 1, 20, 53)},
  };
  for (const TieRow& row : rows) {
    SCOPED_TRACE(row.name);
    const auto chosen = [](const Sown& first, const Sown& second) {
      Case one;
      one.weeks.wish = false;
      one.crops = {{.starts = {first, second}, .curves = {each_day(14, 10), each_day(14, 11)}}};
      return one.choose().picks[0]->option;
    };
    EXPECT_EQ(chosen(row.better, row.worse), 0u);
    EXPECT_EQ(chosen(row.worse, row.better), 1u);
    EXPECT_EQ(chosen(row.better, row.better), 0u) << "of equals the first in the list";
  }
}

// Leaving the first crop out would give more; fewest left out comes first.
TEST(Programme, LeavesOutOnlyWhatHasNoGround) {
  Case one;
  one.weeks.wish = false;
  one.crops = {crop_of(0, 200, 0, {sown(5, 20, 7)}, 7),
               crop_of(0, 200, 0, {sown(32, 50, 14), sown(33, 40, 14)}, 14)};
  one.crops[1].curves = {each_day(14, 20)};
  one.crops[1].starts[1].stems = 0.01;
  EXPECT_EQ(answer(one).in_ground, (std::vector<int>{5, 33}));
  one.crops[1].starts.pop_back();
  EXPECT_EQ(answer(one).in_ground, (std::vector<int>{32}));
  EXPECT_EQ(one.choose().score.left_out, 1);
}

// Ground that falls free only on day 90 was not left bare by choice before: a start on day 110 may
// wait, and only from day 90 on is it charged.
TEST(Programme, BareGroundCountsFromTheDayTheGroundIsThere) {
  Case one = example();
  one.crops = {crop_of(70, 130, 70, {sown(125, 140)})};
  EXPECT_EQ(one.choose().score.left_out, 1) << "55 days of summer, 55 days after the first";
  one.ground.free_on = 90;
  // Lifted on day 160, free on 167. In the window's last quarter 7 stems count 6.79 in each of
  // three weeks, six of them usable: 3 x (0.85 x 8 + 0.15 x 6.79); bare for 35 days before and 43
  // after.
  EXPECT_EQ(answer(one), (Answer{{125}, {160}, 2346 - 500 - 614}));
  one.ground.free_on = 126;
  EXPECT_EQ(one.choose().score.left_out, 1);
}

// The sowings of a stream wait for their strips: on the mean of three strips 14 days of summer.
TEST(Programme, StripsThatWaitAreBare) {
  Case one = example();
  one.crops = {crop_of(70, 130, 80, {sown(80, 112)})};
  const std::int64_t together = one.choose().score.value;
  auto options = std::make_shared<Options>(*one.ground.crops[0].options);
  options->list[0].strips_wait_days = 14;
  one.ground.crops[0].options = options;
  const WeekWorths weekly = worths(one.weeks, Part::Main);
  EXPECT_EQ(best_choice(one.ground, {weekly}).score.value, together - 200);
  EXPECT_DOUBLE_EQ(bare_before(one.ground, 73, options->list[0]), 3);
  EXPECT_DOUBLE_EQ(bare_after(one.ground, 203), 1);
}

TEST(Programme, ACropWithoutOptionsIsLeftOut) {
  Case one = example();
  one.crops = {{}, crop_of(70, 130, 80, {sown(80, 112)}), {}};
  const Solution solution = one.choose();
  EXPECT_FALSE(solution.picks[0]);
  EXPECT_TRUE(solution.picks[1]);
  EXPECT_FALSE(solution.picks[2]);
  EXPECT_EQ(solution.score.left_out, 2);
  EXPECT_TRUE(Case().choose().picks.empty());
}

}  // namespace
}  // namespace trug::ground
