// SPDX-License-Identifier: MIT
#include "feed/http_date.h"

#include <fmt/format.h>

#include <charconv>
#include <system_error>

#include "base/date.h"

namespace trug::feed {
namespace {

// -1 where it is no number.
int digits(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc{} && end == text.data() + text.size() && value >= 0 ? value : -1;
}

}  // namespace

std::string http_date(std::chrono::sys_seconds moment) {
  const auto day = std::chrono::floor<std::chrono::days>(moment);
  const std::chrono::year_month_day date{day};
  const std::chrono::hh_mm_ss time{moment - day};
  return fmt::format("{}, {:02} {} {:04} {:02}:{:02}:{:02} GMT", short_weekday(day),
                     unsigned{date.day()}, short_month(date.month()), int{date.year()},
                     time.hours().count(), time.minutes().count(), time.seconds().count());
}

std::optional<std::chrono::sys_seconds> parse_http_date(std::string_view text) {
  constexpr std::size_t kLength = 29;
  if (text.size() != kLength) return std::nullopt;
  const auto month = parse_month(text.substr(8, 3));
  const int year = digits(text.substr(12, 4));
  const int day = digits(text.substr(5, 2));
  if (!month || year < 0 || day < 0) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year{year}, *month,
                                         std::chrono::day{static_cast<unsigned>(day)}};
  if (!date.ok()) return std::nullopt;
  const std::chrono::sys_seconds moment = std::chrono::sys_days{date} +
                                          std::chrono::hours{digits(text.substr(17, 2))} +
                                          std::chrono::minutes{digits(text.substr(20, 2))} +
                                          std::chrono::seconds{digits(text.substr(23, 2))};
  // What was misread anywhere, a wrong weekday included, does not come back the same.
  return http_date(moment) == text ? std::optional{moment} : std::nullopt;
}

}  // namespace trug::feed
