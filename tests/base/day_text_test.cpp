// SPDX-License-Identifier: MIT
#include "base/day_text.h"

#include <gtest/gtest.h>

namespace trug {
namespace {

using std::chrono::May;

const MonthDay kDay = May / 14;

TEST(DayText, TakesADayAsPeopleWriteIt) {
  for (const char* text :
       {"14 May", "May 14", "14 may", "MAY 14", "14th May", "May 14th", "14. May", "14th of May",
        "the 14th of May", "14  May", " 14 May", "May 14.", "Fri 14 May", "Friday, 14 May"}) {
    SCOPED_TRACE(text);
    const auto reading = read_written_day(text);
    ASSERT_TRUE(reading.day);
    EXPECT_EQ(reading.day->day, kDay);
    EXPECT_FALSE(reading.day->year);
    EXPECT_EQ(parse_month_day(text), kDay);
  }
}

TEST(DayText, TakesAYearToo) {
  for (const char* text : {"2027-05-14", "14 May 2027", "May 14th, 2027", "14. May 2027",
                           "Fri 14 May 2027", "Friday, 14th of May, 2027"}) {
    SCOPED_TRACE(text);
    const auto reading = read_written_day(text);
    ASSERT_TRUE(reading.day);
    EXPECT_EQ(reading.day->day, kDay);
    EXPECT_EQ(reading.day->year, 2027);
    EXPECT_FALSE(parse_month_day(text));
  }
}

TEST(DayText, ReadsBackEveryDayInEveryFormItIsWrittenIn) {
  for (Date day = make_date(2027, 1, 1); day < make_date(2029, 1, 1); day += Days{1}) {
    for (const std::string& text : {iso(day), long_day(day), plain_day(day)}) {
      const auto reading = read_written_day(text);
      ASSERT_TRUE(reading.day) << text;
      ASSERT_EQ(on_or_after(*reading.day, {}), day) << text;
    }
    const auto short_form = read_written_day(short_day(day));
    ASSERT_TRUE(short_form.day);
    ASSERT_EQ(on_or_after(*short_form.day, day), day);
  }
}

TEST(DayText, TellsWhatIsWrong) {
  const struct {
    const char* text;
    DayFault fault;
  } rows[] = {
      {"", DayFault::NoDay},
      {"soon", DayFault::NoDay},
      {"2027", DayFault::NoDay},
      {"14 May June", DayFault::NoDay},
      {"14 15 May", DayFault::NoDay},
      {"about 14 May", DayFault::NoDay},
      {"05-14", DayFault::DayOrMonth},
      {"14/5", DayFault::DayOrMonth},
      {"14.5.", DayFault::DayOrMonth},
      {"1.3.2027", DayFault::DayOrMonth},
      {"2027-28-11", DayFault::DayOrMonth},
      {"30 February", DayFault::NoSuchDay},
      {"2027-02-30", DayFault::NoSuchDay},
      {"April 31st", DayFault::NoSuchDay},
      {"0 May", DayFault::NoSuchDay},
      {"99 May", DayFault::NoSuchDay},
      {"29 February 2027", DayFault::NoSuchDay},
      {"Sat 14 May 2027", DayFault::NoSuchDay},
      {"mid May", DayFault::MonthOnly},
      {"May", DayFault::MonthOnly},
      {"May 2027", DayFault::MonthOnly},
      {"5. Mai", DayFault::MonthUnknown},
      {"14", DayFault::MonthUnknown},
      {"14 Ma", DayFault::MonthUnknown},
      {"-1 May", DayFault::MonthOnly},
      {"today", DayFault::Relative},
      {"Tomorrow", DayFault::Relative},
      {"sat", DayFault::Relative},
  };
  for (const auto& row : rows) {
    SCOPED_TRACE(row.text);
    const auto reading = read_written_day(row.text);
    EXPECT_FALSE(reading.day);
    EXPECT_EQ(reading.fault, row.fault);
  }
}

TEST(DayText, CountsFromToday) {
  const Date wednesday = make_date(2026, 11, 25);
  EXPECT_EQ(parse_relative_day("today", wednesday), wednesday);
  EXPECT_EQ(parse_relative_day("Tomorrow", wednesday), make_date(2026, 11, 26));
  EXPECT_EQ(parse_relative_day("yesterday", wednesday), make_date(2026, 11, 24));
  EXPECT_EQ(parse_relative_day("Wednesday", wednesday), wednesday);
  EXPECT_EQ(parse_relative_day("Sat", wednesday), make_date(2026, 11, 28));
  EXPECT_EQ(parse_relative_day("tues", wednesday), make_date(2026, 12, 1));
  for (const char* text : {"", "next week", "May", "2027-05-14"}) {
    EXPECT_FALSE(parse_relative_day(text, wednesday)) << text;
  }
}

TEST(DayText, WithoutAYearIsTheNext) {
  const Date today = make_date(2026, 11, 25);
  EXPECT_EQ(on_or_after({May / 14, {}}, today), make_date(2027, 5, 14));
  EXPECT_EQ(on_or_after({std::chrono::November / 25, {}}, today), today);
  EXPECT_EQ(on_or_after({May / 14, 2020}, today), make_date(2020, 5, 14));
  EXPECT_EQ(on_or_after({std::chrono::February / 29, {}}, today), make_date(2027, 2, 28));
}

}  // namespace
}  // namespace trug
