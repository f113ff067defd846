// SPDX-License-Identifier: MIT
#include "show/table.h"

#include <gtest/gtest.h>

#include "base/text.h"

namespace trug::show {
namespace {

Table week() {
  Table table({{"day", false}, {"job"}, {"plants", false, true}, {"where"}, {"still right"}});
  table.add_heading("March 2027");
  table.add({"Sat  6", "sow", "25", "", "20 February to 20 March"}, true);
  table.add({"Sun 28", "look for seedlings", "8", "", ""});
  table.add_note("Look whether it has come up.");
  return table;
}

int widest_line(const std::string& text) {
  int widest = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    widest = std::max(widest, display_width(text.substr(at, end - at)));
    at = end + 1;
  }
  return widest;
}

TEST(Table, HasAHeadingOverEachColumnThatIsUsed) {
  EXPECT_EQ(week().text({false, 80}),
            "  day     job                 plants  still right\n"
            "\n"
            "March 2027\n"
            "  Sat  6  sow                     25  20 February to 20 March\n"
            "  Sun 28  look for seedlings       8\n"
            "      Look whether it has come up.\n");
}

TEST(Table, WrapsInsideItsColumns) {
  EXPECT_EQ(week().text({false, 44}),
            "  day    job           plants still right\n"
            "\n"
            "March 2027\n"
            "  Sat  6 sow               25 20 February to\n"
            "                              20 March\n"
            "  Sun 28 look for           8\n"
            "         seedlings\n"
            "      Look whether it has come up.\n");
}

TEST(Table, IsAParagraphARowWhereTheColumnsDoNotFit) {
  EXPECT_EQ(week().text({false, 30}),
            "\n"
            "March 2027\n"
            "  Sat  6  sow\n"
            "    plants 25; still right 20\n"
            "    February to 20 March\n"
            "  Sun 28  look for seedlings\n"
            "    plants 8\n"
            "      Look whether it has come\n"
            "      up.\n");
}

TEST(Table, KeepsToEveryWidth) {
  for (int width = 30; width <= 120; ++width) {
    EXPECT_LE(widest_line(week().text({false, width})), width) << width;
  }
}

TEST(Table, IsFaintInWholeLines) {
  const std::string text = week().text({true, 80});
  EXPECT_NE(
      text.find("\n\033[2m  Sat  6  sow                     25  20 February to 20 March\033[0m\n"),
      std::string::npos)
      << text;
  EXPECT_NE(text.find("\033[1mMarch 2027\033[0m\n"), std::string::npos);
}

TEST(Table, WithoutRowsIsNothing) { EXPECT_EQ(Table({{"day"}}).text({}), ""); }

}  // namespace
}  // namespace trug::show
