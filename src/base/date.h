// SPDX-License-Identifier: MIT
// Dates as the garden uses them: whole civil days, no clock, no time zone.
//
// `Date` is the currency of the core. `year_month_day` is used only to read and to print. Traps
// pinned by tests: adding std::chrono::months to a Date adds 30.44 days; 31 January + 1 month is
// not a date.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace trug {

using Date = std::chrono::sys_days;
using Days = std::chrono::days;

// From `from` to the day before `until`: `until` is the first day outside, as in iCalendar's DTEND.
struct DateRange {
  Date from;
  Date until;
  bool contains(Date day) const { return from <= day && day < until; }
  bool operator==(const DateRange&) const = default;
};

// A day that comes every year: "14 May".
using MonthDay = std::chrono::month_day;

Date make_date(int year, unsigned month, unsigned day);
int year_of(Date day);
unsigned month_of(Date day);
unsigned day_of_month(Date day);
// 1 on 1 January.
int day_of_year(Date day);
// That day of the year; 29 February becomes 28 February where the year has none.
Date on(MonthDay day, int year);
// The Monday of the week (Monday to Sunday) that holds `day`.
Date monday_of(Date day);
// ISO 8601 week, "2027-W19".
std::string iso_week(Date day);

// ISO 8601, "2027-05-14"; without a year "05-14".
std::string iso(Date day);
std::string iso(MonthDay day);
// Exactly YYYY-MM-DD and a date that exists; nothing else.
std::optional<Date> parse_iso(std::string_view text);
// For people: "Fri 14 November 2027", "14 November 2027", "14 November", "14 Nov".
std::string long_day(Date day);
std::string plain_day(Date day);
std::string short_day(Date day);
std::string short_day(MonthDay day);
std::string brief_day(Date day);
// "Fri 14 November", "November 2027".
std::string weekday_and_day(Date day);
std::string month_and_year(Date day);
// "November", "Nov", "Fri".
std::string_view month_name(std::chrono::month month);
std::string_view short_month(std::chrono::month month);
std::string_view short_weekday(Date day);
// "September", "Sep" or any length between, any case.
std::optional<std::chrono::month> parse_month(std::string_view text);
// "Saturday", "Sat" or any length between, any case.
std::optional<std::chrono::weekday> parse_weekday(std::string_view text);

inline int days_between(Date from, Date to) { return static_cast<int>((to - from).count()); }

}  // namespace trug
