// SPDX-License-Identifier: MIT
#include "base/date.h"

#include <gtest/gtest.h>

#include <concepts>

namespace trug {
namespace {

using std::chrono::January;
using std::chrono::May;
using std::chrono::months;
using std::chrono::year_month_day;
using namespace std::chrono_literals;

TEST(Date, ExistsInIsoOnlyWhereTheDayExists) {
  EXPECT_EQ(parse_iso("2027-05-14"), make_date(2027, 5, 14));
  EXPECT_EQ(parse_iso("2028-02-29"), make_date(2028, 2, 29));
  for (const char* text : {"2027-02-29", "2027-13-01", "2027-00-10", "2027-5-14", "27-05-14",
                           "2027-05-14 ", "2027/05/14", "+027-05-14", "2027-05-1x", ""}) {
    SCOPED_TRACE(text);
    EXPECT_FALSE(parse_iso(text));
  }
}

TEST(Date, IsWrittenAndReadBackOnEveryDayOfTwoCenturies) {
  int weekday = 1;  // 1 January 1900 was a Monday (Gregorian calendar)
  int day_in_year = 0;
  for (Date day = make_date(1900, 1, 1); day < make_date(2100, 1, 1); day += Days{1}) {
    ASSERT_EQ(parse_iso(iso(day)), day) << iso(day);
    day_in_year = iso(day).ends_with("-01-01") ? 1 : day_in_year + 1;
    ASSERT_EQ(day_of_year(day), day_in_year) << iso(day);
    ASSERT_EQ(days_between(monday_of(day), day), weekday - 1) << iso(day);
    weekday = weekday % 7 + 1;
  }
}

TEST(Date, SpeaksToPeople) {
  const Date day = make_date(2027, 5, 14);
  EXPECT_EQ(long_day(day), "Fri 14 May 2027");
  EXPECT_EQ(plain_day(day), "14 May 2027");
  EXPECT_EQ(short_day(day), "14 May");
  EXPECT_EQ(short_day(MonthDay{May / 14}), "14 May");
  EXPECT_EQ(weekday_and_day(day), "Fri 14 May");
  EXPECT_EQ(month_and_year(day), "May 2027");
  EXPECT_EQ(brief_day(make_date(2027, 11, 4)), "4 Nov");
  EXPECT_EQ(short_weekday(day), "Fri");
  EXPECT_EQ(iso(MonthDay{May / 4}), "05-04");
  EXPECT_EQ(day_of_month(day), 14u);
}

TEST(Date, ShortensEveryMonthToItsFirstThreeLetters) {
  for (Date day = make_date(2027, 1, 20); year_of(day) == 2027; day += Days{28}) {
    const std::string in_full = month_and_year(day);
    EXPECT_EQ(short_month(std::chrono::month{month_of(day)}), in_full.substr(0, 3)) << in_full;
    EXPECT_EQ(plain_day(day), std::to_string(day_of_month(day)) + " " + in_full);
  }
}

// ISO 8601 week rule: the week with the year's first Thursday is week 1.
TEST(Date, WeekBelongsToTheYearOfItsThursday) {
  EXPECT_EQ(iso_week(make_date(2027, 1, 3)), "2026-W53");
  EXPECT_EQ(iso_week(make_date(2027, 1, 4)), "2027-W01");
  EXPECT_EQ(iso_week(make_date(2024, 12, 30)), "2025-W01");
  EXPECT_EQ(iso_week(make_date(2027, 5, 14)), "2027-W19");
}

TEST(Date, OfALeapDayIsTheTwentyEighthInOtherYears) {
  const MonthDay leap = std::chrono::February / 29;
  EXPECT_EQ(on(leap, 2028), make_date(2028, 2, 29));
  EXPECT_EQ(on(leap, 2027), make_date(2027, 2, 28));
}

TEST(Date, KnowsWeekdaysInFullAndShort) {
  EXPECT_EQ(parse_weekday("Sat"), std::chrono::Saturday);
  EXPECT_EQ(parse_weekday("sunday"), std::chrono::Sunday);
  EXPECT_EQ(parse_weekday("Thur"), std::chrono::Thursday);
  for (const char* text : {"Sa", "Saturn", "Saturdays", "6", ""}) {
    EXPECT_FALSE(parse_weekday(text)) << text;
  }
}

TEST(Date, KnowsMonthsInFullAndShort) {
  EXPECT_EQ(parse_month("Sept"), std::chrono::September);
  EXPECT_EQ(parse_month("MAY"), std::chrono::May);
  for (const char* text : {"Ma", "Mai", "Juni", "5", ""}) EXPECT_FALSE(parse_month(text)) << text;
}

TEST(DateRange, EndsBeforeItsUntil) {
  const DateRange range{make_date(2027, 5, 1), make_date(2027, 5, 3)};
  EXPECT_FALSE(range.contains(make_date(2027, 4, 30)));
  EXPECT_TRUE(range.contains(make_date(2027, 5, 1)));
  EXPECT_TRUE(range.contains(make_date(2027, 5, 2)));
  EXPECT_FALSE(range.contains(make_date(2027, 5, 3)));
}

// Traps of std::chrono that the program must not step into: kept here so that a change of the
// library is noticed.
TEST(DateTrap, AMonthAddedToADateIsThirtyDaysAndTenHours) {
  const auto moved = make_date(2027, 1, 31) + months{1};
  EXPECT_NE(moved, Date{2027y / 2 / 28});
  EXPECT_EQ(std::chrono::floor<Days>(moved), make_date(2027, 3, 2));
}

TEST(DateTrap, AMonthAfterTheThirtyFirstIsNotADay) {
  EXPECT_FALSE((2027y / January / 31 + months{1}).ok());
}

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};
// `15d` is a day of the month, not a span.
static_assert(!Addable<Date, std::chrono::day>);
static_assert(Addable<Date, Days>);
// A year_month_day cannot take days; a Date can.
static_assert(!Addable<year_month_day, Days>);

}  // namespace
}  // namespace trug
