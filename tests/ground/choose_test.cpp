// SPDX-License-Identifier: MIT
#include "ground/choose.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace trug::ground::by_sum {
namespace {

// The test's own reckoning. Nothing below uses Score's operators or value_of.

// A score written so that the smaller is the better, field by field.
using Tally = std::array<long long, 6>;

Tally tally(const Score& score) {
  return {score.left_out, -score.value, score.off_middle, score.way_rank, score.start, -score.lift};
}

void add(Tally& sum, const Tally& more) {
  for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += more[i];
}

// Weighted stems by week, week 0 from day 0.
using Weeks = std::map<int, double>;

void count_stems(const Option& option, int lift, Weeks& weeks) {
  for (int i = 0; i < static_cast<int>(option.shares->size()); ++i) {
    const int day = option.first_cut + i;
    if (day > lift) continue;
    weeks[(day - day % 7) / 7] +=
        option.shares->at(static_cast<std::size_t>(i)) * option.plants * option.weight;
  }
}

// In full up to what the week wants, the rest a twentieth.
double worth(const Weeks& weeks, const Problem& problem) {
  double sum = 0;
  for (const auto& [week, stems] : weeks) {
    if (!problem.wanted) {
      sum += stems;
      continue;
    }
    const auto index = static_cast<std::size_t>(week);
    const double wanted = index < problem.wanted->size() ? problem.wanted->at(index) : 0;
    sum += stems <= wanted ? stems : wanted + (stems - wanted) / 20;
  }
  return sum;
}

Tally tally_of(const Option& option, int lift, const Problem& problem) {
  Weeks weeks;
  count_stems(option, lift, weeks);
  return {0,
          -std::llround(100 * worth(weeks, problem)),
          option.off_middle,
          option.way_rank,
          option.start,
          -lift};
}

// Judges an answer without searching: order, gap, lift within its range, and the score from
// scratch.
void check(const Problem& problem, const Solution& solution) {
  ASSERT_EQ(solution.picks.size(), problem.crops.size());
  Tally sum{};
  Weeks weeks;
  int free = 0;
  for (std::size_t crop = 0; crop < problem.crops.size(); ++crop) {
    const auto& pick = solution.picks[crop];
    if (!pick) {
      add(sum, {1, 0, 0, 0, 0, 0});
      continue;
    }
    ASSERT_LT(pick->option, problem.crops[crop].size());
    const Option& option = problem.crops[crop][pick->option];
    EXPECT_GE(option.in_ground, free) << "crop " << crop << " before the ground is free";
    EXPECT_GE(pick->lift, option.lift_from);
    EXPECT_LE(pick->lift, option.lift_to);
    free = pick->lift + problem.gap;
    add(sum, tally_of(option, pick->lift, problem));
    count_stems(option, pick->lift, weeks);
  }
  EXPECT_EQ(tally(solution.score), sum);
  // The weeks of the whole chain together are worth the sum of its crops: two never share a week.
  EXPECT_NEAR(worth(weeks, problem), static_cast<double>(solution.score.value) / 100,
              0.005 * static_cast<double>(problem.crops.size()) + 1e-9);
}

// Every subset, way, date and lift there is.
class BruteForce {
 public:
  explicit BruteForce(const Problem& problem) : problem_(problem) {
    for (const auto& options : problem.crops) {
      ways_.emplace_back();
      for (const Option& option : options) {
        for (int lift = option.lift_from; lift <= option.lift_to; ++lift) {
          ways_.back().push_back({option.in_ground, lift, tally_of(option, lift, problem)});
        }
      }
    }
  }

  Tally best() {
    best_.fill(1'000'000'000);
    from(0, 0, {});
    return best_;
  }

 private:
  struct Choice {
    int in_ground, lift;
    Tally gain;
  };

  void from(std::size_t crop, int free, const Tally& sum) {
    if (crop == ways_.size()) {
      best_ = std::min(best_, sum);
      return;
    }
    Tally without = sum;
    ++without[0];
    from(crop + 1, free, without);
    for (const Choice& choice : ways_[crop]) {
      if (choice.in_ground < free || choice.in_ground > problem_.horizon) continue;
      Tally with = sum;
      add(with, choice.gain);
      from(crop + 1, choice.lift + problem_.gap, with);
    }
  }

  const Problem& problem_;
  std::vector<std::vector<Choice>> ways_;
  Tally best_{};
};

// Chains drawn from a seed. Half of them of round numbers, so that many choices are worth the same
// and the later fields of the score decide.
class Drawn {
 public:
  explicit Drawn(unsigned seed) : random_(seed), round_(seed % 2 == 0) {
    for (auto& shares : pool_) {
      const int days = 1 + below(24);
      for (int day = 0; day < days; ++day) shares.push_back(round_ ? 0.25 * below(3) : part());
    }
    constexpr std::array kGaps{0, 1, 7, 7, 14};
    problem.gap = kGaps[static_cast<std::size_t>(below(5))];
    const int pace =
        10 + below(50);  // days from crop to crop: tight, so that some must be left out
    const int crops = 1 + below(3);
    for (int crop = 0; crop < crops; ++crop) problem.crops.push_back(options(crop * pace));
    // Now and then the count of days ends among the crops.
    problem.horizon = below(8) == 0 ? pace * crops : 400;
    if (below(3) != 0) problem.wanted = wanted();
  }

  Problem problem;

 private:
  int below(int limit) { return static_cast<int>(random_() % static_cast<unsigned>(limit)); }
  double part() { return static_cast<double>(random_()) / 4294967296.0; }

  double weight() {
    const int third = below(3);
    return third == 0 ? 0.8 : third == 1 && !round_ ? 0.95 : 1;
  }

  std::vector<Option> options(int about) {
    std::vector<Option> list(static_cast<std::size_t>(below(7)));
    for (Option& option : list) {
      option.in_ground = about + below(30);
      option.start = option.in_ground - 7 * below(3);
      option.first_cut = option.in_ground + 8 + below(round_ ? 3 : 25);
      option.lift_from = option.first_cut + below(14);
      option.lift_to = option.lift_from + below(7);
      option.off_middle = below(3);
      option.way_rank = below(3);
      option.weight = weight();
      option.plants = round_ ? 20 : 1 + 20 * part();
      option.shares = &pool_[static_cast<std::size_t>(below(static_cast<int>(pool_.size())))];
    }
    return list;
  }

  std::vector<double> wanted() {
    std::vector<double> weeks(static_cast<std::size_t>(5 + below(40)));
    for (double& stems : weeks) stems = below(3) == 0 ? 0 : below(60);
    return weeks;
  }

  std::mt19937 random_;
  bool round_;
  std::array<std::vector<double>, 3> pool_;
};

TEST(Choose, IsExactOnDrawnChains) {
  int with_left_out = 0, with_wish = 0;
  for (unsigned seed = 0; seed < 2000; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Drawn drawn(seed);
    const Solution solution = choose(drawn.problem);
    check(drawn.problem, solution);
    EXPECT_EQ(tally(solution.score), BruteForce(drawn.problem).best());
    with_left_out += solution.score.left_out > 0;
    with_wish += drawn.problem.wanted.has_value();
  }
  // The draw is worth nothing if ground is never short or the wish never there.
  EXPECT_GT(with_left_out, 500);
  EXPECT_GT(with_wish, 1000);
}

// Ten stems a day for a week, or as many days as asked.
std::vector<double> daily(int days, double stems) {
  return std::vector<double>(static_cast<std::size_t>(days), stems);
}

struct ValueRow {
  std::string name;
  int first_cut, lift;
  double weight;
  std::optional<std::vector<double>> wanted;
  std::int64_t hundredths;
};

// Twelve days of ten stems from the first cut. Weeks begin on days 0, 7, 14, 21, 28.
TEST(ValueOf, HandWorked) {
  const std::vector<double> shares = daily(12, 10);
  const std::vector<ValueRow> rows = {
      // 7 x 10 stems in week 2; 30 in full and 40 / 20 = 2.
      {"surplus is worth a twentieth", 14, 20, 1, {{0, 0, 30}}, 3200},
      // 70 / 20 = 3.5.
      {"a week that wants none", 14, 20, 1, {{0, 0, 0, 50}}, 350},
      {"a week beyond the count of the wish", 14, 20, 1, {{50}}, 350},
      {"without a wish all in full", 14, 20, 1, {}, 7000},
      {"exactly what is wanted", 14, 20, 1, {{0, 0, 70}}, 7000},
      // 70 x 0.8 = 56 before the minimum: 30 + 26 / 20 = 31.3.
      {"outside the window, more than wanted", 14, 20, 0.8, {{0, 0, 30}}, 3130},
      {"outside the window, less than wanted", 14, 20, 0.8, {{0, 0, 60}}, 5600},
      // 70 x 0.95 = 66.5.
      {"outside the middle half", 14, 20, 0.95, {}, 6650},
      // Days 18 to 20 in week 2: 10 + 20 / 20 = 11; days 21 to 23 in week 3: 30.
      {"each week by itself", 18, 23, 1, {{0, 0, 10, 100}}, 4100},
      // The day of the lift counts: days 14, 15 and 16.
      {"up to and including the lift", 14, 16, 1, {}, 3000},
      // Twelve days of flower, however late the lift: days 14 to 20 and 21 to 25.
      {"no stems after the last", 14, 60, 1, {{0, 0, 100, 20}}, 7000 + 2000 + 150},
      {"lifted before the first cut", 14, 13, 1, {}, 0},
  };
  for (const ValueRow& row : rows) {
    SCOPED_TRACE(row.name);
    const Problem problem{.horizon = 100, .wanted = row.wanted};
    const Option option{.first_cut = row.first_cut, .weight = row.weight, .shares = &shares};
    EXPECT_EQ(value_of(option, row.lift, problem), row.hundredths);
  }
}

struct TieRow {
  std::string name;
  Option better, worse;
};

// In each row the better option loses in every field that comes after the one that decides.
TEST(Choose, BreaksTiesInTheirOrder) {
  const std::vector<double> ten = daily(14, 10), eleven = daily(14, 11);
  const auto option = [&](int off_middle, int way_rank, int start, int lift,
                          const std::vector<double>& shares) {
    return Option{.start = start,
                  .in_ground = 30,
                  .first_cut = 40,
                  .lift_from = lift,
                  .lift_to = lift,
                  .off_middle = off_middle,
                  .way_rank = way_rank,
                  .shares = &shares};
  };
  const std::vector<TieRow> rows = {
      {"most stems", option(9, 9, 30, 53, eleven), option(0, 0, 0, 60, ten)},
      {"nearest the middle of its window", option(3, 9, 30, 53, ten), option(4, 0, 0, 60, ten)},
      {"the sheet's first way", option(3, 1, 30, 53, ten), option(3, 2, 0, 60, ten)},
      {"earlier start", option(3, 1, 20, 53, ten), option(3, 1, 21, 60, ten)},
      // Both after the last stem, so worth the same.
      {"later lift", option(3, 1, 20, 60, ten), option(3, 1, 20, 53, ten)},
  };
  for (const TieRow& row : rows) {
    SCOPED_TRACE(row.name);
    const auto chosen = [](const Option& first, const Option& second) {
      return choose({.crops = {{first, second}}, .horizon = 200}).picks[0]->option;
    };
    EXPECT_EQ(chosen(row.better, row.worse), 0u);
    EXPECT_EQ(chosen(row.worse, row.better), 1u);
    EXPECT_EQ(chosen(row.better, row.better), 0u) << "of equals the first in the list";
  }
}

// The first crop gives a stem a day from day 20 to day 49; the second, thirty stems, needs the
// ground on day 37. Lifted on day 30 the first gives 11 stems and the ground is free on day 37.
TEST(Choose, LiftsEarlyForTheNextCrop) {
  const std::vector<double> first = daily(30, 1), second = daily(15, 2);
  const Option early{
      .in_ground = 5, .first_cut = 20, .lift_from = 26, .lift_to = 49, .shares = &first};
  const Option late{.start = 37,
                    .in_ground = 37,
                    .first_cut = 60,
                    .lift_from = 74,
                    .lift_to = 74,
                    .shares = &second};
  const Solution solution = choose({.crops = {{early}, {late}}, .gap = 7, .horizon = 200});
  ASSERT_TRUE(solution.picks[0] && solution.picks[1]);
  EXPECT_EQ(solution.picks[0]->lift, 30);
  EXPECT_EQ(solution.score.value, 100 * (11 + 30));
  EXPECT_EQ(solution.score.left_out, 0);
}

// Twenty stems a day more would be had by leaving the first crop out; fewest left out comes first.
// One day less of ground between them and the first must go: it is worth less.
TEST(Choose, LeavesOutOnlyWhatHasNoGround) {
  const std::vector<double> few = daily(7, 1), many = daily(14, 20);
  const Option small{
      .in_ground = 5, .first_cut = 20, .lift_from = 26, .lift_to = 26, .shares = &few};
  const Option rich{
      .in_ground = 32, .first_cut = 50, .lift_from = 63, .lift_to = 63, .shares = &many};
  Option poor = rich;
  poor.in_ground = 33;
  poor.weight = 0.05;
  const Solution both = choose({.crops = {{small}, {rich, poor}}, .gap = 7, .horizon = 200});
  ASSERT_TRUE(both.picks[0] && both.picks[1]);
  EXPECT_EQ(both.picks[1]->option, 1u);
  EXPECT_EQ(both.score.value, 100 * (7 + 14));
  const Solution one = choose({.crops = {{small}, {rich}}, .gap = 7, .horizon = 200});
  EXPECT_FALSE(one.picks[0]);
  ASSERT_TRUE(one.picks[1]);
  EXPECT_EQ(one.score.left_out, 1);
  EXPECT_EQ(one.score.value, 100 * 280);
}

TEST(Choose, KeepsTheGapWhereTheCountOfDaysEnds) {
  const std::vector<double> shares = daily(7, 1);
  const Option first{
      .in_ground = 5, .first_cut = 20, .lift_from = 98, .lift_to = 98, .shares = &shares};
  const Option second{
      .in_ground = 100, .first_cut = 110, .lift_from = 120, .lift_to = 120, .shares = &shares};
  const Problem problem{.crops = {{first}, {second}}, .gap = 7, .horizon = 100};
  const Solution solution = choose(problem);
  check(problem, solution);
  EXPECT_EQ(solution.score.left_out, 1);
}

TEST(Choose, ACropWithoutOptionsIsLeftOut) {
  const std::vector<double> shares = daily(7, 1);
  const Option only{
      .in_ground = 5, .first_cut = 20, .lift_from = 26, .lift_to = 26, .shares = &shares};
  const Solution solution = choose({.crops = {{}, {only}, {}}, .horizon = 100});
  EXPECT_FALSE(solution.picks[0]);
  EXPECT_TRUE(solution.picks[1]);
  EXPECT_FALSE(solution.picks[2]);
  EXPECT_EQ(solution.score.left_out, 2);
  EXPECT_TRUE(choose({.horizon = 10}).picks.empty());
}

}  // namespace
}  // namespace trug::ground::by_sum
