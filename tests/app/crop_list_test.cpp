// SPDX-License-Identifier: MIT
// The list of crops, narrowed.
#include <algorithm>
#include <set>
#include <sstream>
#include <string>

#include "plan_text.h"
#include "program.h"
#include "read/sheet_library.h"

namespace trug::app {
namespace {

class CropList : public Program {
 protected:
  // The names in the list.
  std::set<std::string> listed_by(std::vector<std::string> options) {
    options.insert(options.begin(), "crop");
    const Answer answer = run(options);
    EXPECT_EQ(answer.exit, 0) << answer.err;
    std::set<std::string> names;
    std::istringstream lines(answer.out);
    for (std::string line; std::getline(lines, line);) {
      if (!line.starts_with("  ") || line.starts_with("  crop ")) continue;
      names.insert(line.substr(2, line.find("  ", 2) - 2));
    }
    return names;
  }
};

// Each is in the list where its sheet is such, and nowhere else.
TEST_F(CropList, HoldsWhatIsSuch) {
  read::SheetLibrary library;
  Diagnostics diagnostics;
  std::set<std::string> annuals, white_fillers, safe;
  for (const std::string& name : library.names()) {
    const Sheet& sheet = *library.find(name, diagnostics);
    const auto is = [](const auto& list, const auto& value) {
      return std::ranges::find(list, value) != list.end();
    };
    if (to_string(sheet.life_cycle).ends_with("annual")) annuals.insert(sheet.name);
    if (is(sheet.roles, Role::Filler) && is(sheet.colours, "white")) {
      white_fillers.insert(sheet.name);
    }
    const auto harms = [](const Caution& caution) {
      return caution.kind != Caution::Kind::Invasive;
    };
    if (std::ranges::none_of(sheet.cautions, harms)) safe.insert(sheet.name);
  }
  EXPECT_EQ(listed_by({"--life", "annual"}), annuals);
  EXPECT_EQ(listed_by({"--role", "filler", "--petals", "white"}), white_fillers);
  EXPECT_EQ(listed_by({"--safe"}), safe);
  EXPECT_TRUE(safe.contains("zinnia"));
  EXPECT_FALSE(safe.contains("foxglove"));
}

// In lowland England, asked in September: tulips in May, dahlias in August, nothing in December
// (common practice); asked in March no tulips any more, though the plan began long before.
TEST_F(CropList, HoldsWhatIsCutInAMonthAtAPlace) {
  write("plan.toml",
        head_text("") + bed_text("lane", "2.3", "0.9", {{"2.2", "crops = [\"zinnia\"]"}}));
  const auto in = [&](const std::string& month, const std::string& today) {
    return listed_by({"--month", month, "--at", path("plan.toml"), "--today", today});
  };
  const auto may = in("May", "2026-09-15"), august = in("August", "2026-09-15");
  EXPECT_TRUE(may.contains("tulip"));
  EXPECT_FALSE(may.contains("dahlia"));
  EXPECT_TRUE(august.contains("dahlia"));
  EXPECT_TRUE(august.contains("zinnia"));
  EXPECT_FALSE(august.contains("tulip"));
  EXPECT_TRUE(in("Dec", "2026-09-15").empty());
  EXPECT_FALSE(in("May", "2027-03-01").contains("tulip"));
}

TEST_F(CropList, SaysWhatIsWrong) {
  EXPECT_NE(run({"crop", "--life", "tree"}).err.find("'tree' is no life cycle; there are hardy"),
            std::string::npos);
  EXPECT_NE(run({"crop", "--month", "Foo", "--at", "x"}).err.find("is no month"),
            std::string::npos);
  EXPECT_EQ(run({"crop", "--month", "May"}).exit, 2);
}

}  // namespace
}  // namespace trug::app
