// SPDX-License-Identifier: MIT
#include "harvest/vase.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <string>
#include <vector>

namespace trug::harvest {
namespace {

struct Row {
  std::string name;
  std::vector<Kind> kinds;
  double usable;
  WeekState state;
  std::vector<Lack> lacks;
  bool mixed = true;
};

constexpr Kind main_of(double stems) { return {Part::Main, stems}; }
constexpr Kind filler_of(double stems) { return {Part::Filler, stems}; }

// Twelve stems are wanted.
TEST(Vase, HandWorked) {
  using enum Lack;
  using enum WeekState;
  const std::vector<Row> rows = {
      {"nothing", {}, 0, Short, {Stems}},
      {"one kind is half a vase", {main_of(40)}, 6, Half, {Filler, Kind}},
      {"two kinds", {main_of(6), main_of(9)}, 12, Full, {}},
      {"a main kind and a filler", {main_of(6), filler_of(20)}, 12, Full, {}},
      // Filler 6 with nothing to go with: half of each stem.
      {"one filler", {filler_of(20)}, 3, Short, {Main, Kind}},
      // 0.6 x 12 = 7.2 at most, half of it.
      {"fillers alone", {filler_of(6), filler_of(6)}, 3.6, Short, {Main}},
      // One main stem carries three fillers, the other three count half: 1 + 3 + 1.5.
      {"a main stem carries three", {main_of(1), filler_of(6)}, 5.5, Short, {Main, Stems}},
      // 3 + 7.2: more filler than has room.
      {"room for fillers", {main_of(3), filler_of(6), filler_of(6)}, 10.2, Half, {Main}},
      {"two kinds, few", {main_of(3), main_of(2)}, 5, Short, {Filler, Stems}},
      {"few of all", {main_of(3), filler_of(4)}, 7, Half, {Stems}},
      {"bunches of one kind", {main_of(12)}, 12, Full, {}, false},
      {"bunches of filler", {filler_of(9)}, 9, Half, {Stems}, false},
  };
  for (const Row& row : rows) {
    SCOPED_TRACE(row.name);
    const Vase result = vase({12, row.mixed}, row.kinds);
    EXPECT_NEAR(result.usable, row.usable, 1e-9);
    EXPECT_EQ(result.state(), row.state);
    EXPECT_EQ(result.lacks, row.lacks);
  }
}

// 0.85 of the usable stems, the first half twice, and 0.15 of all: with 6 of 12 usable they count
// 8, with 12 of 12 they count 12, with 9 of 12 they count 10.
TEST(Vase, WorthsOfAWeek) {
  const auto value = [](double wanted, std::vector<Kind> kinds) {
    return vase({wanted}, kinds).value;
  };
  EXPECT_NEAR(value(12, {main_of(7)}), 0.85 * 8 + 0.15 * 7, 1e-9);
  EXPECT_NEAR(value(12, {main_of(6), main_of(6)}), 12, 1e-9);
  EXPECT_NEAR(value(12, {main_of(5), main_of(4)}), 0.85 * 10 + 0.15 * 9, 1e-9);
  EXPECT_NEAR(value(0, {main_of(10)}), 1.5, 1e-9);
}

// The sum of halves and thirds of stems is not always the whole that it should be.
TEST(Vase, AHairShortIsNotShort) {
  const std::vector<Kind> tenths(120, main_of(0.1));
  const Vase result = vase({12}, tenths);
  EXPECT_NE(result.usable, 12) << "the case shows nothing if the sum happens to be whole";
  EXPECT_EQ(result.state(), WeekState::Full);
  EXPECT_TRUE(result.lacks.empty());
}

// Every week of up to two main kinds and two fillers in steps of a stem and a half.
TEST(Vase, SomethingIsLackingExactlyWhereTheWeekIsNotFull) {
  for (const bool mixed : {true, false}) {
    for (int i = 0; i < 10'000; ++i) {
      const std::vector<Kind> kinds = {main_of(1.5 * (i % 10)), main_of(1.5 * (i / 10 % 10)),
                                       filler_of(1.5 * (i / 100 % 10)),
                                       filler_of(1.5 * (i / 1000))};
      const Vase result = vase({12, mixed}, kinds);
      EXPECT_EQ(result.lacks.empty(), result.state() == WeekState::Full) << i;
      EXPECT_LE(result.usable, std::min(12.0, result.stems) + 1e-9);
    }
  }
}

// More of anything is never worth less, and the next stem never more than the one before it.
TEST(Vase, WorthRisesEverMoreSlowly) {
  for (int i = 0; i < 1000; ++i) {
    const std::vector<Kind> others = {main_of(1.5 * (i % 10)), filler_of(1.5 * (i / 10 % 10)),
                                      filler_of(1.5 * (i / 100))};
    for (const Part part : {Part::Main, Part::Filler}) {
      double before = 0, step = 1e9;
      for (int stems = 0; stems <= 20; ++stems) {
        std::vector<Kind> kinds = others;
        kinds.push_back({part, 1.0 * stems});
        const double now = vase({12}, kinds).value;
        if (stems > 0) {
          EXPECT_GE(now, before) << i;
          EXPECT_LE(now - before, step + 1e-9) << i;
          step = now - before;
        }
        before = now;
      }
    }
  }
}

// What further stems gain is the difference that they make to the whole week.
TEST(Beside, GainIsTheWeeksDifference) {
  std::mt19937 random(3);
  const auto below = [&](unsigned limit) { return static_cast<double>(random() % limit); };
  for (int i = 0; i < 5000; ++i) {
    SCOPED_TRACE(i);
    const Wanted wanted{below(3) * 6, random() % 4 != 0};
    std::vector<Kind> others(random() % 5);
    double main = 0, filler = 0;
    for (Kind& kind : others) {
      kind = {random() % 2 == 0 ? Part::Main : Part::Filler, below(100) / 10};
      const bool is_main = kind.part == Part::Main || !wanted.mixed;
      (is_main ? main : filler) += std::min(kind.stems, wanted.stems / (wanted.mixed ? 2 : 1));
    }
    const Part part = random() % 2 == 0 ? Part::Main : Part::Filler;
    const double own = below(100) / 10, further = below(100) / 10;
    std::vector<Kind> without = others, with = others;
    without.push_back({part, own});
    with.push_back({part, own + further});
    const Beside beside(wanted, part, own, main, filler);
    EXPECT_NEAR(beside.gain(further), vase(wanted, with).value - vase(wanted, without).value, 1e-9);
  }
}

TEST(Beside, Flat) {
  EXPECT_DOUBLE_EQ(Beside().gain(10), 1.5);
  EXPECT_DOUBLE_EQ(Beside::flat(1).gain(10), 10);
}

TEST(PartOf, EveryRole) {
  EXPECT_EQ(part_of(Role::Focal), Part::Main);
  EXPECT_EQ(part_of(Role::Secondary), Part::Main);
  EXPECT_EQ(part_of(Role::Line), Part::Main);
  EXPECT_EQ(part_of(Role::Filler), Part::Filler);
  EXPECT_EQ(part_of(Role::Foliage), Part::Filler);
}

}  // namespace
}  // namespace trug::harvest
