// SPDX-License-Identifier: MIT
#include "calendar/memory.h"

#include <gtest/gtest.h>

#include "calendar/calendar_builders.h"

namespace trug::calendar {
namespace {

using test::day;
using test::instant;
using work::JobKind;

Event elaborate() {
  Event event = test::event("zinnia", JobKind::Sow, "2027-04-02");
  event.summary = "Sow; thin, water \\ wait";
  event.description = "First line\nsecond, " + std::string(100, 'x') + " \u00e9";
  return event;
}

std::string head_text() {
  return render_head(test::head(), Profile::Import, {3, instant("20270301T060000Z")});
}

std::string file() {
  return head_text() +
         render_event(elaborate(), {5, instant("20270228T235959Z"), day("2027-05-01")}) +
         test::lone_event(test::event("dahlia", JobKind::Sow, "2027-04-03")) +
         std::string(kCalendarEnd);
}

std::string replaced(std::string text, std::string_view from, std::string_view to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

TEST(Memory, ReadsBackWhatWasWritten) {
  const ReadMemory read = read_memory(file());
  ASSERT_EQ(read.refused, "");
  EXPECT_EQ(read.memory.space, test::space());
  EXPECT_EQ(read.memory.counters, (Counters{3, instant("20270301T060000Z")}));
  ASSERT_EQ(read.memory.events.size(), 2U);
  const StoredEvent& stored = read.memory.events.front();
  const Event event = elaborate();
  EXPECT_EQ(stored.event.uid, event.uid);
  EXPECT_EQ(stored.event.start, event.start);
  EXPECT_EQ(stored.event.end, event.end);
  EXPECT_EQ(stored.event.summary, event.summary);
  EXPECT_EQ(stored.event.description, event.description);
  EXPECT_EQ(stored.event.location, event.location);
  EXPECT_EQ(stored.event.category, event.category);
  EXPECT_EQ(stored.event.flowering_year, 2027);
  EXPECT_FALSE(stored.event.cancelled);
  EXPECT_EQ(stored.revision.sequence, 5);
  EXPECT_EQ(stored.revision.stamp, instant("20270228T235959Z"));
  EXPECT_EQ(stored.revision.latest_end, day("2027-05-01"));
}

TEST(Memory, KeepsTheVeryBytesOfEachEvent) {
  const ReadMemory read = read_memory(file());
  ASSERT_EQ(read.memory.events.size(), 2U);
  EXPECT_EQ(head_text() + read.memory.events[0].bytes + read.memory.events[1].bytes +
                std::string(kCalendarEnd),
            file());
}

Facts facts() { return {{"last-frost", "05-14"}, {"sheet/1a2b3c4d", std::string(90, 'f')}}; }

std::string file_with_facts() {
  CalendarHead head = test::head();
  head.facts = facts();
  return render_head(head, Profile::Import, {3, instant("20270301T060000Z")}) +
         test::lone_event(elaborate()) + std::string(kCalendarEnd);
}

TEST(Memory, ReadsBackTheFactsAndTheyAreNoContent) {
  const ReadMemory with = read_memory(file_with_facts());
  ASSERT_EQ(with.refused, "");
  EXPECT_EQ(with.memory.facts, facts());
  EXPECT_EQ(with.memory.product, "trug 0.1.0");
  EXPECT_TRUE(test::read_with_libical(file_with_facts()).whole);
  const ReadMemory without = read_memory(file());
  EXPECT_EQ(without.memory.facts, std::nullopt);
  EXPECT_EQ(with.memory.head, without.memory.head);
}

// A file whose facts another version wrote is still trug's.
TEST(Memory, FactsThatCannotBeReadAreAbsent) {
  for (const char* other : {"FACTS:2 last-frost=", "FACTS:last-frost=", "FACTS:1 last-frost:"}) {
    SCOPED_TRACE(other);
    const ReadMemory read = read_memory(replaced(file_with_facts(), "FACTS:1 last-frost=", other));
    EXPECT_EQ(read.refused, "");
    EXPECT_EQ(read.memory.facts, std::nullopt);
  }
}

TEST(Memory, ContentIsWhatAnEventSays) {
  const Revision other{9, instant("20280101T000000Z"), day("2029-01-01")};
  EXPECT_EQ(event_content(render_event(elaborate(), other)),
            event_content(test::lone_event(elaborate())));
  Event moved = elaborate();
  moved.end += Days{1};
  EXPECT_NE(event_content(test::lone_event(moved)), event_content(test::lone_event(elaborate())));
}

TEST(Memory, ContentDoesNotDependOnTheFold) {
  const std::string text = test::lone_event(elaborate());
  EXPECT_EQ(event_content(replaced(text, "SUMMARY", "SUM\r\n MARY")), event_content(text));
}

struct Foreign {
  const char* name;
  const char* from;
  const char* to;
  const char* refused;
};

TEST(Memory, RefusesWhatTrugDidNotWrite) {
  constexpr const char* kNoMemory =
      "it has no X-TRUG-MEMORY line that this version of trug can read";
  const std::vector<Foreign> files = {
      {"no header", "X-TRUG-MEMORY", "X-OTHER", kNoMemory},
      {"a later format", "X-TRUG-MEMORY:2 ", "X-TRUG-MEMORY:3 ", kNoMemory},
      {"no space", "7677aa91", "7677aa9", kNoMemory},
      {"floor beyond SEQUENCE", " 3 2027", "\r\n  2147483648 2027", kNoMemory},
      {"no moment after the last", " 3 20270", "\r\n  3 99990", kNoMemory},
      {"local stamp", "T060000Z\r\nBEGIN:VEVENT", "T060000\r\nBEGIN:VEVENT", kNoMemory},
      {"no SEQUENCE", "SEQUENCE:5\r\n", "", "line 6: not an event as trug writes it"},
      {"no X-TRUG-JOB", "X-TRUG-JOB", "X-OTHER", "line 6: not an event as trug writes it"},
      {"broken X-TRUG-JOB", "X-TRUG-JOB:2027 2", "X-TRUG-JOB:2027 ",
       "line 6: not an event as trug writes it"},
      {"with times", "DTSTART;VALUE=DATE:20270402\r\nDTEND;VALUE=DATE:20270403",
       "DTSTART:20270402T060000Z\r\nDTEND:20270402T070000Z",
       "line 6: not an event as trug writes it"},
      {"no stamp after this one", "DTSTAMP:20", "DTSTAMP:99",
       "line 6: not an event as trug writes it"},
      {"truncated", "END:VCALENDAR\r\n", "", "line 1: VCALENDAR has no END (RFC 5545, 3.6)"},
  };
  for (const Foreign& row : files) {
    SCOPED_TRACE(row.name);
    EXPECT_EQ(read_memory(replaced(file(), row.from, row.to)).refused, row.refused);
  }
  EXPECT_EQ(read_memory("<html></html>").refused,
            "line 1: neither a property nor a component (RFC 5545, 3.1)");
}

}  // namespace
}  // namespace trug::calendar
