// SPDX-License-Identifier: MIT
#include "show/weeks_page.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "base/text.h"
#include "lowland.h"

namespace trug::show {
namespace {

harvest::Week week(Date monday) {
  harvest::Week week{.monday = monday, .wished = true};
  week.vase = {.wanted = 12, .usable = 11, .stems = 19, .lacks = {harvest::Lack::Filler}};
  week.usable = {6, 11, 12};
  week.stems = {9, 19, 30};
  week.kinds = {{"zinnia", 0, {6, 12, 20}}, {"statice", 1, {3, 7, 10}}};
  week.flower = Millimetres{1230};
  week.leaf = Millimetres{2400};
  return week;
}

// On a terminal of eighty columns: the span of the vases, the likely stems by kind, the ground's
// metres in flower, in leaf and bare, and what is lacking.
TEST(WeeksPage, ALineAWeek) {
  Plan plan;
  plan.title = "Stairwell vase";
  plan.wish = Wish{};
  const std::string text =
      weeks_page(plan, {week(make_date(2027, 7, 5)), week(make_date(2027, 9, 27))},
                 climate::Climate::from(lowland()), {false, 80});
  EXPECT_NE(text.find("5 July"), std::string::npos);
  for (const std::string day : {"5 July", "27 September"}) {
    const auto begin = text.find("  " + day + " ");
    ASSERT_NE(begin, std::string::npos) << text;
    const std::string line = text.substr(begin, text.find('\n', begin) - begin);
    EXPECT_LE(display_width(line), 80);
    for (const char* part :
         {"0.9 (0.5 to 1)", "19", "zinnia 12, statice 7", "1.2/2.4/0", "filler"}) {
      EXPECT_NE(line.find(part), std::string::npos) << part << "\n" << text;
    }
  }
}

}  // namespace
}  // namespace trug::show
