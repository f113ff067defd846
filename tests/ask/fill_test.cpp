// SPDX-License-Identifier: MIT
// What would give most on ground that nothing uses.
#include "ask/fill.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

#include "ask/advised.h"
#include "ask/ask.h"
#include "harvest/weeks.h"
#include "show/remedy_words.h"

namespace trug::ask {
namespace {

std::string bed(const std::string& crops) {
  return "[[bed]]\nname = \"b\"\nlength_m = 2.2\nwidth_m = 0.9\n[[bed.stretch]]\n"
         "length_m = 2.2\n" +
         crops;
}

struct Filled {
  Planned p;
  ground::Sheets sheets;
  Garden garden() const { return {p.plan, sheets, *p.climate, p.garden().today, {}}; }
  std::vector<Filler> fill(const Ground& ground) const {
    const Garden all = garden();
    return Filling(all, p).fill(ground);
  }
};

Filled with_sheets(Planned p, const std::vector<std::string>& crops) {
  Filled result{std::move(p), {}};
  result.sheets = result.p.sheets;
  Diagnostics diagnostics;
  for (const std::string& crop : crops) {
    result.sheets[crop] = result.p.all_sheets->find(crop, diagnostics);
  }
  return result;
}

const std::string kWish =
    "[wish]\nvases_per_week = 1\nstems_per_vase = 12\nfrom = \"1 May\"\nto = \"30 September\"\n";

// Beside `crops` on the ground to be filled, a bed of others.
std::string beside(const std::string& others, const std::string& crops) {
  return bed(crops) +
         "[[bed]]\nname = \"c\"\nlength_m = 2.3\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.3\n" +
         others;
}

const Ground kAfterTheFirst{.bed = 0, .stretch = 0, .after = 0, .instead_of = {}};

std::vector<std::string> gardens() {
  return {beside("crops = [\"statice\"]\n", "crops = [\"tulip\"]\n"),
          beside("crops = [\"zinnia\"]\n", "crops = [\"sweet william\"]\n"),
          beside("crops = [\"ammi\"]\n", "crops = [\"daffodil\"]\n"),
          beside("crops = [\"cosmos\"]\n",
                 "[[bed.stretch.crop]]\ncrop = \"foxglove\"\nlift_on = 2027-07-05\n")};
}

const std::vector<std::string> kCrops = {"calendula",  "cornflower", "cosmos",    "dahlia",
                                         "gladiolus",  "larkspur",   "sunflower", "sweet pea",
                                         "amaranthus", "zinnia",     "dill",      "bupleurum"};

int full(const Outcome& outcome) { return harvest::count(outcome.weeks, harvest::WeekState::Full); }

// The named start is one the plan may have, so the choice of the plan with the crop in it is worth
// as much at least; and no crop goes in late that was not late before.
TEST(Fill, WhatIsNamedIsHadWhenItIsPasted) {
  int named = 0;
  for (const std::string& text : gardens()) {
    SCOPED_TRACE(text);
    const Filled f = with_sheets(planned("", kWish + text), kCrops);
    for (const Filler& filler : f.fill(kAfterTheFirst)) {
      SCOPED_TRACE(filler.crop);
      ++named;
      const Difference found = ask(f.garden(), f.p, filler.change);
      ASSERT_TRUE(found.plan.added);
      EXPECT_FALSE(found.after.schedule.of(*found.plan.added).empty());
      EXPECT_GE(full(found.after), full(f.p) + filler.weeks - 1);
      EXPECT_GE(found.stems, 0.8 * filler.stems);
      for (const Finding& fresh : found.fresh) {
        EXPECT_EQ(fresh.rank(), Rank::Mild) << fresh.code();
        EXPECT_NE(fresh.code(), LateStart::kCode);
      }
    }
  }
  EXPECT_GT(named, 6);
}

// Behind foxgloves that stand until July the trade sows and plants little: no sweet pea, and
// nothing after its own window.
TEST(Fill, NamesNoLateStart) {
  const Filled f = with_sheets(
      planned("", kWish + bed("[[bed.stretch.crop]]\ncrop = \"foxglove\"\nlift_on = 2027-07-20\n")),
      kCrops);
  for (const Filler& filler : f.fill(kAfterTheFirst)) {
    EXPECT_NE(filler.crop, "sweet pea");
    EXPECT_GE(filler.in_ground, make_date(2027, 7, 20));
    const Difference found = ask(f.garden(), f.p, filler.change);
    for (const ground::Sowing& sowing : found.after.schedule.of(*found.plan.added)) {
      EXPECT_EQ(sowing.days_late(), 0) << filler.crop;
    }
  }
}

const std::string kBesideAmmi = beside("crops = [\"ammi\"]\n", "crops = [\"daffodil\"]\n");

std::string first_in(const Filled& f) {
  const auto fillers = f.fill(kAfterTheFirst);
  return fillers.empty() ? "" : fillers.front().crop;
}

std::string wish_of(const std::string& from, const std::string& to) {
  return "[wish]\nvases_per_week = 1\nstems_per_vase = 12\nfrom = \"" + from + "\"\nto = \"" + to +
         "\"\n";
}

// In a week of July that has all the ammi it can use a few sunflowers are worth more than three
// times as many stems of dill; of a plan without a wish the stems alone count.
TEST(Fill, RanksByTheVasesAndNotByStems) {
  const std::vector<std::string> crops = {"dill", "sunflower"};
  const std::string july = wish_of("26 July", "1 August");
  EXPECT_EQ(first_in(with_sheets(planned("", july + kBesideAmmi), crops)), "sunflower");
  EXPECT_EQ(first_in(with_sheets(planned("", kBesideAmmi), crops)), "dill");
}

TEST(Fill, CountsTheWeeksOfTheWishAlone) {
  const auto first = [](const std::string& from, const std::string& to) {
    return first_in(
        with_sheets(planned("", wish_of(from, to) + kBesideAmmi), {"dill", "gladiolus"}));
  };
  EXPECT_EQ(first("6 September", "12 September"), "gladiolus");
  EXPECT_EQ(first("4 January", "10 January"), "");
}

// Crops that the wish does not like are not named, nor those that stand there already.
TEST(Fill, KeepsToTheWish) {
  const Filled f = with_sheets(
      planned("", kWish + "like = [\"zinnia\", \"daffodil\", \"ammi\"]\n" + kBesideAmmi), kCrops);
  EXPECT_FALSE(f.fill(kAfterTheFirst).empty());
  for (const Filler& filler : f.fill(kAfterTheFirst)) {
    EXPECT_TRUE(filler.crop == "zinnia" || filler.crop == "ammi") << filler.crop;
  }
}

TEST(Fill, InThePlaceOfACropThatCannotBeGrown) {
  const Planned p =
      advised_plan("",
                   bed("[[bed.stretch.crop]]\ncrop = \"foxglove\"\n"
                       "[[bed.stretch.crop]]\ncrop = \"peony\"\nstart_on = 2027-11-20\n"),
                   {"cornflower", "calendula"});
  const auto refused = std::ranges::find_if(p.findings, [](const Finding& finding) {
    return finding.remedy && !finding.remedy->fillers.empty();
  });
  ASSERT_NE(refused, p.findings.end());
  const std::string text = show::remedy_text(p.plan, *refused);
  EXPECT_NE(text.find("stretch 1 of b could grow"), std::string::npos) << text;
  const auto toml = show::remedy_toml(p.plan, *refused);
  ASSERT_TRUE(toml);
  EXPECT_NE(toml->find("crop"), std::string::npos);
}

}  // namespace
}  // namespace trug::ask
