// SPDX-License-Identifier: MIT
#include "base/day_text.h"

#include <algorithm>
#include <cctype>
#include <chrono>
#include <string>
#include <vector>

#include "base/text.h"

namespace trug {
namespace {

using std::chrono::year_month_day;

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

// The words of a text in small letters, without blanks, commas and points at their ends.
std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words(1);
  for (const char c : lower_ascii(text)) {
    if (c == ' ' || c == ',') {
      if (!words.back().empty()) words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  for (std::string& word : words) {
    if (word.ends_with('.')) word.pop_back();
  }
  std::erase_if(words, [](const std::string& w) { return w.empty() || w == "of" || w == "the"; });
  return words;
}

// "5", "5th", "2027"; at most four digits.
std::optional<int> number_in(std::string_view word) {
  for (const std::string_view ending : {"st", "nd", "rd", "th"}) {
    if (word.size() > 2 && word.ends_with(ending)) word.remove_suffix(2);
  }
  if (word.empty() || word.size() > 4 || !std::ranges::all_of(word, is_digit)) return std::nullopt;
  return std::stoi(std::string(word));
}

// What the words of a text are, each kind at most once.
struct Parts {
  std::optional<int> day;
  std::optional<int> year;
  std::optional<std::chrono::month> month;
  std::optional<std::chrono::weekday> weekday;
  bool others = false;  // a word that is none of these, or one too many
};

Parts parts_of(const std::vector<std::string>& words) {
  Parts parts;
  const auto take = [&parts](auto& slot, auto value) {
    parts.others = parts.others || slot;
    slot = value;
  };
  for (const std::string& word : words) {
    if (const auto number = number_in(word)) {
      take(word.size() == 4 && is_digit(word.back()) ? parts.year : parts.day, *number);
    } else if (const auto month = parse_month(word)) {
      take(parts.month, *month);
    } else if (const auto weekday = parse_weekday(word)) {
      take(parts.weekday, *weekday);
    } else {
      parts.others = true;
    }
  }
  return parts;
}

// Digits with marks between them: "05-14", "1.3.2027".
bool is_all_figures(std::string_view text) {
  const bool has_mark = text.find_first_of("-/.") != std::string_view::npos;
  return has_mark && is_digit(text.front()) &&
         text.find_first_not_of("0123456789-/.") == std::string_view::npos;
}

// "2027-02-30": no doubt which is the month, but no calendar has the day.
bool is_year_and_month(std::string_view figures) {
  return figures.find_first_not_of("0123456789") == 4 && figures.size() == 10 &&
         figures.substr(5, 2) <= "12";
}

DayReading fault(DayFault what) { return {std::nullopt, what}; }

DayReading reading_of(const Parts& parts) {
  if (!parts.month) return fault(parts.day ? DayFault::MonthUnknown : DayFault::NoDay);
  if (!parts.day) return fault(DayFault::MonthOnly);
  if (parts.others) return fault(DayFault::NoDay);
  const MonthDay day{*parts.month, std::chrono::day{static_cast<unsigned>(*parts.day)}};
  if (!day.ok()) return fault(DayFault::NoSuchDay);
  if (!parts.year) return {WrittenDay{day, std::nullopt}, {}};
  const year_month_day full{std::chrono::year{*parts.year}, day.month(), day.day()};
  const bool agrees = full.ok() && (!parts.weekday || std::chrono::weekday{full} == *parts.weekday);
  return agrees ? DayReading{WrittenDay{day, parts.year}, {}} : fault(DayFault::NoSuchDay);
}

}  // namespace

DayReading read_written_day(std::string_view text) {
  if (const auto date = parse_iso(text)) {
    const year_month_day ymd{*date};
    return {WrittenDay{MonthDay{ymd.month(), ymd.day()}, year_of(*date)}, {}};
  }
  if (parse_relative_day(text, Date{})) return fault(DayFault::Relative);
  const std::vector<std::string> words = words_of(text);
  if (words.size() == 1 && is_all_figures(words.front())) {
    return fault(is_year_and_month(words.front()) ? DayFault::NoSuchDay : DayFault::DayOrMonth);
  }
  return reading_of(parts_of(words));
}

std::optional<MonthDay> parse_month_day(std::string_view text) {
  const auto reading = read_written_day(text);
  if (!reading.day || reading.day->year) return std::nullopt;
  return reading.day->day;
}

std::optional<Date> parse_relative_day(std::string_view text, Date today) {
  const std::vector<std::string> words = words_of(text);
  if (words.size() != 1) return std::nullopt;
  if (words.front() == "yesterday") return today - Days{1};
  if (words.front() == "today") return today;
  if (words.front() == "tomorrow") return today + Days{1};
  const auto weekday = parse_weekday(words.front());
  if (!weekday) return std::nullopt;
  return today + (*weekday - std::chrono::weekday{today});
}

Date on_or_after(const WrittenDay& day, Date earliest) {
  if (day.year) return on(day.day, *day.year);
  const Date this_year = on(day.day, year_of(earliest));
  return this_year < earliest ? on(day.day, year_of(earliest) + 1) : this_year;
}

std::string_view fault_words(DayFault fault) {
  switch (fault) {
    case DayFault::DayOrMonth:
      return ": which is the day and which the month?";
    case DayFault::NoSuchDay:
      return ", a day that no calendar has";
    case DayFault::MonthOnly:
      return ", not one day";
    case DayFault::MonthUnknown:
      return ", which names no month";
    case DayFault::Relative:
      return ", which is another day tomorrow";
    case DayFault::NoDay:
      break;
  }
  return ", which is no day";
}

std::string_view fault_hint(DayFault fault) {
  switch (fault) {
    case DayFault::MonthOnly:
      return "give one day";
    case DayFault::MonthUnknown:
      return "write the month in English";
    case DayFault::Relative:
      return "name the day";
    case DayFault::NoSuchDay:
      return "";
    case DayFault::DayOrMonth:
    case DayFault::NoDay:
      break;
  }
  return "write the month as a word";
}

}  // namespace trug
