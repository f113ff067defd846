// SPDX-License-Identifier: MIT
#include "calendar/content_line.h"

#include <gtest/gtest.h>

#include <random>

#include "base/text.h"
#include "calendar/calendar_builders.h"

namespace trug::calendar {
namespace {

std::vector<std::string> physical_lines(const std::string& folded_text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < folded_text.size();) {
    const std::size_t end = folded_text.find("\r\n", at);
    EXPECT_NE(end, std::string::npos) << "the last line has no CRLF";
    if (end == std::string::npos) break;
    lines.push_back(folded_text.substr(at, end - at));
    at = end + 2;
  }
  return lines;
}

std::string fold(std::string_view text) {
  std::string bytes;
  append_folded(bytes, text);
  return bytes;
}

// As they were taken, each with a text of its own.
struct Taken {
  int line;
  std::string bytes;  // its octets in the file
  std::string text;
  bool operator==(const Taken&) const = default;
};

std::ostream& operator<<(std::ostream& out, const Taken& taken) {
  return out << taken.line << ": " << testing::PrintToString(taken.bytes) << " is "
             << testing::PrintToString(taken.text);
}

std::vector<Taken> unfold(std::string_view bytes) {
  std::vector<Taken> result;
  for (ContentLines lines(bytes); lines.next();) {
    const ContentLine& line = lines.line();
    result.push_back({line.line, std::string(bytes.substr(line.from, line.until - line.from)),
                      std::string(line.text)});
  }
  return result;
}

TEST(ContentLine, SeventyFiveOctetsStayInOneLine) {
  const std::string text = "SUMMARY:" + std::string(67, 'x');
  EXPECT_EQ(fold(text), text + "\r\n");
  EXPECT_EQ(fold(text + "y"), text + "\r\n y\r\n");
}

TEST(ContentLine, FoldsInsideWordsAndNotAtBlanks) {
  // The 75th octet is the blank before "tomorrow": the break moves into the word before it.
  const std::string text = "SUMMARY:" + std::string(60, 'x') + " sowing tomorrow";
  EXPECT_EQ(fold(text), "SUMMARY:" + std::string(60, 'x') + " sowin\r\n g tomorrow\r\n");
}

TEST(ContentLine, LettersOfOneOctetBetweenBlanksFoldBeforeABlank) {
  std::string text = "SUMMARY:";
  for (int i = 0; i < 60; ++i) text += "a ";
  for (const std::string& line : physical_lines(fold(text + "b"))) {
    EXPECT_FALSE(line.ends_with(' ')) << line;
    EXPECT_LE(line.size(), kLineOctets);
  }
}

TEST(ContentLine, ABlankDesertIsStillFolded) {
  const std::string text = "SUMMARY:a" + std::string(200, ' ') + "b";
  const std::string result = fold(text);
  for (const std::string& line : physical_lines(result)) EXPECT_LE(line.size(), kLineOctets);
  EXPECT_EQ(unfold(result).front().text, text);
}

// Any text comes back, in lines of at most 75 octets that are UTF-8 each by itself.
TEST(ContentLine, FoldingAndUnfoldingIsTheIdentity) {
  const std::vector<std::string> letters = {"a", "b", " ", "\\n", "\u00e9", "\u20ac", "\U0001F337"};
  std::mt19937 random(20270514);
  for (int round = 0; round < 3000; ++round) {
    std::string text = "DESCRIPTION:x";
    const auto length = random() % 260;
    for (std::size_t i = 0; i < length; ++i) text += letters[random() % letters.size()];
    text += "x";
    const std::string result = fold(text);
    for (const std::string& line : physical_lines(result)) {
      ASSERT_LE(line.size(), kLineOctets) << text;
      ASSERT_TRUE(is_valid_utf8(line)) << text;
    }
    ASSERT_EQ(unfold(result), (std::vector<Taken>{{1, result, text}}));
  }
}

TEST(ContentLine, EachLineKnowsWhereItStands) {
  EXPECT_EQ(
      unfold("A:1\r\nB:2\r\n 3\r\n\t4\r\nC:5\r\n"),
      (std::vector<Taken>{
          {1, "A:1\r\n", "A:1"}, {2, "B:2\r\n 3\r\n\t4\r\n", "B:234"}, {5, "C:5\r\n", "C:5"}}));
}

TEST(ContentLine, OtherEndsOfLinesAndOfTheFileAreTaken) {
  EXPECT_EQ(unfold(""), std::vector<Taken>{});
  EXPECT_EQ(unfold("A:1\n B\r\n\nC"),
            (std::vector<Taken>{{1, "A:1\n B\r\n", "A:1B"}, {3, "\n", ""}, {4, "C", "C"}}));
  EXPECT_EQ(unfold("A:1\r\n "), (std::vector<Taken>{{1, "A:1\r\n ", "A:1"}}));
  EXPECT_EQ(unfold(" A\r\n B\r"), (std::vector<Taken>{{1, " A\r\n B\r", " AB"}}));
  EXPECT_EQ(unfold("\r\n \r\n"), (std::vector<Taken>{{1, "\r\n \r\n", ""}}));
}

TEST(ContentLine, AFoldInsideACharacterAndANulAreTakenAsTheyAre) {
  using namespace std::string_view_literals;
  EXPECT_EQ(unfold("A:caf\xc3\r\n \xa9\r\n").front().text, "A:caf\xc3\xa9");
  EXPECT_EQ(unfold("A:\0\r\n \0B\r\n"sv).front().text, "A:\0\0B"sv);
}

TEST(ContentLine, AVeryLongLineIsOne) {
  const std::string text = "A:" + std::string(3'000'001, 'x');
  EXPECT_EQ(unfold(text + "\r\nB:2\r\n"),
            (std::vector<Taken>{{1, text + "\r\n", text}, {2, "B:2\r\n", "B:2"}}));
  EXPECT_EQ(unfold(fold(text)).front().text, text);
}

TEST(ContentLine, PropertyHasNameParametersAndValue) {
  const auto property = parse_property("attach;fmttype=text/plain;x-a=\"b;c:d\",e:http://h/;p:q");
  ASSERT_TRUE(property.has_value());
  EXPECT_EQ(property->name, "ATTACH");
  EXPECT_EQ(property->parameter("FMTTYPE"), "text/plain");
  EXPECT_EQ(property->parameter("X-A"), "b;c:d");
  EXPECT_EQ(property->parameter("VALUE"), "");
  EXPECT_EQ(property->value, "http://h/;p:q");
}

TEST(ContentLine, WhatIsNoPropertyIsRefused) {
  for (const char* text : {"", "SUMMARY", ":x", "SUM MARY:x", "SUMMARY;:x", "SUMMARY;A:x",
                           "SUMMARY;A=\"b:x", "SUMMARY;A=b\"c\":x", "SUMMARY;A=b", "S\u00dcM:x"}) {
    EXPECT_FALSE(parse_property(text).has_value()) << text;
  }
}

TEST(ContentLine, UnescapesText) {
  EXPECT_EQ(unescape("a\\, b\\; c\\\\d\\ne\\Nf"), "a, b; c\\d\ne\nf");
}

TEST(ContentLine, ReadsDaysThatExistAndNoOthers) {
  EXPECT_EQ(parse_date_value("20280229"), make_date(2028, 2, 29));
  EXPECT_EQ(date_value(make_date(2028, 2, 29)), "20280229");
  for (const char* text : {"20270229", "20270230", "20271399", "2027-03-29", "2027032", "202703290",
                           "2027032a", "-0270329", ""}) {
    EXPECT_FALSE(parse_date_value(text).has_value()) << text;
  }
}

TEST(ContentLine, ReadsMomentsInUtcAndNoOthers) {
  const Instant moment = make_date(2027, 3, 1) + std::chrono::hours{6} + std::chrono::seconds{7};
  EXPECT_EQ(parse_instant_value("20270301T060007Z"), moment);
  EXPECT_EQ(instant_value(moment), "20270301T060007Z");
  for (const char* text :
       {"20270301T060007", "20270301T240000Z", "20270301T006000Z", "20270301T000060Z",
        "20270230T060007Z", "20270301 060007Z", "20270301", "20270301T-10007Z"}) {
    EXPECT_FALSE(parse_instant_value(text).has_value()) << text;
  }
}

TEST(ContentLine, CountsAreOfThirtyTwoBitsAndNotNegative) {
  EXPECT_EQ(parse_count("0"), 0);
  EXPECT_EQ(parse_count("2147483647"), 2147483647);
  for (const char* text : {"", "-1", "-0", "+1", "1.0", "2147483648", "1 "}) {
    EXPECT_FALSE(parse_count(text).has_value()) << text;
  }
}

}  // namespace
}  // namespace trug::calendar
