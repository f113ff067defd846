// SPDX-License-Identifier: MIT
// What would give most on ground that nothing uses.
#include "ask/fill.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "ask/advised.h"
#include "ask/ask.h"
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

// Each crop put into the plan by hand gives what fill() says, and none gives more.
TEST(Fill, NamesTheThreeThatGiveMost) {
  const std::vector<std::string> crops = {"sunflower", "zinnia", "cosmos", "statice", "calendula"};
  const Filled f = with_sheets(planned("", bed("crops = [\"daffodil\"]\n")), crops);
  const auto fillers = fill(f.garden(), {.bed = 0, .stretch = 0, .after = 0}, {});
  ASSERT_EQ(fillers.size(), kFillers);
  const double before = stems(f.p.schedule.sowings);
  std::vector<double> more;
  for (const std::string& crop : crops) {
    const Planned both = planned("", bed("crops = [\"daffodil\", \"" + crop + "\"]\n"));
    const double gain = stems(both.schedule.sowings) - before;
    if (!both.schedule.of(0).empty() && !both.schedule.of(1).empty()) more.push_back(gain);
    for (const Filler& filler : fillers) {
      if (filler.crop == crop) {
        EXPECT_NEAR(filler.stems, gain, 1e-6) << crop;
      }
    }
  }
  std::ranges::sort(more, std::greater{});
  for (std::size_t i = 0; i < kFillers; ++i) EXPECT_NEAR(fillers[i].stems, more[i], 1e-6);
}

TEST(Fill, OfSomeWeeksCountsTheStemsOfTheseAlone) {
  const std::vector<std::string> crops = {"sunflower", "sweet william"};
  const Filled f = with_sheets(planned("", bed("crops = [\"daffodil\"]\n")), crops);
  const auto all = fill(f.garden(), {.bed = 0, .stretch = 0, .after = 0}, {});
  ASSERT_FALSE(all.empty());
  std::map<std::string, double> by_week;
  int weeks = 0;
  for (Date monday = make_date(2027, 5, 3); monday < make_date(2027, 11, 1); monday += Days{7}) {
    for (const Filler& filler : fill(f.garden(), {.bed = 0, .stretch = 0, .after = 0}, {monday})) {
      by_week[filler.crop] += filler.stems;
      ++weeks;
    }
  }
  EXPECT_GT(weeks, static_cast<int>(all.size())) << "of one crop at least in more than one week";
  // A week of less than a stem is not named.
  for (const Filler& filler : all) EXPECT_NEAR(by_week[filler.crop], filler.stems, 1);
}

TEST(Fill, InThePlaceOfACropThatCannotBeGrown) {
  const Planned p =
      advised_plan("",
                   bed("[[bed.stretch.crop]]\ncrop = \"foxglove\"\nlift_on = 2027-07-20\n"
                       "[[bed.stretch.crop]]\ncrop = \"peony\"\nstart_on = 2027-11-20\n"),
                   {"statice", "zinnia"});
  const auto refused = std::ranges::find_if(p.findings, [](const Finding& finding) {
    return finding.remedy && !finding.remedy->fillers.empty();
  });
  ASSERT_NE(refused, p.findings.end());
  const std::string text = show::remedy_text(p.plan, *refused);
  EXPECT_NE(text.find("stretch 1 of b would give most with"), std::string::npos) << text;
  const auto toml = show::remedy_toml(p.plan, *refused);
  ASSERT_TRUE(toml);
  EXPECT_NE(toml->find("crop"), std::string::npos);
}

}  // namespace
}  // namespace trug::ask
