// SPDX-License-Identifier: MIT
#include "base/date.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <system_error>

#include "base/text.h"

namespace trug {
namespace {

using std::chrono::year_month_day;

constexpr std::array<std::string_view, 12> kMonths = {
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};
constexpr std::array<std::string_view, 7> kWeekdays = {
    "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};

// Index of the name that `text` is, in full or by its first three letters or more.
template <std::size_t kCount>
std::optional<unsigned> index_of(const std::array<std::string_view, kCount>& names,
                                 std::string_view text) {
  const std::string wanted = lower_ascii(text);
  if (wanted.size() < 3) return std::nullopt;
  for (std::size_t i = 0; i < kCount; ++i) {
    if (lower_ascii(names[i]).starts_with(wanted)) return static_cast<unsigned>(i);
  }
  return std::nullopt;
}

std::optional<unsigned> parse_digits(std::string_view text) {
  unsigned value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

MonthDay month_day_of(Date day) {
  const year_month_day ymd{day};
  return {ymd.month(), ymd.day()};
}

}  // namespace

Date make_date(int year, unsigned month, unsigned day) {
  return year_month_day{std::chrono::year{year}, std::chrono::month{month}, std::chrono::day{day}};
}

int year_of(Date day) { return static_cast<int>(year_month_day{day}.year()); }

unsigned month_of(Date day) { return static_cast<unsigned>(year_month_day{day}.month()); }

unsigned day_of_month(Date day) { return static_cast<unsigned>(year_month_day{day}.day()); }

int day_of_year(Date day) { return days_between(make_date(year_of(day), 1, 1), day) + 1; }

Date on(MonthDay day, int year) {
  const year_month_day candidate{std::chrono::year{year}, day.month(), day.day()};
  return candidate.ok() ? Date{candidate} : make_date(year, 2, 28);
}

Date monday_of(Date day) { return day - Days{std::chrono::weekday{day}.iso_encoding() - 1}; }

std::string iso_week(Date day) {
  const Date thursday = monday_of(day) + Days{3};
  return fmt::format("{:04}-W{:02}", year_of(thursday), (day_of_year(thursday) - 1) / 7 + 1);
}

std::string iso(MonthDay day) {
  return fmt::format("{:02}-{:02}", static_cast<unsigned>(day.month()),
                     static_cast<unsigned>(day.day()));
}

std::string iso(Date day) { return fmt::format("{:04}-{}", year_of(day), iso(month_day_of(day))); }

std::optional<Date> parse_iso(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto year = parse_digits(text.substr(0, 4));
  const auto month = parse_digits(text.substr(5, 2));
  const auto day = parse_digits(text.substr(8, 2));
  if (!year || !month || !day) return std::nullopt;
  const year_month_day ymd{std::chrono::year{static_cast<int>(*year)}, std::chrono::month{*month},
                           std::chrono::day{*day}};
  if (!ymd.ok()) return std::nullopt;
  return Date{ymd};
}

std::string short_day(MonthDay day) {
  return fmt::format("{} {}", static_cast<unsigned>(day.day()), month_name(day.month()));
}

std::string short_day(Date day) { return short_day(month_day_of(day)); }

std::string plain_day(Date day) { return fmt::format("{} {}", short_day(day), year_of(day)); }

std::string long_day(Date day) { return fmt::format("{} {}", short_weekday(day), plain_day(day)); }

std::string brief_day(Date day) {
  const MonthDay parts = month_day_of(day);
  return fmt::format("{} {}", static_cast<unsigned>(parts.day()), short_month(parts.month()));
}

std::string weekday_and_day(Date day) {
  return fmt::format("{} {}", short_weekday(day), short_day(day));
}

std::string month_and_year(Date day) {
  return fmt::format("{} {}", month_name(year_month_day{day}.month()), year_of(day));
}

std::string_view month_name(std::chrono::month month) {
  return kMonths[static_cast<unsigned>(month) - 1];
}
std::string_view short_month(std::chrono::month month) { return month_name(month).substr(0, 3); }

std::string_view short_weekday(Date day) {
  return kWeekdays[std::chrono::weekday{day}.iso_encoding() - 1].substr(0, 3);
}

std::optional<std::chrono::month> parse_month(std::string_view text) {
  const auto index = index_of(kMonths, text);
  if (!index) return std::nullopt;
  return std::chrono::month{*index + 1};
}

std::optional<std::chrono::weekday> parse_weekday(std::string_view text) {
  const auto index = index_of(kWeekdays, text);
  if (!index) return std::nullopt;
  return std::chrono::weekday{*index + 1};
}

}  // namespace trug
