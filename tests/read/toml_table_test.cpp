// SPDX-License-Identifier: MIT
#include "read/toml_table.h"

#include <gtest/gtest.h>

namespace trug::read {
namespace {

// A table of a text that must be TOML, and what is reported about it.
struct Fixture {
  explicit Fixture(std::string_view text) : table(TomlTable::parse(text, "p", diagnostics)) {}
  Diagnostics diagnostics;
  std::optional<TomlTable> table;
};

std::string place(const Position& at) {
  return std::to_string(at.line) + ":" + std::to_string(at.column);
}

// The library turns 120 into true, 1.9 into 1 and a wrong type into the default.
TEST(TomlTableTrap, NoKindTurnsIntoAnother) {
  Fixture f("a = 120\nb = 1.9\nc = \"1\"\nd = true\ne = 1");
  EXPECT_EQ(f.table->boolean("a"), std::nullopt);
  EXPECT_EQ(f.table->whole_number("b"), std::nullopt);
  EXPECT_EQ(f.table->number("c"), std::nullopt);
  EXPECT_EQ(f.table->number("d"), std::nullopt);
  EXPECT_EQ(f.table->text("e"), std::nullopt);
  EXPECT_EQ(f.diagnostics.error_count(), 5u);
  EXPECT_EQ(f.table->number("e"), 1.0);  // but a whole number is a number
}

TEST(TomlTableTrap, ADateWithATimeIsNoDate) {
  Fixture f("a = 2027-05-14T10:00:00\nb = 2027-05-14\nc = 10:00:00");
  EXPECT_EQ(f.table->date("a"), std::nullopt);
  EXPECT_EQ(f.table->date("b"), make_date(2027, 5, 14));
  EXPECT_EQ(f.table->date("c"), std::nullopt);
  EXPECT_EQ(f.table->time_of_day("c"), 600);
  EXPECT_EQ(f.diagnostics.error_count(), 2u);
}

// The library's tables are in alphabetical order.
TEST(TomlTableTrap, ReportsComeInTheOrderOfTheFile) {
  Fixture f("zzzzzzz = 1\nmmmmmmm = 1\naaaaaaa = 1");
  f.table->finish();
  std::string order;
  for (const Diagnostic& entry : f.diagnostics.sorted()) order += place(entry.position) + " ";
  EXPECT_EQ(order, "1:1 2:1 3:1 ");
}

TEST(TomlTableTrap, ColumnsCountCodePoints) {
  Fixture f("x = { \"Blüte\" = 1, bad = 2 }");
  auto inner = f.table->table("x");
  ASSERT_TRUE(inner);
  EXPECT_EQ(place(inner->at("bad")), "1:26");
}

TEST(TomlTable, KnowsWhereThingsStand) {
  Fixture f("top = 1\n[a]\nb.c = 2\n[[d]]\n[[d]]\ne = { f = 3 }");
  EXPECT_EQ(place(f.table->at()), "1:1");
  EXPECT_EQ(place(f.table->at("top")), "1:7");
  EXPECT_EQ(place(f.table->at("none")), "1:1");
  auto a = f.table->table("a");
  ASSERT_TRUE(a);
  EXPECT_EQ(place(a->at()), "2:1");
  EXPECT_EQ(place(a->table("b")->at("c")), "3:7");
  auto d = f.table->tables("d");
  ASSERT_EQ(d.size(), 2u);
  EXPECT_EQ(place(d[1].at()), "5:1");
  EXPECT_EQ(place(d[1].table("e")->at("f")), "6:11");
}

TEST(TomlTable, ReadsCrlfAndAByteOrderMark) {
  Fixture f(
      "\xef\xbb\xbf"
      "a = \"x\"\r\nb = 2\r\n");
  EXPECT_EQ(f.table->text("a"), "x");
  EXPECT_EQ(f.table->whole_number("b"), 2);
  EXPECT_EQ(place(f.table->at("a")), "1:5");
  EXPECT_TRUE(f.diagnostics.empty());
}

TEST(TomlTable, TrimsAndComposesText) {
  Fixture f("a = \"  Cafe\\u0301 bed \"");
  EXPECT_EQ(f.table->text("a"), "Caf\u00e9 bed");
}

TEST(TomlTable, ReadsDaysInEveryForm) {
  Fixture f("a = \"14 May\"\nb = \"May 14th\"\nc = 1999-05-14\nd = \"14. May 2027\"");
  for (const char* key : {"a", "b", "c", "d"}) {
    EXPECT_EQ(f.table->month_day(key), (MonthDay{std::chrono::May / 14})) << key;
  }
}

TEST(TomlTable, ReadsDatesInEveryForm) {
  Fixture f("a = 2027-05-14\nb = \"2027-05-14\"\nc = \"14 May 2027\"\nd = \"May 14th, 2027\"");
  for (const char* key : {"a", "b", "c", "d"}) {
    EXPECT_EQ(f.table->date(key), make_date(2027, 5, 14)) << key;
  }
  EXPECT_TRUE(f.diagnostics.empty());
}

TEST(TomlTable, ReadsWeekdaysOnce) {
  Fixture f("days = [\"Sat\", \"sunday\", \"Saturday\"]");
  EXPECT_EQ(f.table->weekdays("days"),
            (std::vector<std::chrono::weekday>{std::chrono::Saturday, std::chrono::Sunday}));
  EXPECT_TRUE(f.table->weekdays("none").empty());
  EXPECT_TRUE(f.diagnostics.empty());
}

TEST(TomlTable, ReadsRangesAndRefusesThemBackwards) {
  Fixture f("a = 5\nb = [1, 2.5]\nc = [2, 1]\nd = [1, 2, 3]\ne = [1, \"2\"]\nf = [0, 9]");
  EXPECT_EQ(f.table->range("a"), (Range{5, 5}));
  EXPECT_EQ(f.table->range("b"), (Range{1, 2.5}));
  EXPECT_EQ(f.table->range("f", kOptional, {1, 9}), std::nullopt);
  for (const char* key : {"c", "d", "e"}) EXPECT_EQ(f.table->range(key), std::nullopt) << key;
  EXPECT_EQ(f.diagnostics.render(),
            "p:3:5: error: 'c' must have the lower number first\n  | c = [2, 1]\n  |     ^\n"
            "  hint: write c = [1, 2]\n"
            "p:4:5: error: 'd' must be a number or [lowest, highest], not 3 numbers\n"
            "  | d = [1, 2, 3]\n  |     ^\n"
            "p:5:9: error: 'e' must be a number, not a string\n"
            "  | e = [1, \"2\"]\n  |         ^\n  hint: leave the quotes away\n"
            "p:6:6: error: 'f' must be from 1 to 9, not 0\n  | f = [0, 9]\n  |      ^\n");
}

TEST(TomlTable, ReportsOneMistakeOnce) {
  Fixture f("lenght = 1");
  EXPECT_EQ(f.table->number("length", required()), std::nullopt);
  EXPECT_EQ(f.table->number("other", required("other = 2")), std::nullopt);
  f.table->finish();
  EXPECT_EQ(f.diagnostics.render(),
            "p:1:1: error: unknown key 'lenght'\n  | lenght = 1\n  | ^\n"
            "  hint: did you mean 'length'?\n"
            "p:1:1: error: missing key 'other'\n  | lenght = 1\n  | ^\n"
            "  hint: for example: other = 2\n");
}

TEST(TomlTable, SendsAKeyToEveryHeadingItMayStandUnder) {
  Fixture f("id = 1");
  const KeyHome homes[] = {{"id", "[[bed]]"}, {"id", "[[crop]]"}};
  f.table->finish(homes);
  EXPECT_EQ(f.diagnostics.sorted().at(0).hint,
            "'id' belongs under [[bed]] or [[crop]]: move it there");
}

TEST(TomlTable, RefusesNumbersBeyondReason) {
  Fixture f("a = inf\nb = 9223372036854775807\nc = -nan");
  EXPECT_EQ(f.table->number("a"), std::nullopt);
  EXPECT_EQ(f.table->whole_number("b"), std::nullopt);
  EXPECT_EQ(f.table->number("c"), std::nullopt);
  EXPECT_EQ(f.diagnostics.error_count(), 3u);
}

TEST(TomlTable, ListsEveryKeyByItsPath) {
  Fixture f("a = 1\n[[way]]\nname = \"in May\"\nb = [1, 2]\n[way.c]\nd = { e = 2.5 }");
  std::string numbers;
  for (const KeyPath& path : f.table->key_paths()) {
    if (path.is_number) numbers += path.path + "|";
  }
  EXPECT_EQ(numbers, "a|way.in May.b|way.in May.c.d.e|");
}

// The library's own words must not come through; those that do are new and want rewording.
TEST(TomlTable, SpeaksNoJargon) {
  for (const char* text :
       {"a", "a =", "= 1", "a = [1", "a = {b = 1", "a = 1 b = 2", "[a", "a = 05", "a = \"\\q\"",
        "a = -", "a = 1__0", "a = 2027-13-01", "a : 5", "]", "a = '''x", "a = 99999999999999999999",
        "[a]\nb = 1\n[[a]]", "a = tru"}) {
    SCOPED_TRACE(text);
    Fixture f(text);
    EXPECT_FALSE(f.table);
    const std::string report = f.diagnostics.render();
    for (const char* word : {"key-value", "bare key", "end-of-file", "TOML_", "redefine", "integer",
                             "Error while", "table header", "root table"}) {
      EXPECT_EQ(report.find(word), std::string::npos) << report;
    }
  }
}

}  // namespace
}  // namespace trug::read
