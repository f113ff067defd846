// SPDX-License-Identifier: MIT
#include "read/text_file.h"

#include <gtest/gtest.h>

namespace trug::read {
namespace {

struct Row {
  const char* name;
  std::string bytes;
  std::string expected;
};

TEST(TextFile, RefusesWhatIsNoText) {
  const std::string nul("a = 1\nb\0c", 9);
  const std::string utf16(
      "\xff\xfe"
      "a\0",
      4);
  const Row rows[] = {
      {"nul", nul, "p:2:1: error: this line holds a NUL byte: this is not a text file\n"},
      {"latin 1", "a = \"Bl\xfcte\"", "p:1:1: error: this line is not UTF-8 text\n"},
      {"long line", "a = 1\n#" + std::string(4096, 'x'),
       "p:2:1: error: this line has 4097 bytes; at most 4096 are read\n"
       "  hint: break it into several lines\n"},
      {"too large", std::string(kLargestFile + 1, '\n'),
       "p: error: the file is larger than 1 MiB\n"
       "  hint: a plan is a few hundred lines of text; is this the right file?\n"},
      {"dots", std::string(201, '.'),
       "p:1:1: error: this line has 201 dots; at most 200 are read\n"},
      {"empty but for a mark", "\xef\xbb\xbf\n", "p: error: the file is empty\n"},
      {"utf-16", utf16, "p:1:1: error: this line holds a NUL byte: this is not a text file\n"},
  };
  for (const Row& row : rows) {
    SCOPED_TRACE(row.name);
    Diagnostics diagnostics;
    EXPECT_FALSE(checked_text(row.bytes, "p", diagnostics));
    ASSERT_EQ(diagnostics.sorted().size(), 1u);
    EXPECT_TRUE(
        diagnostics.render().starts_with(row.expected.substr(0, row.expected.find('\n') + 1)))
        << diagnostics.render();
  }
}

TEST(TextFile, TakesWhatJustFits) {
  for (const std::string& text : {std::string(kLongestLine, '#') + "\n", std::string(200, '.'),
                                  "#" + std::string(kLargestFile - 1, '\n')}) {
    Diagnostics diagnostics;
    EXPECT_EQ(checked_text(text, "p", diagnostics), text);
    EXPECT_TRUE(diagnostics.empty());
  }
}

TEST(TextFile, DropsTheByteOrderMark) {
  Diagnostics diagnostics;
  EXPECT_EQ(checked_text("\xef\xbb\xbf"
                         "a = 1",
                         "p", diagnostics),
            "a = 1");
}

TEST(TextFile, TellsWhyAFileCannotBeRead) {
  class Locked : public FileReader {
    FileBytes read(const std::string&, std::size_t) const override {
      return {FileState::Unreadable, {}};
    }
    std::optional<std::vector<std::string>> list(const std::string&,
                                                 std::string_view) const override {
      return std::nullopt;
    }
  };
  Diagnostics diagnostics;
  EXPECT_FALSE(read_bytes(Locked(), "p", diagnostics));
  EXPECT_EQ(diagnostics.render(),
            "p: error: the file cannot be read\n  hint: check its permissions\n");
}

}  // namespace
}  // namespace trug::read
