// SPDX-License-Identifier: MIT
// A day as people write it, in plans and on the command line.
#pragma once

#include <optional>
#include <string_view>

#include "base/date.h"

namespace trug {

struct WrittenDay {
  MonthDay day;
  std::optional<int> year;
};

enum class DayFault {
  NoDay,         // "soon"
  DayOrMonth,    // "5/14", "1.3.2027"
  NoSuchDay,     // "30 February", "29 February 2027", "Sat 14 May 2027" (a Friday)
  MonthOnly,     // "mid May"
  MonthUnknown,  // "5. Mai"
  Relative       // "today", "Saturday": another day tomorrow
};

struct DayReading {
  std::optional<WrittenDay> day;
  DayFault fault = DayFault::NoDay;  // where there is no day
};

// "14 May", "14th of May", "May 14th", "14. May 2027", "Fri 14 May 2027" and "2027-05-14": the
// month in full or by three letters or more, any case.
DayReading read_written_day(std::string_view text);
// The same without a year.
std::optional<MonthDay> parse_month_day(std::string_view text);
// "yesterday", "today", "tomorrow", and a weekday: the next one, today included.
std::optional<Date> parse_relative_day(std::string_view text, Date today);
// The day in its year, or in the first that puts it on or after `earliest`.
Date on_or_after(const WrittenDay& day, Date earliest);

// What is wrong with such a text, to stand after it: ", a day that no year has".
std::string_view fault_words(DayFault fault);
// What would be right: "months are in English, such as " before an example. Empty: the day is
// what is wrong, not how it is written.
std::string_view fault_hint(DayFault fault);

}  // namespace trug
