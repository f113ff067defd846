// SPDX-License-Identifier: MIT
// What the findings propose for free ground.
#include "ask/free_ground.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <variant>
#include <vector>

#include "ask/advised.h"
#include "ask/ask.h"
#include "ask/mend.h"
#include "show/remedy_words.h"

namespace trug::ask {
namespace {

const std::vector<std::string> kCrops = {"calendula", "cornflower", "cosmos",     "sunflower",
                                         "dill",      "zinnia",     "amaranthus", "larkspur"};

// In June it is too late for statice.
const std::string kHead = "began = 2027-06-10\n";
const std::string kBeds =
    "[wish]\nstems_per_vase = 12\nfrom = \"26 July\"\nto = \"18 September\"\n"
    "[[bed]]\nname = \"fence bed\"\nlength_m = 2.6\nwidth_m = 1.1\n"
    "[[bed.stretch]]\nlength_m = 1.5\ncrops = [\"zinnia\"]\n"
    "[[bed.stretch]]\nlength_m = 1.1\ncrops = [\"statice\"]\n";

ground::Sheets sheets_of(const Planned& p) {
  ground::Sheets sheets = p.sheets;
  Diagnostics diagnostics;
  for (const std::string& crop : kCrops) sheets[crop] = p.all_sheets->find(crop, diagnostics);
  return sheets;
}

const Filler* first_filler(const Finding* finding) {
  if (finding == nullptr || !finding->remedy || finding->remedy->fillers.empty()) return nullptr;
  return &finding->remedy->fillers.front();
}

// One mechanism for the same weeks.
TEST(FreeGround, OfShortWeeksIsWhatMendBeginsWith) {
  for (const std::string& head : {std::string(), kHead}) {
    SCOPED_TRACE(head);
    const Planned p = advised_plan(head, kBeds, kCrops);
    const ground::Sheets sheets = sheets_of(p);
    const Garden garden{p.plan, sheets, *p.climate, p.garden().today, {}};
    const Mended mended = mend(garden, p, false);
    const Finding* weeks = p.finding("short-weeks");
    ASSERT_TRUE(weeks);
    const Filler* filler = first_filler(weeks);
    ASSERT_EQ(filler == nullptr, mended.additions.empty());
    if (filler == nullptr) continue;
    EXPECT_EQ(show::change_toml(p.plan, filler->change),
              show::change_toml(p.plan, mended.additions.front().change));
    const Difference found = ask(garden, p, filler->change);
    EXPECT_EQ(filler->weeks, found.weeks);
    EXPECT_GT(filler->stems, 0);
  }
}

// The crop that cannot be grown any more makes room for another, and whatever speaks of its ground
// proposes the same.
TEST(FreeGround, ACropThatCannotBeGrownGivesItsPlace) {
  const Planned p = advised_plan(kHead, kBeds, kCrops);
  ASSERT_TRUE(p.schedule.of(1).empty());
  const ground::Sheets sheets = sheets_of(p);
  const Garden garden{p.plan, sheets, *p.climate, p.garden().today, {}};
  int named = 0;
  std::string proposed;
  for (const Finding& finding : p.findings) {
    const Filler* filler = first_filler(&finding);
    if (filler == nullptr) continue;
    ++named;
    ASSERT_TRUE(std::holds_alternative<Instead>(filler->change)) << finding.code();
    EXPECT_EQ(std::get<Instead>(filler->change).planting, 1u);
    EXPECT_TRUE(proposed.empty() || proposed == filler->crop) << finding.code();
    proposed = filler->crop;
    // Pasted, nothing is said of the statice any more, and all that grows there grows.
    const Difference found = ask(garden, p, filler->change);
    EXPECT_FALSE(found.after.schedule.of(*found.plan.added).empty());
    EXPECT_TRUE(std::ranges::all_of(found.after.findings, [](const Finding& after) {
      return after.rank() != Rank::Broken;
    })) << finding.code();
  }
  EXPECT_GE(named, 2);
}

}  // namespace
}  // namespace trug::ask
