// SPDX-License-Identifier: MIT
// The reckoning behind one planting, as it is shown.
#include "show/why.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "work/planned.h"

namespace trug::show {
namespace {

const std::string kBed =
    "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.2\n";

const std::vector<JobRow> kNoRows;

Reckoned shown(const Planned& p) { return {p.plan, p.schedule, p.findings, kNoRows}; }

std::string page(const Planned& p) { return why_page(shown(p), 0, *p.climate, Style{}); }

bool says(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

TEST(Why, AStartBeforeTheWindowIsNotAfterIt) {
  const auto cornflower = [](const std::string& start_on) {
    return page(planned("", kBed +
                                "[[bed.stretch.crop]]\ncrop = \"cornflower\"\n"
                                "way = \"sown in place in spring\"\nstart_on = " +
                                start_on + "\n"));
  };
  EXPECT_TRUE(says(cornflower("2027-02-10"), " days before it")) << cornflower("2027-02-10");
  EXPECT_TRUE(says(cornflower("2027-06-20"), " days after it")) << cornflower("2027-06-20");
  EXPECT_TRUE(says(cornflower("2027-04-28"), ": in its middle half"));
}

}  // namespace
}  // namespace trug::show
