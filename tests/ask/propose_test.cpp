// SPDX-License-Identifier: MIT
// A whole planting for empty beds.
#include "ask/propose.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "harvest/vase.h"
#include "plan_text.h"
#include "read/plan_reader.h"
#include "show/plan_toml.h"
#include "work/planned.h"

namespace trug::ask {
namespace {

const Date kToday = make_date(2026, 1, 1);

struct Case {
  Planned p;
  ground::Sheets sheets;  // every one
  Garden garden() const { return {p.plan, sheets, *p.climate, kToday, {}}; }
};

Case garden(const std::string& wish) {
  Case result{planned("", "[wish]\n" + wish +
                              "[[bed]]\nname = \"long bed\"\nlength_m = 4.6\nwidth_m = 1.1\n"
                              "[[bed]]\nname = \"wall bed\"\nlength_m = 1.3\nwidth_m = 0.8\n"),
              {}};
  Diagnostics diagnostics;
  for (const std::string& name : result.p.all_sheets->names()) {
    result.sheets[name] = result.p.all_sheets->find(name, diagnostics);
  }
  return result;
}

bool stands(const Plan& plan, const std::string& crop) {
  return std::ranges::any_of(plan.plantings,
                             [&](const Planting& planting) { return planting.asked.crop == crop; });
}

int full(const Outcome& outcome) { return harvest::count(outcome.weeks, harvest::WeekState::Full); }

// Fits its beds, breaks nothing, fills at least the weeks that mending fills, and is read again as
// what was reckoned.
TEST(Propose, PlantsTheBeds) {
  for (const char* wish :
       {"stems_per_vase = 10\nfrom = \"1 July\"\nto = \"5 September\"\nsafe = true\n",
        "vases_per_week = 3\nstems_per_vase = 12\nfrom = \"1 June\"\nto = \"20 September\"\n"}) {
    const Case c = garden(wish);
    const Proposal proposal = propose(c.garden(), c.p);
    ASSERT_FALSE(proposal.plan.plantings.empty());
    EXPECT_GE(full(proposal.after), full(mend(c.garden(), c.p, false).after));
    for (const Finding& finding : proposal.after.findings) {
      EXPECT_NE(finding.rank(), Rank::Broken) << finding.code();
    }
    const MemoryFiles files({{"made.toml", show::plan_toml(proposal.plan)}});
    read::SheetLibrary library;
    Diagnostics diagnostics;
    const auto plan = read::read_plan(files, "made.toml", library, diagnostics);
    ASSERT_TRUE(plan) << diagnostics.render();
    const Reckoned again = reckon(*plan, c.sheets, {}, kToday);
    for (std::size_t week = 0; week < again.weeks.size(); ++week) {
      EXPECT_NEAR(again.weeks[week].vase.usable, proposal.after.weeks[week].vase.usable, 1e-6);
    }
  }
}

// What is liked is in it wherever it can be, beside whatever else fills the weeks; what cannot is
// told.
TEST(Propose, PlantsWhatIsLikedFirst) {
  const Case c = garden(
      "stems_per_vase = 10\nfrom = \"1 July\"\nto = \"5 September\"\n"
      "like = [\"zinnia\", \"statice\", \"daffodil\"]\n");
  const Proposal proposal = propose(c.garden(), c.p);
  EXPECT_TRUE(stands(proposal.plan, "zinnia"));
  EXPECT_TRUE(stands(proposal.plan, "statice"));
  EXPECT_EQ(proposal.unused, std::vector<std::string>{"daffodil"});
  EXPECT_TRUE(proposal.plan.wish->like.empty());
}

// Pieces side by side that grow the same are one stretch, unless they are sown apart on purpose:
// drawn together they would fill less.
TEST(Propose, DrawsPiecesTogether) {
  const Case c = garden(
      "stems_per_vase = 10\nfrom = \"1 August\"\nto = \"5 September\"\nlike = [\"zinnia\"]\n"
      "mixed = false\nvases_per_week = 6\n");
  const Proposal proposal = propose(c.garden(), c.p);
  const Mended pieces = mend(c.garden(), c.p, false);
  const auto of_long_bed = [](const Plan& plan) { return plan.beds.front().stretches.size(); };
  EXPECT_LT(of_long_bed(proposal.plan), of_long_bed(pieces.plan));
  int length = 0;
  for (const Stretch& stretch : proposal.plan.beds.front().stretches) {
    EXPECT_EQ(stretch.offset.value(), length);
    length += stretch.length.value();
  }
  EXPECT_LE(length, proposal.plan.beds.front().length.value());
}

}  // namespace
}  // namespace trug::ask
