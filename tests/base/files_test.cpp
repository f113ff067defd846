// SPDX-License-Identifier: MIT
#include "base/files.h"

#include <gtest/gtest.h>

namespace trug {
namespace {

const MemoryFiles kFiles({{"garden/plan.toml", "title"},
                          {"garden/crops/zinnia.toml", "z"},
                          {"garden/crops/aster.toml", "a"},
                          {"garden/crops/notes.txt", "n"},
                          {"garden/crops/old/rose.toml", "r"}});

TEST(MemoryFiles, SaysWhyThereAreNoBytes) {
  EXPECT_EQ(kFiles.read("garden/plan.toml", 5).bytes, "title");
  EXPECT_EQ(kFiles.read("garden/plan.toml", 5).state, FileState::Read);
  EXPECT_EQ(kFiles.read("garden/plan.toml", 4).state, FileState::TooLarge);
  EXPECT_EQ(kFiles.read("garden/crops", 5).state, FileState::Folder);
  EXPECT_EQ(kFiles.read("garden/other.toml", 5).state, FileState::Missing);
}

TEST(MemoryFiles, ListsTheFilesOfOneFolderSorted) {
  const std::vector<std::string> expected = {"aster.toml", "zinnia.toml"};
  EXPECT_EQ(kFiles.list("garden/crops", ".toml"), expected);
  EXPECT_EQ(kFiles.list("garden/crop", ".toml"), std::nullopt);
}

}  // namespace
}  // namespace trug
