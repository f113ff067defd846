// SPDX-License-Identifier: MIT
#include "base/diagnostics.h"

#include <gtest/gtest.h>

namespace trug {
namespace {

TEST(Diagnostics, QuotesTheLineWithACaretAndAHint) {
  Diagnostics diagnostics;
  diagnostics.add_file("beds.toml", "[[bed]]\r\nlenght_m = 6\r\n");
  diagnostics.error({"beds.toml", 2, 1}, "unknown key 'lenght_m'", "did you mean 'length_m'?");
  EXPECT_EQ(diagnostics.render(),
            "beds.toml:2:1: error: unknown key 'lenght_m'\n"
            "  | lenght_m = 6\n"
            "  | ^\n"
            "  hint: did you mean 'length_m'?\n");
}

TEST(Diagnostics, PutsTheCaretUnderTheCodePointAndKeepsTabs) {
  Diagnostics diagnostics;
  diagnostics.add_file("a", "\tBlüte = x");
  diagnostics.error({"a", 1, 10}, "no");
  EXPECT_EQ(diagnostics.render(), "a:1:10: error: no\n  | \tBlüte = x\n  | \t        ^\n");
}

TEST(Diagnostics, SortsByFileThenPlaceAndKeepsTheOrderOfEquals) {
  Diagnostics diagnostics;
  diagnostics.add_file("z", "");
  diagnostics.add_file("a", "");
  diagnostics.error({"a", 1, 1}, "fifth");
  diagnostics.error({"z", 2, 1}, "third");
  diagnostics.warning({"z", 2, 1}, "fourth");
  diagnostics.error({"z", 1, 9}, "second");
  diagnostics.error({"z", 0, 0}, "first");
  std::string order;
  for (const Diagnostic& entry : diagnostics.sorted()) order += entry.message + " ";
  EXPECT_EQ(order, "first second third fourth fifth ");
}

TEST(Diagnostics, CountsOnlyAfterTwentyErrors) {
  Diagnostics diagnostics;
  for (int line = 1; line <= 23; ++line) diagnostics.error({"a", line, 1}, "no");
  const std::string text = diagnostics.render();
  EXPECT_NE(text.find("a:20:1"), std::string::npos);
  EXPECT_EQ(text.find("a:21:1"), std::string::npos);
  EXPECT_TRUE(text.ends_with("and 3 more errors\n"));
  EXPECT_EQ(diagnostics.error_count(), 23u);
}

TEST(Diagnostics, CountsOneMoreErrorAsOne) {
  Diagnostics diagnostics;
  for (int line = 1; line <= 21; ++line) diagnostics.error({"a", line, 1}, "no");
  EXPECT_TRUE(diagnostics.render().ends_with("and 1 more error\n"));
}

TEST(Diagnostics, DoNotTakeWarningsForErrors) {
  Diagnostics diagnostics;
  EXPECT_TRUE(diagnostics.empty());
  diagnostics.warning({"a", 0, 0}, "hm");
  EXPECT_FALSE(diagnostics.has_errors());
  EXPECT_FALSE(diagnostics.empty());
  EXPECT_EQ(diagnostics.render(), "a: warning: hm\n");
}

}  // namespace
}  // namespace trug
