// SPDX-License-Identifier: MIT
#include "read/sheet_library.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "read/embedded_sheets.h"
#include "small_plan.h"

namespace trug::read {
namespace {

std::string named(std::string_view name) {
  std::string text(kSunflower);
  return text.replace(text.find("\"sunflower\"") + 1, 9, name);
}

TEST(SheetLibrary, HoldsEverySheetOfTheProjectByteForByte) {
  std::size_t files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(TRUG_SOURCE_DIR "/crops")) {
    if (entry.path().extension() != ".toml") continue;
    ++files;
    std::ifstream file(entry.path(), std::ios::binary);
    std::stringstream text;
    text << file.rdbuf();
    const auto found =
        std::ranges::find(embedded_sheets(), entry.path().stem().string(), &EmbeddedSheet::name);
    ASSERT_NE(found, embedded_sheets().end()) << entry.path();
    EXPECT_EQ(found->text, text.str()) << entry.path();
  }
  EXPECT_EQ(files, embedded_sheets().size());
}

TEST(SheetLibrary, ReadsEveryBuiltInSheetWithoutComplaint) {
  SheetLibrary sheets;
  Diagnostics diagnostics;
  for (const std::string& name : sheets.names())
    EXPECT_TRUE(sheets.find(name, diagnostics)) << name;
  EXPECT_EQ(diagnostics.render(), "");
}

TEST(SheetLibrary, FindsANameHoweverItIsWritten) {
  SheetLibrary sheets;
  Diagnostics diagnostics;
  const Sheet* sheet = sheets.find("china aster", diagnostics);
  ASSERT_TRUE(sheet);
  for (const char* name : {"China Aster", "CHINA_ASTER", "china-aster", "  china   aster ",
                           "Callistephus chinensis"}) {
    EXPECT_EQ(sheets.find(name, diagnostics), sheet) << name;
  }
  EXPECT_EQ(sheets.find("chinaaster", diagnostics), nullptr);
  EXPECT_EQ(sheets.find("", diagnostics), nullptr);
  EXPECT_TRUE(diagnostics.empty());
}

TEST(SheetLibrary, AFolderAddsAndReplaces) {
  std::string replaced = named("zinnia");
  replaced.replace(replaced.find("first petals lift"), 17, "my own stage");
  const MemoryFiles files({{"crops/zinnia.toml", replaced},
                           {"crops/moon_daisy.toml", named("moon daisy")},
                           {"crops/notes.txt", "not a sheet"}});
  SheetLibrary sheets;
  Diagnostics diagnostics;
  const std::size_t before = sheets.names().size();
  EXPECT_TRUE(sheets.add_folder(files, "crops", diagnostics));
  EXPECT_FALSE(sheets.add_folder(files, "other", diagnostics));
  EXPECT_EQ(sheets.names().size(), before + 1);
  ASSERT_TRUE(sheets.find("zinnia", diagnostics));
  EXPECT_EQ(sheets.find("zinnia", diagnostics)->cut_stage, "my own stage");
  EXPECT_TRUE(sheets.find("moon-daisy", diagnostics));
  EXPECT_TRUE(diagnostics.empty()) << diagnostics.render();
}

TEST(SheetLibrary, ReadsASheetOnlyWhenItIsAskedForAndComplainsOnce) {
  const MemoryFiles files({{"crops/moon_daisy.toml", std::string("zzz")}});
  SheetLibrary sheets;
  Diagnostics diagnostics;
  EXPECT_TRUE(sheets.add_folder(files, "crops", diagnostics));
  EXPECT_TRUE(sheets.find("zinnia", diagnostics));
  EXPECT_TRUE(diagnostics.empty());
  EXPECT_EQ(sheets.find("moon daisy", diagnostics), nullptr);
  EXPECT_EQ(sheets.find("moon daisy", diagnostics), nullptr);
  EXPECT_TRUE(sheets.has("moon daisy"));
  EXPECT_EQ(diagnostics.error_count(), 1u);
}

TEST(SheetLibrary, RefusesASheetInAFileOfAnotherName) {
  const MemoryFiles files({{"crops/moon_daisy.toml", named("sun daisy")}});
  SheetLibrary sheets;
  Diagnostics diagnostics;
  sheets.add_folder(files, "crops", diagnostics);
  EXPECT_EQ(sheets.find("moon daisy", diagnostics), nullptr);
  EXPECT_EQ(diagnostics.render(),
            "crops/moon_daisy.toml: error: this is the sheet of 'sun daisy', but the file is named "
            "for 'moon daisy'\n  hint: give the file the name of its crop\n");
}

TEST(SheetLibrary, SuggestsTheNearestName) {
  SheetLibrary sheets;
  Diagnostics diagnostics;
  EXPECT_EQ(sheets.what_to_write("Zinia", diagnostics), "did you mean 'zinnia'?");
  EXPECT_EQ(sheets.what_to_write("corn_flower", diagnostics), "did you mean 'cornflower'?");
  EXPECT_EQ(sheets.what_to_write("wheelbarrow", diagnostics), "");
}

}  // namespace
}  // namespace trug::read
