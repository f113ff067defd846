// SPDX-License-Identifier: MIT
#include "calendar/regenerate.h"

#include <gtest/gtest.h>

#include "calendar/calendar_builders.h"
#include "calendar/check.h"

namespace trug::calendar {
namespace {

using test::block;
using test::count;
using test::event;
using test::uid;
using test::value;
using work::JobKind;

// One plan and the file it writes, run by run.
struct Garden {
  Profile profile = Profile::Import;
  std::vector<Event> wanted = {event("daffodil", JobKind::ClearAndFeed, "2027-02-20"),
                               event("zinnia", JobKind::Sow, "2027-04-02"),
                               event("zinnia", JobKind::PrickOut, "2027-04-20"),
                               event("zinnia", JobKind::FirstCut, "2027-07-10")};
  std::optional<std::string> file;

  Regenerated run_with(const Run& run) {
    Regenerated result = regenerate(wanted, test::head(), file, run);
    if (result.refused.empty()) file = result.bytes;
    return result;
  }
  Regenerated on(std::string_view today) { return run_with(test::run(profile, today)); }

  Event& job(std::string_view crop, JobKind kind) {
    for (Event& candidate : wanted) {
      if (candidate.uid == uid(crop, kind)) return candidate;
    }
    ADD_FAILURE() << "no such job";
    return wanted.front();
  }
  void move(std::string_view crop, JobKind kind, std::string_view day) {
    job(crop, kind).start = test::day(day);
    job(crop, kind).end = test::day(day) + Days{1};
  }
  void remove(std::string_view crop, JobKind kind) {
    const std::string gone = uid(crop, kind);
    std::erase_if(wanted, [&](const Event& candidate) { return candidate.uid == gone; });
  }
  std::string sowing() const { return block(*file, uid("zinnia", JobKind::Sow)); }
  std::string cutting() const { return block(*file, uid("zinnia", JobKind::FirstCut)); }
};

Garden feed() {
  Garden garden;
  garden.profile = Profile::Feed;
  return garden;
}

TEST(Regenerate, TheFirstFileHoldsEveryJob) {
  Garden garden;
  const Regenerated result = garden.on("2027-03-01");
  EXPECT_FALSE(result.unchanged);
  EXPECT_EQ(result.events, 4U);
  EXPECT_EQ(result.count(ChangeKind::New), 4);
  const test::ReadCalendar read = test::read_with_libical(result.bytes);
  EXPECT_TRUE(read.whole);
  ASSERT_EQ(read.events.size(), 4U);
  EXPECT_EQ(read.events[1].uid, uid("zinnia", JobKind::Sow));
  EXPECT_EQ(read.events[1].start, "20270402");
  EXPECT_EQ(read.events[1].end, "20270403");
  EXPECT_EQ(read.events[1].alarms, std::vector<int>{-6 * 3600});
  EXPECT_EQ(value(garden.sowing(), "SEQUENCE"), "0");
  EXPECT_EQ(value(garden.sowing(), "DTSTAMP"), "20270301T060000Z");
  EXPECT_EQ(value(garden.sowing(), "X-TRUG-JOB"), "2027 20270403");
}

TEST(Regenerate, EventsStandByDayThenUid) {
  Garden garden;
  garden.wanted.push_back(event("dahlia", JobKind::Sow, "2027-04-02"));
  std::swap(garden.wanted.front(), garden.wanted.back());
  const test::ReadCalendar read = test::read_with_libical(garden.on("2027-03-01").bytes);
  ASSERT_EQ(read.events.size(), 5U);
  for (std::size_t i = 1; i < read.events.size(); ++i) {
    EXPECT_LT(read.events[i - 1].start + read.events[i - 1].uid,
              read.events[i].start + read.events[i].uid);
  }
}

// 1
TEST(Regenerate, NothingChangedGivesTheSameBytes) {
  for (const Profile profile : {Profile::Import, Profile::Feed}) {
    Garden garden;
    garden.profile = profile;
    const std::string first = garden.on("2027-03-01").bytes;
    const Regenerated second = garden.on("2027-03-25");
    EXPECT_TRUE(second.unchanged);
    EXPECT_TRUE(second.changes.empty());
    EXPECT_EQ(second.bytes, first);
  }
}

// 2
TEST(Regenerate, OnlyWhatMovedChanges) {
  Garden garden;
  const std::string before = garden.on("2027-03-01").bytes;
  garden.move("zinnia", JobKind::Sow, "2027-04-09");
  garden.move("zinnia", JobKind::PrickOut, "2027-04-27");
  const Regenerated result = garden.on("2027-03-05");
  ASSERT_EQ(result.changes.size(), 2U);
  EXPECT_EQ(result.count(ChangeKind::Moved), 2);
  EXPECT_EQ(result.changes[0].uid, uid("zinnia", JobKind::Sow));
  EXPECT_EQ(result.changes[0].from, test::day("2027-04-02"));
  EXPECT_EQ(result.changes[0].to, test::day("2027-04-09"));
  EXPECT_EQ(value(garden.sowing(), "SEQUENCE"), "1");
  EXPECT_EQ(value(garden.sowing(), "DTSTAMP"), "20270305T060000Z");
  EXPECT_EQ(value(garden.sowing(), "LAST-MODIFIED"), "20270305T060000Z");
  EXPECT_EQ(value(garden.sowing(), "DTSTART"), "20270409");
  for (const JobKind kind : {JobKind::ClearAndFeed, JobKind::FirstCut}) {
    const std::string crop = kind == JobKind::ClearAndFeed ? "daffodil" : "zinnia";
    EXPECT_EQ(block(*garden.file, uid(crop, kind)), block(before, uid(crop, kind)));
    EXPECT_NE(block(before, uid(crop, kind)), "");
  }
}

TEST(Regenerate, AnotherWordingOrReminderIsAChange) {
  Garden garden;
  garden.on("2027-03-01");
  garden.job("zinnia", JobKind::Sow).description = "Still right for ten days.";
  garden.job("zinnia", JobKind::FirstCut).reminder = std::chrono::hours{12};
  const Regenerated result = garden.on("2027-03-05");
  EXPECT_EQ(result.count(ChangeKind::Reworded), 2);
  EXPECT_EQ(result.changes.size(), 2U);
  EXPECT_EQ(value(garden.cutting(), "SEQUENCE"), "1");
}

TEST(Regenerate, TheProgramsVersionAloneChangesNothing) {
  Garden garden;
  const std::string before = garden.on("2027-03-01").bytes;
  CalendarHead newer = test::head();
  newer.product = "trug 9.9.9";
  const Regenerated result =
      regenerate(garden.wanted, newer, before, test::run(Profile::Import, "2027-03-05"));
  EXPECT_TRUE(result.unchanged);
  EXPECT_EQ(result.bytes, before);
}

TEST(Regenerate, TheFactOfEachDayIsTakenUpOnlyWithAChange) {
  Garden garden;
  CalendarHead head = test::head();
  head.facts = {{"weather", "none"}};
  const calendar::Run run = test::run(Profile::Import, "2027-03-01");
  const Regenerated first = regenerate(garden.wanted, head, std::nullopt, run);
  EXPECT_EQ(first.facts_before, std::nullopt);
  EXPECT_EQ(count(first.bytes, "X-TRUG-FACTS:1 weather=none\r\n"), 1);
  head.facts = {{"weather", "2027-03-02-1a"}};
  const Regenerated same = regenerate(garden.wanted, head, first.bytes, run);
  EXPECT_TRUE(same.unchanged);
  EXPECT_EQ(same.bytes, first.bytes);
  EXPECT_EQ(same.facts_before, (Facts{{"weather", "none"}}));
  garden.move("zinnia", JobKind::Sow, "2027-04-09");
  const Regenerated moved = regenerate(garden.wanted, head, first.bytes, run);
  EXPECT_EQ(moved.facts_before, (Facts{{"weather", "none"}}));
  EXPECT_EQ(count(moved.bytes, "X-TRUG-FACTS:1 weather=2027-03-02-1a\r\n"), 1);
  const std::string untouched = uid("zinnia", JobKind::FirstCut);
  EXPECT_EQ(block(moved.bytes, untouched), block(first.bytes, untouched));
}

TEST(Regenerate, FactsOfThePlanAreTakenUpAtOnceAndTouchNoEvent) {
  Garden garden;
  CalendarHead head = test::head();
  head.facts = {{"last-frost", "05-10"}, {"weather", "none"}};
  const calendar::Run run = test::run(Profile::Import, "2027-03-01");
  const Regenerated first = regenerate(garden.wanted, head, std::nullopt, run);
  head.facts["last-frost"] = "05-18";
  const Regenerated next = regenerate(garden.wanted, head, first.bytes, run);
  EXPECT_FALSE(next.unchanged);
  EXPECT_TRUE(next.changes.empty());
  EXPECT_EQ(count(next.bytes, "X-TRUG-FACTS:1 last-frost=05-18 weather=none\r\n"), 1);
  EXPECT_EQ(next.bytes.substr(next.bytes.find("BEGIN:VEVENT")),
            first.bytes.substr(first.bytes.find("BEGIN:VEVENT")));
  EXPECT_TRUE(regenerate(garden.wanted, head, next.bytes, run).unchanged);
}

TEST(Regenerate, ChangesOfOneDayStandAsTheJobsAreDoneInTheGround) {
  const std::vector<JobKind> in_order = {
      JobKind::OrderSeed, JobKind::FirstCut, JobKind::Lift,  JobKind::ClearAndFeed,
      JobKind::Sow,       JobKind::PlantOut, JobKind::Plant, JobKind::WatchForFrost};
  Garden garden;
  garden.wanted.clear();
  for (auto kind = in_order.rbegin(); kind != in_order.rend(); ++kind) {
    garden.wanted.push_back(event("zinnia", *kind, "2027-06-02"));
  }
  garden.wanted.push_back(event("zinnia", JobKind::Support, "2027-06-01"));  // the day first
  const auto summaries = [](const std::vector<Change>& changes) {
    std::vector<std::string> list;
    for (const Change& change : changes) list.push_back(change.summary);
    return list;
  };
  std::vector<std::string> expected = {"support: zinnia"};
  for (const JobKind kind : in_order) {
    expected.push_back(std::string(work::to_string(kind)) + ": zinnia");
  }
  EXPECT_EQ(summaries(garden.on("2027-03-01").changes), expected);
  // Those that are gone and those that are past stand in the same order.
  Garden past = garden;
  garden.wanted.clear();
  garden.wanted.push_back(event("cosmos", JobKind::Sow, "2027-07-02"));
  std::vector<std::string> gone = expected;
  gone.push_back("sow: cosmos");
  EXPECT_EQ(summaries(garden.on("2027-03-02").changes), gone);
  for (Event& event : past.wanted) {
    event.start += Days{300};
    event.end += Days{300};
  }
  EXPECT_EQ(summaries(past.on("2027-08-01").overtaken), expected);
}

TEST(Regenerate, AnotherTitleChangesTheHeadAlone) {
  Garden garden;
  const std::string before = garden.on("2027-03-01").bytes;
  CalendarHead renamed = test::head();
  renamed.name = "Kitchen vases";
  const Regenerated result =
      regenerate(garden.wanted, renamed, before, test::run(Profile::Import, "2027-03-05"));
  EXPECT_FALSE(result.unchanged);
  EXPECT_TRUE(result.changes.empty());
  const std::size_t old_events = before.find("BEGIN:VEVENT");
  const std::size_t new_events = result.bytes.find("BEGIN:VEVENT");
  EXPECT_EQ(result.bytes.substr(new_events), before.substr(old_events));
  EXPECT_EQ(count(result.bytes, "NAME:Kitchen vases\r\n"), 1);
}

// 3, 4
TEST(Regenerate, AFileForImportCancelsWhatIsGone) {
  Garden garden;
  garden.on("2027-03-01");
  const Event cutting = garden.job("zinnia", JobKind::FirstCut);
  garden.move("zinnia", JobKind::FirstCut, "2027-06-20");  // latest DTEND stays 11 July
  garden.on("2027-03-02");
  garden.remove("zinnia", JobKind::FirstCut);
  const Regenerated gone = garden.on("2027-03-05");
  ASSERT_EQ(gone.changes.size(), 1U);
  EXPECT_EQ(gone.changes[0].kind, ChangeKind::Cancelled);
  EXPECT_EQ(gone.changes[0].summary, "first-cut: zinnia");
  EXPECT_EQ(gone.events, 4U);
  EXPECT_EQ(value(garden.cutting(), "STATUS"), "CANCELLED");
  EXPECT_EQ(value(garden.cutting(), "SUMMARY"), "Cancelled: first-cut: zinnia");
  EXPECT_EQ(value(garden.cutting(), "SEQUENCE"), "2");
  EXPECT_EQ(value(garden.cutting(), "X-TRUG-JOB"), "2027 20270711");
  EXPECT_EQ(count(garden.cutting(), "VALARM"), 0);
  EXPECT_TRUE(garden.on("2027-03-06").unchanged);

  Garden again = garden;
  EXPECT_TRUE(garden.on("2027-07-11").unchanged) << "still in the time it was published for";
  const Regenerated expired = garden.on("2027-07-12");
  EXPECT_EQ(expired.count(ChangeKind::Expired), 1);
  EXPECT_EQ(garden.cutting(), "");

  again.wanted.push_back(cutting);
  const Regenerated revived = again.on("2027-03-08");
  ASSERT_EQ(revived.changes.size(), 1U);
  EXPECT_EQ(revived.changes[0].kind, ChangeKind::Revived);
  EXPECT_EQ(value(again.cutting(), "STATUS"), "CONFIRMED");
  EXPECT_EQ(value(again.cutting(), "SUMMARY"), "first-cut: zinnia");
  EXPECT_EQ(value(again.cutting(), "SEQUENCE"), "3");
  EXPECT_EQ(count(again.cutting(), "BEGIN:VALARM"), 1);
}

TEST(Regenerate, WhatReturnsToAFileForImportOutranksItsCancellation) {
  Garden garden;
  garden.on("2027-03-01");
  const Event cutting = garden.job("zinnia", JobKind::FirstCut);
  garden.remove("zinnia", JobKind::FirstCut);
  garden.on("2027-03-05");  // cancelled: SEQUENCE 1
  garden.on("2027-08-01");  // dropped
  garden.wanted.push_back(cutting);
  garden.on("2027-08-02");
  EXPECT_EQ(value(garden.cutting(), "SEQUENCE"), "2");
}

// 3, 5
TEST(Regenerate, AFeedLeavesOutWhatIsGone) {
  Garden garden = feed();
  garden.on("2027-03-01");
  const Event cutting = garden.job("zinnia", JobKind::FirstCut);
  garden.move("zinnia", JobKind::FirstCut, "2027-07-01");
  garden.on("2027-03-02");  // SEQUENCE 1
  garden.remove("zinnia", JobKind::FirstCut);
  const Regenerated gone = garden.on("2027-03-05");
  ASSERT_EQ(gone.changes.size(), 1U);
  EXPECT_EQ(gone.changes[0].kind, ChangeKind::Removed);
  EXPECT_EQ(garden.cutting(), "");
  EXPECT_TRUE(garden.on("2027-03-06").unchanged);

  garden.wanted.push_back(cutting);
  const Regenerated returned = garden.on("2027-03-07");
  EXPECT_EQ(returned.count(ChangeKind::New), 1);
  EXPECT_EQ(value(garden.cutting(), "SEQUENCE"), "2");
  EXPECT_EQ(value(garden.cutting(), "DTSTAMP"), "20270307T060000Z");
}

// 6
TEST(Regenerate, AfterALossNumbersGoUp) {
  Garden garden;
  garden.on("2027-03-01");
  garden.move("zinnia", JobKind::Sow, "2027-04-09");
  garden.on("2027-03-02");
  garden.file.reset();
  calendar::Run lost = test::run(Profile::Import, "2027-03-03");
  lost.lost = true;
  garden.run_with(lost);
  // From 2020-01-01 to 2027-03-03 06:00 are 2618 days and 6 hours: 2618 * 1440 + 360 minutes.
  EXPECT_EQ(value(garden.sowing(), "SEQUENCE"), "3770280");
  EXPECT_TRUE(garden.on("2027-03-04").unchanged);
  garden.move("zinnia", JobKind::Sow, "2027-04-12");
  garden.on("2027-03-05");
  EXPECT_EQ(value(garden.sowing(), "SEQUENCE"), "3770281");
}

// 7
TEST(Regenerate, TheStampRisesThoughTheClockGoesBack) {
  Garden garden;
  garden.on("2027-03-02");
  garden.move("zinnia", JobKind::Sow, "2027-04-09");
  garden.on("2027-03-01");
  EXPECT_EQ(value(garden.sowing(), "DTSTAMP"), "20270302T060001Z");
  garden.move("zinnia", JobKind::Sow, "2027-04-10");
  garden.on("2027-03-01");
  EXPECT_EQ(value(garden.sowing(), "DTSTAMP"), "20270302T060002Z");
}

// 8
TEST(Regenerate, NeitherTitleNorOrderIsPartOfIdentity) {
  Garden garden;
  garden.on("2027-03-01");
  std::vector<Event> turned(garden.wanted.rbegin(), garden.wanted.rend());
  CalendarHead renamed = test::head();
  renamed.name = "Kitchen vases";
  const Regenerated result =
      regenerate(turned, renamed, garden.file, test::run(Profile::Import, "2027-03-05"));
  EXPECT_TRUE(result.changes.empty());
  EXPECT_EQ(result.events, 4U);
}

TEST(Regenerate, HistoryIsNotRewritten) {
  Garden garden;
  const std::string before = garden.on("2027-03-01").bytes;
  garden.move("zinnia", JobKind::Sow, "2027-04-09");
  garden.job("zinnia", JobKind::PrickOut).summary = "another text";
  const Regenerated result = garden.on("2027-04-21");  // both days are over
  EXPECT_TRUE(result.unchanged);
  EXPECT_EQ(result.bytes, before);
  ASSERT_EQ(result.overtaken.size(), 1U);
  EXPECT_EQ(result.overtaken[0].uid, uid("zinnia", JobKind::Sow));
  EXPECT_EQ(result.overtaken[0].from, test::day("2027-04-02"));
  EXPECT_EQ(result.overtaken[0].to, test::day("2027-04-09"));
}

TEST(Regenerate, TheDayItselfIsNotYetPast) {
  Garden garden;
  garden.on("2027-03-01");
  garden.move("zinnia", JobKind::Sow, "2027-04-09");
  EXPECT_EQ(garden.on("2027-04-02").count(ChangeKind::Moved), 1);
}

TEST(Regenerate, ARecordedDayMovesAPastEvent) {
  Garden garden;
  garden.on("2027-03-01");
  garden.move("zinnia", JobKind::Sow, "2027-03-28");
  garden.job("zinnia", JobKind::Sow).recorded = true;
  const Regenerated result = garden.on("2027-04-21");
  EXPECT_EQ(result.count(ChangeKind::Moved), 1);
  EXPECT_EQ(value(garden.sowing(), "DTSTART"), "20270328");
  EXPECT_TRUE(garden.on("2027-04-22").unchanged);
}

TEST(Regenerate, HistoryStaysFourHundredDays) {
  for (const Profile profile : {Profile::Import, Profile::Feed}) {
    Garden garden;
    garden.profile = profile;
    garden.on("2027-03-01");
    garden.remove("zinnia", JobKind::Sow);
    EXPECT_TRUE(garden.on("2027-04-03").unchanged);  // DTEND: past from this day on
    EXPECT_TRUE(garden.on("2028-05-06").unchanged);  // 399 days after 3 April 2027
    const Regenerated result = garden.on("2028-05-07");
    EXPECT_EQ(result.count(ChangeKind::Expired), 1);
    EXPECT_EQ(garden.sowing(), "");
    EXPECT_NE(garden.cutting(), "");
  }
}

TEST(Regenerate, HistoryStaysWhileSomeoneMayHoldItOnADayToCome) {
  Garden garden;
  garden.move("zinnia", JobKind::FirstCut, "2029-07-10");
  garden.on("2027-03-01");
  garden.move("zinnia", JobKind::FirstCut, "2027-04-02");
  garden.on("2027-03-02");
  garden.remove("zinnia", JobKind::FirstCut);
  EXPECT_TRUE(garden.on("2028-06-01").unchanged);  // 425 days after its day
  EXPECT_TRUE(garden.on("2029-07-11").unchanged);
  EXPECT_EQ(garden.on("2029-07-12").count(ChangeKind::Expired), 1);
}

TEST(Regenerate, AnotherFloweringYearIsLeftAlone) {
  for (const Profile profile : {Profile::Import, Profile::Feed}) {
    Garden garden;
    garden.profile = profile;
    garden.on("2027-03-01");
    Event next = event("tulip", JobKind::Sow, "2027-10-10");
    next.flowering_year = 2028;
    garden.wanted = {next};
    calendar::Run run = test::run(profile, "2027-03-05");
    run.flowering_years = {2028};
    const Regenerated result = garden.run_with(run);
    EXPECT_EQ(result.changes.size(), 1U);
    EXPECT_EQ(result.count(ChangeKind::New), 1);
    EXPECT_EQ(result.events, 5U);
  }
}

TEST(Regenerate, AForeignOrBrokenFileIsRefused) {
  Garden garden;
  const std::string ours = garden.on("2027-03-01").bytes;
  const calendar::Run run = test::run(Profile::Import, "2027-03-02");
  CalendarHead other = test::head();
  other.space = namespace_of(test::uuid(test::kGarden), "Ann");
  const Regenerated mismatched = regenerate(garden.wanted, other, ours, run);
  EXPECT_EQ(mismatched.refused,
            "it is the calendar of another garden, or of another part of this one");
  EXPECT_EQ(mismatched.bytes, "");
  const Regenerated cut =
      regenerate(garden.wanted, test::head(), ours.substr(0, ours.size() - 15), run);
  EXPECT_EQ(cut.refused, "line 1: VCALENDAR has no END (RFC 5545, 3.6)");
  EXPECT_EQ(regenerate(garden.wanted, test::head(), "", run).refused,
            "line 1: there is no VCALENDAR (RFC 5545, 3.4)");
}

TEST(Regenerate, AFeedThatRunsEmptySaysSo) {
  Garden garden = feed();
  garden.wanted = {event("zinnia", JobKind::FirstCut, "2027-07-10")};
  garden.on("2027-03-01");
  garden.wanted.clear();
  const Regenerated empty = garden.on("2027-03-05");
  EXPECT_EQ(empty.events, 1U);
  EXPECT_EQ(empty.count(ChangeKind::Removed), 1);
  const test::ReadCalendar read = test::read_with_libical(empty.bytes);
  ASSERT_EQ(read.events.size(), 1U);
  EXPECT_EQ(read.events[0].summary, "This calendar has ended");
  EXPECT_EQ(read.events[0].start, "20270305");
  EXPECT_TRUE(garden.on("2027-03-06").unchanged);
  EXPECT_TRUE(garden.on("2029-03-06").unchanged);

  garden.wanted = {event("zinnia", JobKind::FirstCut, "2027-07-10")};
  const Regenerated filled = garden.on("2027-03-07");
  EXPECT_EQ(filled.events, 1U);
  EXPECT_EQ(count(filled.bytes, "This calendar has ended"), 0);
  EXPECT_EQ(value(garden.cutting(), "SEQUENCE"), "1");
}

TEST(Regenerate, APlanWithoutJobsStillGivesACalendar) {
  Garden garden;
  garden.wanted.clear();
  const Regenerated result = garden.on("2027-03-01");
  EXPECT_EQ(result.events, 1U);
  EXPECT_EQ(check_calendar(result.bytes), std::vector<std::string>{});
  EXPECT_TRUE(garden.on("2027-06-01").unchanged);
}

TEST(Regenerate, TheSameJobTwiceIsOurMistake) {
  Garden garden;
  garden.wanted.push_back(garden.wanted.front());
  EXPECT_THROW(garden.on("2027-03-01"), std::logic_error);
}

}  // namespace
}  // namespace trug::calendar
