// SPDX-License-Identifier: MIT
// What is found in a plan, and what is said of it.
#include "ask/findings.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <variant>

#include "show/finding_words.h"
#include "work/planned.h"

namespace trug::ask {
namespace {

const std::string kBed =
    "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.2\n";

std::string crop(const std::string& name, const std::string& more = "") {
  return "[[bed.stretch.crop]]\ncrop = \"" + name + "\"\n" + more;
}

template <class Kind>
const Kind* found(const Planned& p) {
  const Finding* finding = p.finding(Kind::kCode);
  return finding ? &std::get<Kind>(finding->found) : nullptr;
}

TEST(Findings, ASuccessionThatDoesNotFitIsNoCropThatDoesNotGrow) {
  const Planned p = planned("", kBed + crop("sunflower", "successions = 20\n"));
  EXPECT_FALSE(p.finding("cannot-grow"));
  const auto* fewer = found<FewerSowings>(p);
  ASSERT_TRUE(fewer);
  EXPECT_EQ(fewer->asked, 20);
  EXPECT_GT(fewer->useful, 1);
  EXPECT_LT(fewer->useful, 20);
  const Planned as_said = planned(
      "", kBed + crop("sunflower", "successions = " + std::to_string(fewer->useful) + "\n"));
  EXPECT_EQ(as_said.schedule.of(0).size(), static_cast<std::size_t>(fewer->useful));
}

TEST(Findings, LookAtEverySowingOfASuccession) {
  const Planned p = planned("", kBed + crop("sunflower", "successions = 6\ngap_weeks = 2\n"));
  const auto sowings = p.schedule.of(0);
  ASSERT_EQ(sowings.size(), 6u);
  ASSERT_EQ(sowings.front().days_late(), 0);
  const auto late = std::ranges::find_if(
      sowings, [](const ground::Sowing& sowing) { return sowing.days_late() > 0; });
  ASSERT_NE(late, sowings.end());
  const Finding* finding = p.finding("late-start");
  ASSERT_TRUE(finding);
  EXPECT_EQ(finding->sowing, late->number);
  EXPECT_EQ(std::get<LateStart>(finding->found).in_ground, late->in_ground);
  EXPECT_TRUE(show::message(p.plan, *finding)
                  .starts_with("b/sunflower " + std::to_string(late->number) + " ("));
}

}  // namespace
}  // namespace trug::ask
