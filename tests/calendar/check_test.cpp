// SPDX-License-Identifier: MIT
#include "calendar/check.h"

#include <gtest/gtest.h>

#include <ostream>

#include "calendar/calendar_builders.h"
#include "calendar/content_line.h"

namespace trug::calendar {
namespace {

// A file written by hand after RFC 5545, not by trug.
const std::vector<std::string> kGood = {
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//tests//by hand//EN",
    "NAME:Vases\\, and more",
    "REFRESH-INTERVAL;VALUE=DURATION:PT12H",
    "BEGIN:VEVENT",
    "UID:294222d3-e27c-5f8a-8fec-674564b044fb",
    "DTSTAMP:20270301T060000Z",
    "SEQUENCE:0",
    "DTSTART;VALUE=DATE:20270402",
    "DTEND;VALUE=DATE:20270403",
    "SUMMARY:Sow: zinnia",
    "DESCRIPTION:one\\; two\\, \\\\ three\\nfour \"five\"",
    "CATEGORIES:sow,glass",
    "STATUS:CONFIRMED",
    "BEGIN:VALARM",
    "ACTION:DISPLAY",
    "DESCRIPTION:Sow",
    "TRIGGER:-PT6H",
    "END:VALARM",
    "END:VEVENT",
    "END:VCALENDAR",
};

std::string joined(const std::vector<std::string>& lines) {
  std::string bytes;
  for (const std::string& line : lines) bytes += line + "\r\n";
  return bytes;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << "not in the good file: " << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

// The good file with one passage replaced.
struct Defect {
  const char* name;
  const char* from;
  const char* to;
  const char* message;  // the first one
};

std::ostream& operator<<(std::ostream& out, const Defect& defect) { return out << defect.name; }

TEST(Check, AGoodCalendarPasses) {
  EXPECT_EQ(check_calendar(joined(kGood)), std::vector<std::string>{});
}

struct Variant {
  const char* name;
  const char* from;
  const char* to;
};

TEST(Check, WhatTheStandardAllowsPasses) {
  const std::vector<Variant> variants = {
      {"no DTEND", "DTEND;VALUE=DATE:20270403\r\n", ""},
      {"DURATION instead", "DTEND;VALUE=DATE:20270403", "DURATION:P1D"},
      {"weeks", "-PT6H", "-P1W"},
      {"days and a time", "-PT6H", "-P6DT16H"},
      {"all units", "-PT6H", "-P1DT2H3M4S"},
      {"minutes and seconds", "-PT6H", "PT3M4S"},
      {"absolute trigger", "TRIGGER:-PT6H", "TRIGGER;VALUE=DATE-TIME:20270401T180000Z"},
      {"moments in UTC", "DTSTART;VALUE=DATE:20270402\r\nDTEND;VALUE=DATE:20270403",
       "DTSTART:20270402T060000Z\r\nDTEND:20270402T070000Z"},
      {"unknown property with parameters", "SEQUENCE:0", "X-OTHER;A=\"b:c\":;,\r\nSEQUENCE:0"},
      {"a fold", "SUMMARY:Sow", "SUMM\r\n ARY:Sow"},
      {"lower-case names", "STATUS:CONFIRMED", "status:CONFIRMED"},
      {"URL", "SEQUENCE:0", "URL:https://example.org/a;b\r\nSEQUENCE:0"},
      {"a rule", "SEQUENCE:0", "RRULE:FREQ=DAILY;COUNT=3\r\nSEQUENCE:0"},
  };
  for (const Variant& variant : variants) {
    SCOPED_TRACE(variant.name);
    EXPECT_EQ(check_calendar(replaced(joined(kGood), variant.from, variant.to)),
              std::vector<std::string>{});
  }
}

class CheckDefect : public testing::TestWithParam<Defect> {};

TEST_P(CheckDefect, IsFound) {
  const Defect& defect = GetParam();
  const auto found = check_calendar(replaced(joined(kGood), defect.from, defect.to));
  ASSERT_FALSE(found.empty());
  EXPECT_EQ(found.front(), defect.message);
}

const Defect kDefects[] = {
    // Lines
    {"LineFeedOnly", "SUMMARY:Sow: zinnia\r\n", "SUMMARY:Sow: zinnia\n",
     "line 12: the line does not end in CRLF (RFC 5545, 3.1)"},
    {"NoLineEndAtTheEnd", "END:VCALENDAR\r\n", "END:VCALENDAR",
     "line 22: the line does not end in CRLF (RFC 5545, 3.1)"},
    {"LongLine", "Sow: zinnia",
     "Sow: zinnia, as many as there is room for, and a few more for the neighbours",
     "line 12: 84 octets in a line, more than 75 (RFC 5545, 3.1)"},
    {"SplitCharacter", "zinnia", "zinn\xc3\r\n \xa9",
     "line 12: not UTF-8, or a character split by a fold (RFC 5545, 3.1.4)"},
    {"NotUtf8", "zinnia", "zinni\xe9",
     "line 12: not UTF-8, or a character split by a fold (RFC 5545, 3.1.4)"},
    {"ControlCharacter", "zinnia", "zin\x01nia", "line 12: a control character (RFC 5545, 3.1)"},
    {"Delete", "zinnia", "zin\x7fnia", "line 12: a control character (RFC 5545, 3.1)"},
    {"BareCarriageReturn", "zinnia", "zin\rnia", "line 12: a control character (RFC 5545, 3.1)"},
    {"ByteOrderMark", "BEGIN:VCALENDAR",
     "\xef\xbb\xbf"
     "BEGIN:VCALENDAR",
     "line 1: neither a property nor a component (RFC 5545, 3.1)"},
    {"EmptyLine", "SEQUENCE:0\r\n", "SEQUENCE:0\r\n\r\n",
     "line 10: neither a property nor a component (RFC 5545, 3.1)"},
    {"NoColon", "SEQUENCE:0", "SEQUENCE 0",
     "line 9: neither a property nor a component (RFC 5545, 3.1)"},
    // Components
    {"NoEndOfEvent", "END:VEVENT\r\n", "", "line 6: VEVENT has no END (RFC 5545, 3.6)"},
    {"NoEndOfCalendar", "END:VCALENDAR\r\n", "", "line 1: VCALENDAR has no END (RFC 5545, 3.6)"},
    {"CrossedEnds", "END:VALARM\r\nEND:VEVENT", "END:VEVENT\r\nEND:VALARM",
     "line 6: VEVENT has no END (RFC 5545, 3.6)"},
    {"AlarmOutsideAnEvent", "BEGIN:VEVENT", "BEGIN:VALARM\r\nEND:VALARM\r\nBEGIN:VEVENT",
     "line 6: VALARM may not stand in VCALENDAR (RFC 5545, 3.6)"},
    {"PropertyAfterTheCalendar", "END:VCALENDAR\r\n", "END:VCALENDAR\r\nX-A:1\r\n",
     "line 23: X-A outside the calendar (RFC 5545, 3.4)"},
    {"PropertyAfterAComponent", "END:VALARM\r\n", "END:VALARM\r\nX-A:1\r\n",
     "line 21: X-A after a component (RFC 5545, 3.6)"},
    {"SecondCalendar", "END:VCALENDAR\r\n", "END:VCALENDAR\r\nBEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n",
     "line 23: a second VCALENDAR (trug's own rule)"},
    // VCALENDAR
    {"NoVersion", "VERSION:2.0\r\n", "", "line 1: VCALENDAR has no VERSION (RFC 5545, 3.7.4)"},
    {"OldVersion", "VERSION:2.0", "VERSION:1.0",
     "line 2: VERSION cannot be \"1.0\" (RFC 5545, 3.7.4)"},
    {"NoProduct", "PRODID:-//tests//by hand//EN\r\n", "",
     "line 1: VCALENDAR has no PRODID (RFC 5545, 3.7.3)"},
    {"Method", "VERSION:2.0", "VERSION:2.0\r\nMETHOD:PUBLISH",
     "line 1: VCALENDAR has 1 METHOD, at most 0 allowed (trug's own rule)"},
    {"RefreshIntervalUntyped", "REFRESH-INTERVAL;VALUE=DURATION", "REFRESH-INTERVAL",
     "line 5: REFRESH-INTERVAL without VALUE=DURATION (RFC 7986, 5.7)"},
    // VEVENT
    {"NoUid", "UID:294222d3-e27c-5f8a-8fec-674564b044fb\r\n", "",
     "line 6: VEVENT has no UID (RFC 5545, 3.6.1)"},
    {"EmptyUid", "UID:294222d3-e27c-5f8a-8fec-674564b044fb",
     "UID:", "line 7: UID of 0 octets (RFC 7986, 5.3)"},
    {"NoStamp", "DTSTAMP:20270301T060000Z\r\n", "",
     "line 6: VEVENT has no DTSTAMP (RFC 5545, 3.6.1)"},
    {"NoStart", "DTSTART;VALUE=DATE:20270402\r\n", "",
     "line 6: VEVENT has no DTSTART (RFC 5545, 3.6.1)"},
    {"TwoSummaries", "SUMMARY:Sow: zinnia", "SUMMARY:Sow: zinnia\r\nSUMMARY:Sow",
     "line 6: VEVENT has 2 SUMMARY, at most 1 allowed (RFC 5545, 3.6.1)"},
    {"ThirtiethOfFebruary", "20270403", "20270230",
     "line 11: DTEND cannot be \"20270230\" (RFC 5545, 3.8.2.2)"},
    {"DateWithHyphens", "DATE:20270402", "DATE:2027-04-02",
     "line 10: DTSTART cannot be \"2027-04-02\" (RFC 5545, 3.8.2.4)"},
    {"DateNotTyped", "DTSTART;VALUE=DATE:", "DTSTART:",
     "line 10: DTSTART cannot be \"20270402\" (RFC 5545, 3.8.2.4)"},
    {"EndBeforeStart", "20270403", "20270401",
     "line 11: DTEND is not later than DTSTART (RFC 5545, 3.8.2.2)"},
    {"EndAtStart", "20270403", "20270402",
     "line 11: DTEND is not later than DTSTART (RFC 5545, 3.8.2.2)"},
    {"EndOfAnotherType", "DTEND;VALUE=DATE:20270403", "DTEND:20270403T060000Z",
     "line 11: DTEND is of another type than DTSTART (RFC 5545, 3.8.2.2)"},
    {"EndAndDuration", "SEQUENCE:0", "SEQUENCE:0\r\nDURATION:P1D",
     "line 6: VEVENT has both DTEND and DURATION (RFC 5545, 3.6.1)"},
    {"TimeZoneWithoutItsRules", "DTSTART;VALUE=DATE:", "DTSTART;TZID=Nowhere;VALUE=DATE:",
     "line 10: DTSTART names a time zone the file does not hold (RFC 5545, 3.2.19)"},
    {"LocalStamp", "060000Z", "060000",
     "line 8: DTSTAMP cannot be \"20270301T060000\" "
     "(RFC 5545, 3.8.7.2)"},
    {"SequenceBelowNought", "SEQUENCE:0", "SEQUENCE:-1",
     "line 9: SEQUENCE cannot be \"-1\" (RFC 5545, 3.8.7.4)"},
    {"SequenceTooLarge", "SEQUENCE:0", "SEQUENCE:2147483648",
     "line 9: SEQUENCE cannot be \"2147483648\" (RFC 5545, 3.8.7.4)"},
    {"StatusOfAnotherComponent", "STATUS:CONFIRMED", "STATUS:DRAFT",
     "line 15: STATUS cannot be \"DRAFT\" (RFC 5545, 3.8.1.11)"},
    {"CommaNotEscaped", "SUMMARY:Sow: zinnia", "SUMMARY:Sow, zinnia",
     "line 12: SUMMARY cannot be \"Sow, zinnia\" (RFC 5545, 3.8.1.12)"},
    {"SemicolonNotEscaped", "SUMMARY:Sow: zinnia", "SUMMARY:Sow; zinnia",
     "line 12: SUMMARY cannot be \"Sow; zinnia\" (RFC 5545, 3.8.1.12)"},
    {"StrayBackslash", "SUMMARY:Sow: zinnia", "SUMMARY:Sow\\t",
     "line 12: SUMMARY cannot be \"Sow\\t\" (RFC 5545, 3.8.1.12)"},
    {"BackslashAtTheEnd", "SUMMARY:Sow: zinnia", "SUMMARY:Sow\\",
     "line 12: SUMMARY cannot be \"Sow\\\" (RFC 5545, 3.8.1.12)"},
    {"UrlWithoutScheme", "SEQUENCE:0", "URL:example.org\r\nSEQUENCE:0",
     "line 9: URL cannot be \"example.org\" (RFC 5545, 3.8.4.6)"},
    {"CountAndUntil", "SEQUENCE:0", "SEQUENCE:0\r\nRRULE:FREQ=DAILY;COUNT=3;UNTIL=20270601",
     "line 10: RRULE cannot be \"FREQ=DAILY;COUNT=3;UNTIL=20270601\" (RFC 5545, 3.3.10)"},
    // VALARM
    {"NoAction", "ACTION:DISPLAY\r\n", "", "line 16: VALARM has no ACTION (RFC 5545, 3.6.6)"},
    {"NoTrigger", "TRIGGER:-PT6H\r\n", "", "line 16: VALARM has no TRIGGER (RFC 5545, 3.6.6)"},
    {"NothingToDisplay", "ACTION:DISPLAY\r\nDESCRIPTION:Sow\r\n", "ACTION:DISPLAY\r\n",
     "line 16: VALARM with ACTION:DISPLAY has no DESCRIPTION (RFC 5545, 3.6.6)"},
    {"TwoTriggers", "TRIGGER:-PT6H", "TRIGGER:-PT6H\r\nTRIGGER:-PT7H",
     "line 16: VALARM has 2 TRIGGER, at most 1 allowed (RFC 5545, 3.6.6)"},
    {"RepeatWithoutDuration", "TRIGGER:-PT6H", "TRIGGER:-PT6H\r\nREPEAT:2",
     "line 16: VALARM has one of DURATION and REPEAT without the other (RFC 5545, 3.6.6)"},
    {"HoursAmongDays", "-PT6H", "-P1H", "line 19: TRIGGER cannot be \"-P1H\" (RFC 5545, 3.8.6.3)"},
    {"NoHours", "-PT6H", "-PT", "line 19: TRIGGER cannot be \"-PT\" (RFC 5545, 3.8.6.3)"},
    {"GapBetweenUnits", "-PT6H", "-PT6H5S",
     "line 19: TRIGGER cannot be \"-PT6H5S\" (RFC 5545, 3.8.6.3)"},
    {"WeeksAndDays", "-PT6H", "-P1W2D",
     "line 19: TRIGGER cannot be \"-P1W2D\" (RFC 5545, 3.8.6.3)"},
    {"NoUnit", "-PT6H", "-PT6", "line 19: TRIGGER cannot be \"-PT6\" (RFC 5545, 3.8.6.3)"},
};

INSTANTIATE_TEST_SUITE_P(Table, CheckDefect, testing::ValuesIn(kDefects),
                         [](const auto& row) { return std::string(row.param.name); });

TEST(Check, TheSameUidTwiceIsFound) {
  std::vector<std::string> lines = kGood;
  lines.insert(lines.end() - 1, kGood.begin() + 5, kGood.end() - 1);
  EXPECT_EQ(check_calendar(joined(lines)),
            std::vector<std::string>{"line 23: a second event with UID "
                                     "294222d3-e27c-5f8a-8fec-674564b044fb (RFC 5545, 3.8.4.7)"});
}

TEST(Check, ACalendarNeedsAComponent) {
  const std::string bytes = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nEND:VCALENDAR\r\n";
  EXPECT_EQ(check_calendar(bytes),
            std::vector<std::string>{"line 1: the calendar holds no component (RFC 5545, 3.6)"});
}

TEST(Check, NothingIsNoCalendar) {
  EXPECT_EQ(check_calendar(""),
            std::vector<std::string>{"line 1: there is no VCALENDAR (RFC 5545, 3.4)"});
}

TEST(Check, FindsEveryDefectInTheOrderOfTheFile) {
  const std::string bytes =
      replaced(replaced(joined(kGood), "SEQUENCE:0", "SEQUENCE:x"), "-PT6H", "soon");
  EXPECT_EQ(check_calendar(bytes),
            (std::vector<std::string>{"line 9: SEQUENCE cannot be \"x\" (RFC 5545, 3.8.7.4)",
                                      "line 19: TRIGGER cannot be \"soon\" (RFC 5545, 3.8.6.3)"}));
}

TEST(Check, AFoldMayStandAnywhereButInACharacter) {
  const std::string good = replaced(joined(kGood), "Sow: zinnia", "Sow: caf\u00e9");
  const std::vector<std::string> folded_ones = {
      "UID:294222d3-e27c-5f8a-8fec-674564b044fb", "DTSTART;VALUE=DATE:20270402",
      "SUMMARY:Sow: caf\u00e9", "END:VEVENT", "TRIGGER:-PT6H"};
  for (const std::string& line : folded_ones) {
    for (std::size_t at = 1; at <= line.size(); ++at) {
      const bool in_character = at == line.size() - 1 && line.starts_with("SUMMARY");
      const std::string folded = line.substr(0, at) + "\r\n\t" + line.substr(at);
      EXPECT_EQ(check_calendar(replaced(good, line, folded)).empty(), !in_character) << folded;
    }
  }
}

TEST(Check, WhatIsFoldedIsReadWhole) {
  EXPECT_EQ(
      check_calendar(
          replaced(joined(kGood), "END;VALUE=DATE:20270403", "END;VAL\r\n UE=DATE:2027\r\n 0402")),
      std::vector<std::string>{"line 11: DTEND is not later than DTSTART (RFC 5545, 3.8.2.2)"});
  std::vector<std::string> lines = kGood;
  lines.insert(lines.end() - 1, kGood.begin() + 5, kGood.end() - 1);
  lines[22] = "UID:294222d3-e27c\r\n -5f8a-8fec-674564b044fb";
  EXPECT_EQ(check_calendar(joined(lines)),
            std::vector<std::string>{"line 23: a second event with UID "
                                     "294222d3-e27c-5f8a-8fec-674564b044fb (RFC 5545, 3.8.4.7)"});
}

TEST(Check, ANulIsAControlCharacterAndEndsNothing) {
  const std::string nul(1, '\0');
  const std::string bytes =
      replaced(replaced(joined(kGood), "zinnia", "zin" + nul + "nia"), "-PT6H", "soon");
  EXPECT_EQ(check_calendar(bytes),
            (std::vector<std::string>{"line 12: a control character (RFC 5545, 3.1)",
                                      "line 19: TRIGGER cannot be \"soon\" (RFC 5545, 3.8.6.3)"}));
}

TEST(Check, AVeryLongLineIsTooLongAndNothingElse) {
  const std::string text(3'000'000, 'x');
  EXPECT_EQ(
      check_calendar(replaced(joined(kGood), "zinnia", text)),
      std::vector<std::string>{"line 12: 3000013 octets in a line, more than 75 (RFC 5545, 3.1)"});
  std::string folded;
  append_folded(folded, "DESCRIPTION:" + text);
  EXPECT_EQ(check_calendar(replaced(joined(kGood), "SEQUENCE:0\r\n", "SEQUENCE:0\r\n" + folded)),
            std::vector<std::string>{
                "line 6: VEVENT has 2 DESCRIPTION, at most 1 allowed (RFC 5545, 3.6.1)"});
}

TEST(Check, EveryCutOfAGoodFileIsFound) {
  const std::string whole = joined(kGood);
  for (std::size_t length = 0; length < whole.size(); ++length) {
    EXPECT_FALSE(check_calendar(whole.substr(0, length)).empty()) << length;
  }
}

}  // namespace
}  // namespace trug::calendar
