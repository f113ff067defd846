// SPDX-License-Identifier: MIT
// What was begun before today stays as it is told: no remedy asks for days that are gone.
#include <gtest/gtest.h>

#include <algorithm>
#include <variant>

#include "ask/advised.h"
#include "show/remedy_words.h"

namespace trug::ask {
namespace {

// A plan that began on 1 January 2026, looked at on another day. Ground is filled from the plan's
// own sheets and these crops'.
struct Seen {
  Planned p;
  std::vector<Finding> findings;
  const Finding* finding(std::string_view code) const {
    const auto found = std::ranges::find(findings, code, &Finding::code);
    return found == findings.end() ? nullptr : &*found;
  }
};

constexpr const char* kHead = "began = 2026-01-01\n";
constexpr const char* kStretch =
    "[[bed]]\nname = \"b\"\nlength_m = 2.2\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.2\n";

Seen seen(Date today, const std::string& grown, const std::vector<std::string>& crops = {}) {
  Seen result{planned(kHead, kStretch + grown), {}};
  const Planned& p = result.p;
  ground::Sheets sheets = p.sheets;
  Diagnostics diagnostics;
  for (const std::string& name : crops) sheets[name] = p.all_sheets->find(name, diagnostics);
  const Garden garden{p.plan, p.sheets, *p.climate, today, {}};
  result.findings = advised(garden, reckon(garden), [&] { return sheets; });
  return result;
}

TEST(Past, WhatWasSownTooEarlyCannotBeSownLater) {
  const std::string crop =
      "[[bed.stretch.crop]]\ncrop = \"euphorbia\"\nstart_on = 2026-08-08\n";
  const Seen ahead = seen(make_date(2026, 1, 1), crop);
  const Finding* early = ahead.finding("too-early");
  ASSERT_TRUE(early && early->remedy && early->remedy->change);
  EXPECT_TRUE(std::holds_alternative<Unpin>(*early->remedy->change));
  const Date start = std::get<TooEarly>(early->found).start;
  const Seen behind = seen(start + Days{30}, crop);
  ASSERT_TRUE(behind.finding("too-early"));
  EXPECT_FALSE(behind.finding("too-early")->remedy);
}

TEST(Past, WaysStillPossibleBeginToday) {
  const Date today = make_date(2027, 2, 1);
  const Seen one =
      seen(today,
           "[[bed.stretch.crop]]\ncrop = \"larkspur\"\nway = \"sown in place in autumn\"\n"
           "start_on = 2025-10-05\n");
  const Finding* late = one.finding("too-late");
  ASSERT_TRUE(late && late->remedy);
  ASSERT_FALSE(late->remedy->ways.empty());
  for (const StillPossible& way : late->remedy->ways) {
    EXPECT_EQ(std::get<ByWay>(way.change).not_before, today);
    EXPECT_NE(show::change_toml(one.p.plan, way.change)->find("not_before = 2027-02-01"),
              std::string::npos);
  }
}

TEST(Past, BareGroundIsFilledFromTodayOn) {
  const Date today = make_date(2027, 6, 1);
  const Seen one =
      seen(today, "crops = [\"daffodil\"]\n", {"sunflower", "zinnia", "sweet william"});
  const Finding* bare = one.finding("bare-ground");
  ASSERT_TRUE(bare && bare->remedy && !bare->remedy->fillers.empty());
  for (const Filler& filler : bare->remedy->fillers) {
    EXPECT_EQ(std::get<AddCrop>(filler.change).asked.pins.not_before, today);
    EXPECT_NE(filler.crop, "sweet william");  // a biennial, sown the summer before
    const auto toml = show::change_toml(one.p.plan, filler.change);
    ASSERT_TRUE(toml);
    const Planned pasted = planned(kHead, kStretch + *toml);  // in the place of its crops
    ASSERT_EQ(pasted.plan.plantings.size(), 2u);
    EXPECT_EQ(pasted.plan.plantings[1].asked.crop, filler.crop);
    EXPECT_EQ(pasted.plan.plantings[1].asked.pins.not_before, today);
  }
}

}  // namespace
}  // namespace trug::ask
