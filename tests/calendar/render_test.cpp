// SPDX-License-Identifier: MIT
// Each trap here was met in libical 3.0.16.
#include "calendar/render.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "calendar/calendar_builders.h"
#include "calendar/check.h"
#include "calendar/content_line.h"

namespace trug::calendar {
namespace {

using test::value;
using work::JobKind;

Event sowing() { return test::event("zinnia", JobKind::Sow, "2027-04-02"); }

std::string file_of(const Event& event, Profile profile = Profile::Import) {
  return render_head(test::head(), profile, {3, test::instant("20270301T060000Z")}) +
         test::lone_event(event) + std::string(kCalendarEnd);
}

TEST(Render, AnEventHasItsPropertiesInAFixedOrder) {
  const Revision revision{4, test::instant("20270301T060000Z"), test::day("2027-04-10")};
  EXPECT_EQ(render_event(sowing(), revision),
            "BEGIN:VEVENT\r\n"
            "UID:294222d3-e27c-5f8a-8fec-674564b044fb\r\n"
            "DTSTAMP:20270301T060000Z\r\n"
            "LAST-MODIFIED:20270301T060000Z\r\n"
            "SEQUENCE:4\r\n"
            "DTSTART;VALUE=DATE:20270402\r\n"
            "DTEND;VALUE=DATE:20270403\r\n"
            "SUMMARY:sow: zinnia\r\n"
            "DESCRIPTION:Still right for a week.\r\n"
            "LOCATION:north bed\r\n"
            "CATEGORIES:Sow\r\n"
            "STATUS:CONFIRMED\r\n"
            "TRANSP:TRANSPARENT\r\n"
            "X-TRUG-JOB:2027 20270410\r\n"
            "BEGIN:VALARM\r\n"
            "ACTION:DISPLAY\r\n"
            "DESCRIPTION:sow: zinnia\r\n"
            "TRIGGER:-PT6H\r\n"
            "END:VALARM\r\n"
            "END:VEVENT\r\n");
}

TEST(Render, AFileForImportHasOneNameAndNoMethod) {
  EXPECT_EQ(render_head(test::head(), Profile::Import, {3, test::instant("20270301T060000Z")}),
            "BEGIN:VCALENDAR\r\n"
            "VERSION:2.0\r\n"
            "PRODID:-//trug//NONSGML trug 0.1.0//EN\r\n"
            "NAME:Vases\\, and more\r\n"
            "X-TRUG-MEMORY:2 7677aa91-851c-5b86-b25c-dec0dee99ded 3 20270301T060000Z\r\n");
}

TEST(Render, AFeedSaysHowOftenToAskAndHasAPlainNameToo) {
  CalendarHead head = test::head();
  head.colour = "seagreen";
  EXPECT_EQ(render_head(head, Profile::Feed, {0, test::instant("20270301T060000Z")}),
            "BEGIN:VCALENDAR\r\n"
            "VERSION:2.0\r\n"
            "PRODID:-//trug//NONSGML trug 0.1.0//EN\r\n"
            "NAME:Vases\\, and more\r\n"
            "COLOR:seagreen\r\n"
            "X-WR-CALNAME:Vases and more\r\n"
            "REFRESH-INTERVAL;VALUE=DURATION:PT12H\r\n"
            "X-PUBLISHED-TTL:PT12H\r\n"
            "X-TRUG-MEMORY:2 7677aa91-851c-5b86-b25c-dec0dee99ded 0 20270301T060000Z\r\n");
}

TEST(Render, ACancelledEventHasNoReminder) {
  Event event = sowing();
  event.cancelled = true;
  const std::string text = test::lone_event(event);
  EXPECT_EQ(value(text, "STATUS"), "CANCELLED");
  EXPECT_EQ(test::count(text, "VALARM"), 0);
}

TEST(Render, WithoutAReminderThereIsNoAlarm) {
  Event event = sowing();
  event.reminder.reset();
  EXPECT_EQ(test::count(test::lone_event(event), "VALARM"), 0);
}

struct Reminder {
  int minutes;
  const char* trigger;
};

TEST(Render, RemindersAreBeforeTheDay) {
  // RFC 5545, 3.3.6; the instants are the difference to midnight, worked by hand.
  for (const Reminder& row : {Reminder{360, "-PT6H"},
                              {390, "-PT6H30M"},
                              {960, "-PT16H"},
                              {1440, "-P1D"},
                              {9600, "-P6DT16H"},
                              {10080, "-P1W"},
                              {1, "-PT1M"}}) {
    Event event = sowing();
    event.reminder = std::chrono::minutes{row.minutes};
    const std::string bytes = file_of(event);
    EXPECT_EQ(value(bytes, "TRIGGER"), row.trigger);
    EXPECT_EQ(check_calendar(bytes), std::vector<std::string>{});
    EXPECT_EQ(test::read_with_libical(bytes).events.at(0).alarms,
              std::vector<int>{-60 * row.minutes});
  }
}

TEST(Render, AReminderOnItsDayIsOurMistake) {
  for (const int minutes : {0, -480}) {
    Event event = sowing();
    event.reminder = std::chrono::minutes{minutes};
    EXPECT_THROW(test::lone_event(event), std::invalid_argument);
  }
}

TEST(Render, TextIsEscapedAndReadBack) {
  Event event = sowing();
  event.summary = "Sow; thin, water \\ wait";
  event.description = "First line\nsecond: \"quoted\", \u00e9\u20ac\U0001F337";
  const std::string bytes = file_of(event);
  EXPECT_EQ(value(test::lone_event(event), "SUMMARY"), "Sow\\; thin\\, water \\\\ wait");
  EXPECT_EQ(check_calendar(bytes), std::vector<std::string>{});
  const test::ReadCalendar read = test::read_with_libical(bytes);
  EXPECT_TRUE(read.whole);
  EXPECT_EQ(read.name, "Vases, and more");
  EXPECT_EQ(read.events.at(0).summary, event.summary);
  EXPECT_EQ(read.events.at(0).description, event.description);
}

// Trap 1 (a line break in a URL makes a new property) cannot arise: no URL is written. That no
// text makes a new property:
TEST(Render, NoTextCanMakeANewProperty) {
  Event event = sowing();
  event.summary = event.description = event.location = event.category =
      "a\r\nATTENDEE:mailto:x\nATTENDEE:y\rATTENDEE:z\u2028ATTENDEE:w";
  CalendarHead head = test::head();
  head.name = head.product = head.colour = event.summary;
  const std::string bytes =
      render_head(head, Profile::Feed, {}) + test::lone_event(event) + std::string(kCalendarEnd);
  for (ContentLines lines(bytes); lines.next();) {
    EXPECT_FALSE(lines.line().text.starts_with("ATTENDEE")) << lines.line().text;
  }
  EXPECT_EQ(value(test::lone_event(event), "SUMMARY"),
            "a ATTENDEE:mailto:x ATTENDEE:y ATTENDEE:z ATTENDEE:w");
  EXPECT_EQ(value(test::lone_event(event), "DESCRIPTION"),
            "a\\nATTENDEE:mailto:x\\nATTENDEE:y\\nATTENDEE:z\\nATTENDEE:w");
}

// Trap 2: libical lets control characters and broken UTF-8 pass.
TEST(Render, ControlCharactersAreDropped) {
  Event event = sowing();
  event.summary = std::string(
      "a\x01"
      "b\x7f"
      "c\u0085d\u009f"
      "e\0f\tg",
      15);
  EXPECT_EQ(value(test::lone_event(event), "SUMMARY"), "abcdef g");
  EXPECT_EQ(check_calendar(file_of(event)), std::vector<std::string>{});
}

TEST(Render, TextThatIsNotUtf8IsOurMistake) {
  Event event = sowing();
  event.description = "caf\xe9";
  EXPECT_THROW(test::lone_event(event), std::invalid_argument);
}

// Trap 3: libical does not escape the commas of CATEGORIES.
TEST(Render, ACategoryIsOneCategory) {
  Event event = sowing();
  event.category = "sow, under; glass\\";
  EXPECT_EQ(value(test::lone_event(event), "CATEGORIES"), "Sow under glass");
  EXPECT_EQ(test::read_with_libical(file_of(event)).events.at(0).category, "sow under glass");
}

// Trap 4: values of X- properties are not TEXT to libical.
TEST(Render, ThePlainNameHoldsNothingThatWouldNeedEscaping) {
  CalendarHead head = test::head();
  head.name = "a\\b; c, d";
  const std::string text = render_head(head, Profile::Feed, {});
  EXPECT_EQ(value(text, "X-WR-CALNAME"), "ab c d");
  EXPECT_EQ(value(text, "NAME"), "a\\\\b\\; c\\, d");
}

// Trap 5: libical folds at blanks, which editors and mail programs strip.
TEST(Render, NoFoldedLineEndsInABlank) {
  Event event = sowing();
  for (int i = 0; i < 40; ++i) event.description += " and a few more \u00e9clairs, please;";
  const std::string text = test::lone_event(event);
  EXPECT_EQ(test::count(text, " \r\n"), 0);
  EXPECT_EQ(test::count(text, "DESCRIPTION:\r\n"), 0);
  EXPECT_EQ(check_calendar(file_of(event)), std::vector<std::string>{});
  EXPECT_EQ(test::read_with_libical(file_of(event)).events.at(0).description, event.description);
}

// Trap 17: of a text with a character of several octets libical may fold between the CR and the LF
// at its end.
TEST(Render, WhereverALineEndsItEndsInOneCrlf) {
  for (std::size_t before = 0; before < 80; ++before) {
    for (std::size_t after = 0; after < 80; ++after) {
      Event event = sowing();
      event.description = std::string(before, 'x') + "\u00e9" + std::string(after, 'y');
      const std::string bytes = file_of(event);
      ASSERT_EQ(check_calendar(bytes), std::vector<std::string>{}) << event.description;
      ASSERT_EQ(test::read_with_libical(bytes).events.at(0).description, event.description);
    }
  }
}

// Trap 6: readers strip the blanks around a value; trap 8: an empty SUMMARY is an error to them.
TEST(Render, TextsAreTrimmedAndEmptyOnesLeftOut) {
  Event event = sowing();
  event.summary = "  sow \n";
  event.description = " \n\t";
  event.location = "";
  const std::string text = test::lone_event(event);
  EXPECT_EQ(value(text, "SUMMARY"), "sow");
  EXPECT_EQ(test::count(text, "\nDESCRIPTION:"), 1);  // the alarm's
  EXPECT_EQ(test::count(text, "LOCATION"), 0);
  EXPECT_TRUE(test::read_with_libical(file_of(event)).whole);
}

// Trap 10: no X-LIC-ERROR is ever written; trap 12: no buffer of libical's is kept.
TEST(Render, TheSameCallsGiveTheSameBytes) {
  const std::string first = file_of(sowing(), Profile::Feed);
  for (int i = 0; i < 300; ++i) ASSERT_EQ(file_of(sowing(), Profile::Feed), first);
  EXPECT_EQ(test::count(first, "X-LIC"), 0);
}

// Trap 16: without time zones the file is the same on every machine.
TEST(Render, NoTimeZoneIsWritten) {
  const std::string text = file_of(sowing());
  EXPECT_EQ(test::count(text, "TZID"), 0);
  EXPECT_EQ(test::count(text, "VTIMEZONE"), 0);
}

TEST(Render, DaysRollOverMonthsAndLeapYears) {
  for (const auto& [start, end] : {std::pair{"2028-02-28", "20280229"},
                                   {"2028-02-29", "20280301"},
                                   {"2027-12-31", "20280101"}}) {
    const test::ReadCalendar read =
        test::read_with_libical(file_of(test::event("zinnia", JobKind::Sow, start)));
    EXPECT_EQ(read.events.at(0).end, end);
  }
}

}  // namespace
}  // namespace trug::calendar
