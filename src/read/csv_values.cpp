// SPDX-License-Identifier: MIT
#include "read/csv_values.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>
#include <string>

#include "base/day_text.h"
#include "read/csv_headings.h"

namespace trug::read {
namespace {

bool is_digits(std::string_view text) {
  return !text.empty() && std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

std::optional<int> small_number(std::string_view digits) {
  int value = 0;
  if (!is_digits(digits) || digits.size() > 4) return std::nullopt;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

std::optional<Date> checked_date(std::optional<int> year, std::optional<int> month,
                                 std::optional<int> day) {
  if (!year || !month || !day) return std::nullopt;
  const std::chrono::year_month_day ymd{std::chrono::year{*year},
                                        std::chrono::month{static_cast<unsigned>(*month)},
                                        std::chrono::day{static_cast<unsigned>(*day)}};
  return ymd.ok() ? std::optional(Date{ymd}) : std::nullopt;
}

}  // namespace

std::optional<Date> csv_date(std::string_view year, std::string_view month, std::string_view day) {
  return checked_date(small_number(year), small_number(month), small_number(day));
}

std::optional<Date> csv_date(std::string_view text) {
  if (text.size() == 8 && is_digits(text)) {
    return csv_date(text.substr(0, 4), text.substr(4, 2), text.substr(6));
  }
  text = text.substr(0, text.find('T'));
  const std::size_t first = text.find_first_of("-/ ");
  if (first == std::string_view::npos) return std::nullopt;
  const std::size_t second = text.find(text[first], first + 1);
  if (second == std::string_view::npos) return std::nullopt;
  const std::string_view a = text.substr(0, first);
  const std::string_view b = text.substr(first + 1, second - first - 1);
  const std::string_view rest = text.substr(second + 1);
  const std::string_view c = rest.substr(0, rest.find(' '));
  if (a.size() == 4) return csv_date(a, b, c);
  if (is_digits(b) || c.size() != 4) return std::nullopt;
  const auto day = parse_month_day(fmt::format("{} {}", a, b));
  if (!day) return std::nullopt;
  return checked_date(small_number(c), static_cast<int>(static_cast<unsigned>(day->month())),
                      static_cast<int>(static_cast<unsigned>(day->day())));
}

bool is_missing_word(std::string_view text) {
  if (text.empty()) return true;
  if (text.size() > 4) return false;
  const std::string letters = letters_of(text);
  return letters.empty()
             ? text.find_first_not_of("-.*") == std::string_view::npos
             : letters == "na" || letters == "nan" || letters == "m" || letters == "null";
}

bool is_missing_number(double value, DegreeUnit unit) {
  const double size = std::abs(value);
  const auto is = [size](double number) { return std::abs(size - number) < 0.01; };
  if (is(999) || is(999.9) || is(9999) || is(9999.9) || is(99999)) return true;
  return unit != DegreeUnit::TenthsCelsius && value < 0 && (is(99) || is(99.9) || is(99.99));
}

double to_celsius(double value, DegreeUnit unit) {
  switch (unit) {
    case DegreeUnit::Celsius:
      return value;
    case DegreeUnit::Fahrenheit:
      return (value - 32) / 1.8;
    case DegreeUnit::TenthsCelsius:
      return value / 10;
  }
  return value;
}

std::string_view unit_words(DegreeUnit unit) {
  switch (unit) {
    case DegreeUnit::Celsius:
      return "degrees Celsius";
    case DegreeUnit::Fahrenheit:
      return "degrees Fahrenheit";
    case DegreeUnit::TenthsCelsius:
      return "tenths of a degree Celsius";
  }
  return "";
}

}  // namespace trug::read
