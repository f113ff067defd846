// SPDX-License-Identifier: MIT
#include "base/text.h"

#include <gtest/gtest.h>

namespace trug {
namespace {

using Words = std::vector<std::string>;

// Malformed sequences of RFC 3629, 3, 4 and 10: overlong forms, surrogates, beyond U+10FFFF.
TEST(Text, KnowsUtf8) {
  for (const char* text : {"", "zinnia", "Blüte", "花", "\U0001F33C"})
    EXPECT_TRUE(is_valid_utf8(text));
  for (const char* text :
       {"\xff", "\xc0\x80", "\xed\xa0\x80", "\xf4\x90\x80\x80", "a\x80", "\xe2\x82"}) {
    SCOPED_TRACE(text);
    EXPECT_FALSE(is_valid_utf8(text));
  }
}

TEST(Text, FindsControlCharacters) {
  for (const char* text : {"a\nb", "a\rb", "\t", "\x1b[2J", "\x7f", "\u0085", "\u009b", "\u2028"}) {
    EXPECT_TRUE(has_control_character(text)) << testing::PrintToString(text);
  }
  EXPECT_TRUE(has_control_character(std::string_view("a\0b", 3)));
  for (const char* text : {"", "west bed", "é", "\u00a0"})
    EXPECT_FALSE(has_control_character(text));
}

// Unicode 15, 23.2 and 23.8: characters that turn the direction of text, and those without width.
TEST(Text, FindsCharactersThatHideOrTurnOthers) {
  for (const char* text :
       {"\u202a", "\u202e", "\u2066", "\u2069", "\u200b", "\u2060", "\ufeff", "zin\u00adnia"}) {
    EXPECT_TRUE(has_control_character(text)) << text;
  }
  for (const char* text : {"\u200c", "\u200d", "\u200e", "\u200f", "\u0301", "\ufe0f"}) {
    EXPECT_FALSE(has_control_character(text)) << text;
  }
}

TEST(Text, PrintsWhatCannotActOnATerminal) {
  EXPECT_EQ(printable("a\tb\nc\rd\x7f"), "a\tb\nc?d?");
  EXPECT_EQ(printable("x \x1b]0;y\a \u009b1m \u202e \xff\xe2\x82 é花"), "x ?]0;y? ?1m ? ??? é花");
  const std::string bold = "\x1b[1mbold\x1b[0m \x1b[40;97m";
  EXPECT_EQ(printable(bold, true), bold);
  EXPECT_EQ(printable(bold), "?[1mbold?[0m ?[40;97m");
  for (const char* text : {"\x1b[8m", "\x1b[1;8m", "\x1b[2J", "\x1b[1", "\x1b", "\x1b[1;x"}) {
    EXPECT_EQ(printable(text, true), "?" + std::string(text + 1)) << "it hides or moves";
  }
  EXPECT_EQ(printable(std::string_view("a\0b", 3)), "a?b");
}

// Unicode Standard Annex 15: e + combining acute composes to é.
TEST(Text, ComparesInNormalFormC) {
  EXPECT_EQ(nfc("Cafe\u0301"), "Caf\u00e9");
  EXPECT_EQ(nfc(nfc("Cafe\u0301")), "Caf\u00e9");
  EXPECT_EQ(folded("CAFE\u0301"), folded("caf\u00e9"));
  EXPECT_EQ(folded("STRASSE"), folded("stra\u00dfe"));
}

TEST(Text, TakesColumnsInATerminal) {
  EXPECT_EQ(display_width("zinnia"), 6);
  EXPECT_EQ(display_width("e\u0301"), 1);  // a combining mark takes none
  EXPECT_EQ(display_width("花"), 2);       // East Asian Wide (Unicode Annex 11)
  EXPECT_EQ(padded("花", 4), "花  ");
  EXPECT_EQ(padded("zinnia", 3), "zinnia");
}

TEST(Text, WrapsAtBlanks) {
  EXPECT_EQ(wrapped("sow the seed thinly", 8), (Words{"sow the", "seed", "thinly"}));
  EXPECT_EQ(wrapped("chrysanthemums", 5), (Words{"chrysanthemums"}));
  EXPECT_EQ(wrapped("", 5), (Words{""}));
}

TEST(Text, ListsWords) {
  EXPECT_EQ(listed(Words{}), "");
  EXPECT_EQ(listed(Words{"a"}), "a");
  EXPECT_EQ(listed(Words{"a", "b"}), "a and b");
  EXPECT_EQ(listed(Words{"a", "b", "c"}, "or"), "a, b or c");
}

TEST(Text, CountsAndWritesNumbers) {
  for (const auto& [share, words] : {std::pair{0.04, "hardly any"},
                                     {0.05, "about 1 in ten"},
                                     {0.748, "about 7 in ten"},
                                     {0.949, "about 9 in ten"},
                                     {0.951, "nearly all"}}) {
    EXPECT_EQ(in_ten(share), words);
  }
  EXPECT_EQ(counted(1, "stem"), "1 stem");
  EXPECT_EQ(counted(0, "stem"), "0 stems");
  EXPECT_EQ(counted(2, "day lily", "day lilies"), "2 day lilies");
  EXPECT_EQ(number(0.8), "0.8");
  EXPECT_EQ(number(16.0), "16");
  EXPECT_EQ(number(-0.04), "0");
  EXPECT_EQ(number(100.0, 0), "100");
  EXPECT_EQ(number(2.345, 2), "2.35");
}

TEST(Text, CountsEdits) {
  const struct {
    const char* a;
    const char* b;
    int edits;
  } rows[] = {{"", "", 0},
              {"", "abc", 3},
              {"zinnia", "zinnia", 0},
              {"zinia", "zinnia", 1},
              {"lenght", "length", 1},
              {"kitten", "sitting", 3},
              {"ca", "abc", 3}};  // optimal string alignment: no second edit of a swapped pair
  for (const auto& row : rows) {
    SCOPED_TRACE(row.a);
    EXPECT_EQ(edit_distance(row.a, row.b), row.edits);
    EXPECT_EQ(edit_distance(row.b, row.a), row.edits);
  }
}

TEST(Text, SuggestsOnlyWhatIsNear) {
  const Words words = {"length_m", "length_cm", "width_m", "id"};
  EXPECT_EQ(nearest("lenght_m", words), "length_m");
  EXPECT_EQ(nearest("colour", words), "");
  EXPECT_EQ(nearest("if", words), "id");
  EXPECT_EQ(nearest("of", words), "");
}

TEST(Text, CapitalsOfAsciiAreMadeSmallAndNoOthers) {
  EXPECT_EQ(lower_ascii("Nan's BORDER 2 \u00c4"), "nan's border 2 \u00c4");
  EXPECT_EQ(uncapitalised("Plant Out"), "plant Out");
  EXPECT_EQ(uncapitalised("\u00c4"), "\u00c4");
  EXPECT_EQ(uncapitalised(""), "");
}

}  // namespace
}  // namespace trug
