// SPDX-License-Identifier: MIT
// What is added for the weeks that go short.
#include "ask/mend.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>
#include <variant>
#include <vector>

#include "plan_text.h"
#include "read/plan_reader.h"
#include "show/plan_toml.h"
#include "work/planned.h"

namespace trug::ask {
namespace {

const Date kToday = make_date(2026, 1, 1);

const std::string kWish =
    "[wish]\nvases_per_week = 1\nstems_per_vase = 10\nfrom = \"1 June\"\nto = \"26 September\"\n"
    "like = [\"cosmos\", \"zinnia\", \"ammi\", \"calendula\", \"statice\", \"sweet william\"]\n";

std::string bed(const std::string& stretches) {
  return "[[bed]]\nname = \"long bed\"\nlength_m = 4.6\nwidth_m = 1.1\n" + stretches;
}
std::string stretch(const std::string& length, const std::string& rest) {
  return "[[bed.stretch]]\nlength_m = " + length + "\n" + rest;
}

struct Case {
  Planned p;
  ground::Sheets sheets;  // every one
  Garden garden() const { return {p.plan, sheets, *p.climate, kToday, {}}; }
};

Case garden(const std::string& text) {
  Case result{planned("", text), {}};
  Diagnostics diagnostics;
  for (const std::string& name : result.p.all_sheets->names()) {
    result.sheets[name] = result.p.all_sheets->find(name, diagnostics);
  }
  return result;
}

int full(const std::vector<harvest::Week>& weeks) {
  return harvest::count(weeks, harvest::WeekState::Full);
}

// A bed with nothing in it, one with free ground at its end, one with ground free before and after
// a crop.
const std::string kGardens[] = {
    kWish + bed(""),
    kWish + bed(stretch("1.3", "crops = [\"zinnia\"]\n")),
    kWish +
        bed(stretch("1.3", "crops = [\"tulip\"]\n") + stretch("1.7", "crops = [\"statice\"]\n")),
};

TEST(Mend, FillsMoreWeeksAndBreaksNone) {
  for (const std::string& text : kGardens) {
    SCOPED_TRACE(text);
    const Case c = garden(text);
    const Mended mended = mend(c.garden(), c.p, false);
    EXPECT_FALSE(mended.additions.empty());
    EXPECT_GT(full(mended.after.weeks), full(c.p.weeks));
    for (std::size_t week = 0; week < c.p.weeks.size(); ++week) {
      const bool was_full = c.p.weeks[week].vase.state() == harvest::WeekState::Full;
      if (was_full) {
        EXPECT_EQ(mended.after.weeks[week].vase.state(), harvest::WeekState::Full);
      }
    }
    for (const Finding& finding : mended.after.findings) {
      EXPECT_NE(finding.rank(), Rank::Broken) << finding.code();
    }
    for (const Addition& one : mended.additions) {
      EXPECT_GT(one.stems, 0);
      const auto& like = c.p.plan.wish->like;
      EXPECT_NE(std::ranges::find(like, one.sheet->name), like.end()) << one.sheet->name;
    }
  }
}

// In the wish's colours, as they are to be bought; nothing it dislikes, nothing that harms.
TEST(Mend, AddsWhatTheWishAllows) {
  const auto wish = [](const std::string& more) {
    return "[wish]\nstems_per_vase = 10\nfrom = \"1 July\"\nto = \"5 September\"\n" + more +
           bed("");
  };
  const auto crops = [](const Mended& mended) {
    std::set<std::string> names;
    for (const Addition& one : mended.additions) names.insert(one.sheet->name);
    return names;
  };
  const Case c = garden(wish("colours = [\"white\"]\nsafe = true\n"));
  const Mended safe = mend(c.garden(), c.p, false);
  ASSERT_FALSE(safe.additions.empty());
  for (const Addition& one : safe.additions)
    EXPECT_TRUE(is_harmless(*one.sheet)) << one.sheet->name;
  for (const Planting& planting : safe.plan.plantings) {
    const Sheet& sheet = *c.sheets.at(planting.asked.crop);
    const bool is_plain = sheet.colours.size() == 1 || sheet.roles.front() == Role::Foliage;
    const std::vector<std::string> white{"white"};
    EXPECT_TRUE(is_plain || planting.asked.colours == white) << sheet.name;
  }
  const std::string first = safe.additions.front().sheet->name;
  const Case other =
      garden(wish("colours = [\"white\"]\nsafe = true\ndislike = [\"" + first + "\"]\n"));
  EXPECT_FALSE(crops(mend(other.garden(), other.p, false)).contains(first));
}

// What stood in the plan stands in it still, in its place and grown.
TEST(Mend, KeepsWhatIsPlanted) {
  const Case c = garden(kGardens[2]);
  const Mended mended = mend(c.garden(), c.p, false);
  for (const Planting& planting : c.p.plan.plantings) {
    const auto same = std::ranges::find(mended.plan.plantings, planting.name, &Planting::name);
    ASSERT_NE(same, mended.plan.plantings.end()) << planting.name;
    EXPECT_EQ(same->patch->stretch, planting.patch->stretch);
    const auto index = static_cast<std::size_t>(same - mended.plan.plantings.begin());
    EXPECT_FALSE(mended.after.schedule.of(index).empty()) << planting.name;
  }
}

// Written and read again it is the plan that was reckoned, and no other: the same weeks.
TEST(Mend, WritesAPlanThatHolds) {
  for (const std::string& text : kGardens) {
    const Case c = garden(text);
    const Mended mended = mend(c.garden(), c.p, false);
    const MemoryFiles files({{"mended.toml", show::plan_toml(mended.plan)}});
    read::SheetLibrary library;
    Diagnostics diagnostics;
    const auto plan = read::read_plan(files, "mended.toml", library, diagnostics);
    ASSERT_TRUE(plan) << diagnostics.render();
    ASSERT_EQ(plan->plantings.size(), mended.plan.plantings.size());
    const Reckoned again = reckon(*plan, c.sheets, {}, kToday);
    ASSERT_EQ(again.weeks.size(), mended.after.weeks.size());
    for (std::size_t week = 0; week < again.weeks.size(); ++week) {
      EXPECT_NEAR(again.weeks[week].vase.usable, mended.after.weeks[week].vase.usable, 1e-6);
    }
  }
}

TEST(Mend, IsTheSameTwiceAndEndsAfterItsSteps) {
  const Case c = garden(kGardens[0]);
  int steps = 0;
  const Mended one = mend(c.garden(), c.p, false, [&](int number) { steps = number; });
  const Mended two = mend(c.garden(), c.p, false);
  EXPECT_LE(steps, kMostAdditions);
  EXPECT_EQ(show::plan_toml(one.plan), show::plan_toml(two.plan));
}

// Annuals of which nothing is begun make room only where that is asked for.
TEST(Mend, ReplantsWhereAsked) {
  const Case c = garden(kWish + bed(stretch("2.3", "crops = [\"ammi\"]\n") +
                                    stretch("2.3",
                                            "[[bed.stretch.crop]]\ncrop = \"ammi\"\n"
                                            "id = \"more ammi\"\n")));
  const Mended kept = mend(c.garden(), c.p, false), replanted = mend(c.garden(), c.p, true);
  const auto replaces = [](const Addition& one) {
    return std::holds_alternative<Instead>(one.change);
  };
  EXPECT_TRUE(std::ranges::none_of(kept.additions, replaces));
  EXPECT_TRUE(std::ranges::any_of(replanted.additions, replaces));
  EXPECT_GT(full(replanted.after.weeks), full(kept.after.weeks));
}

// A week is never brought above its bound; where ground and flowers are there to fill it, the bound
// is the whole vase; where nothing of the liked crops flowers so early, it is what there is.
TEST(Mend, BoundsEachShortWeek) {
  for (const std::string& text : kGardens) {
    const Case c = garden(text);
    const Mended mended = mend(c.garden(), c.p, false);
    for (const WeekBound& bound : mended.bounds) {
      const auto after =
          std::ranges::find(mended.after.weeks, bound.monday, &harvest::Week::monday);
      ASSERT_NE(after, mended.after.weeks.end());
      EXPECT_LE(after->vase.usable, bound.most + 0.5) << iso(bound.monday);
      EXPECT_LE(bound.has, bound.most + 1e-9);
    }
  }
  const Case early = garden(
      "[wish]\nstems_per_vase = 10\nfrom = \"8 March\"\nto = \"21 March\"\nlike = [\"zinnia\"]\n" +
      bed(""));
  const Mended none = mend(early.garden(), early.p, false);
  EXPECT_TRUE(none.additions.empty());
  ASSERT_EQ(none.bounds.size(), 2u);
  for (const WeekBound& bound : none.bounds) EXPECT_EQ(bound.most, 0);
}

}  // namespace
}  // namespace trug::ask
