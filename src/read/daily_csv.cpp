// SPDX-License-Identifier: MIT
#include "read/daily_csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <system_error>
#include <utility>
#include <vector>

#include "base/text.h"
#include "read/csv_headings.h"
#include "read/csv_values.h"
#include "read/text_file.h"

namespace trug::read {
namespace {

constexpr int kMostErrors = 20;
constexpr int kLastHeadingLine = 200;  // lines about the station come before the headings
// Beyond the lowest and highest air temperatures measured on earth (World Meteorological
// Organization: -89.2 and 56.7 degC).
constexpr double kColdest = -90;
constexpr double kHottest = 60;
constexpr int kFirstYear = 1650;  // thermometers are no older
constexpr int kLastYear = 2150;

// A field as a message quotes it: short, and harmless to a terminal.
std::string shown(std::string_view text) {
  constexpr std::size_t kLongest = 40;
  std::string result(text.substr(0, kLongest));
  while (!is_valid_utf8(result)) result.pop_back();
  for (char& c : result) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) c = '?';
  }
  return text.size() > kLongest ? result + "..." : result;
}

class Reader {
 public:
  Reader(std::string_view text, const std::string& path, const DailyCsvOptions& options,
         Diagnostics& diagnostics)
      : text_(text), path_(path), options_(options), diagnostics_(diagnostics) {}

  std::optional<DailyRecord> run() {
    if (!find_headings()) return std::nullopt;
    while (errors_ < kMostErrors && next_line()) {
      const std::string_view line = trimmed_field(line_);
      if (!line.empty() && !line.starts_with('#')) read_day();
    }
    if (errors_ == 0 && !any_minimum_) {
      error(start_of(headings_.line), "no day below has a minimum temperature",
            "is this the column of minima?");
    }
    if (errors_ > 0) return std::nullopt;
    warn();
    return std::move(record_);
  }

 private:
  bool next_line() {
    if (at_ >= text_.size()) return false;
    const std::size_t end = std::min(text_.find('\n', at_), text_.size());
    line_ = text_.substr(at_, end - at_);
    at_ = end + 1;
    ++number_;
    return true;
  }

  void error(const Position& position, std::string message, std::string hint = {}) {
    ++errors_;
    diagnostics_.error(position, std::move(message), std::move(hint));
  }

  Position start_of(int line) const { return {path_, line, 1}; }
  Position place_of(const CsvField& field) const {
    return {path_, number_, characters(line_.substr(0, field.offset)) + 1};
  }

  // The first line that names a date and a minimum, whatever separates its fields.
  bool find_headings() {
    while (number_ < kLastHeadingLine && next_line()) {
      for (const char separator : {',', ';', '\t'}) {
        split_fields(line_, separator, fields_);
        const auto headings = headings_in(fields_, options_);
        if (!headings) continue;
        headings_ = *headings;
        headings_.line = number_;
        headings_.separator = separator;
        if (headings_.max || !options_.max_column) return true;
        error(start_of(number_),
              fmt::format("no column is headed '{}'", shown(*options_.max_column)));
        return false;
      }
    }
    const auto named = [](const std::optional<std::string>& name, std::string_view usual) {
      return name ? fmt::format("'{}'", shown(*name)) : std::string(usual);
    };
    error({path_, 0, 0},
          fmt::format("no line heads one column as {} and one as {}",
                      named(options_.date_column, "the date"),
                      named(options_.min_column, "the daily minimum temperature")),
          "usual headings are date, tmin and tmax; other columns can be named");
    return false;
  }

  void read_day() {
    split_fields(line_, headings_.separator, fields_);
    if (headings_.last_column() >= fields_.size()) {
      error(start_of(number_), fmt::format("this line has {}; the headings need {}",
                                           counted(static_cast<int>(fields_.size()), "field"),
                                           headings_.last_column() + 1));
      return;
    }
    const auto day = read_date();
    if (!day) return;
    const int errors_before = errors_;
    DailyWeather weather;
    weather.min_c = read_temperature(headings_.min);
    if (headings_.max) weather.max_c = read_temperature(*headings_.max);
    if (errors_ > errors_before) return;
    if (weather.min_c && weather.max_c && *weather.min_c > *weather.max_c) {
      if (crossed_++ == 0) first_crossed_ = place_of(fields_[headings_.min.index]);
      weather = {};
    }
    add(*day, weather);
  }

  std::optional<Date> read_date() {
    const CsvField& first = fields_[headings_.date.front()];
    std::optional<Date> day;
    std::string words(first.text);
    if (headings_.date.size() == 1) {
      day = csv_date(first.text);
    } else {
      const auto part = [&](std::size_t i) { return fields_[headings_.date[i]].text; };
      day = csv_date(part(0), part(1), part(2));
      words = fmt::format("{} {} {}", part(0), part(1), part(2));
    }
    if (!day) {
      error(place_of(first), fmt::format("'{}' is not a date", shown(words)),
            "wanted year, month, day: 2027-05-14, 2027/05/14 or 20270514; or 14-May-2027");
      return std::nullopt;
    }
    if (year_of(*day) < kFirstYear || year_of(*day) > kLastYear) {
      error(place_of(first), fmt::format("no weather was measured in the year {}", year_of(*day)));
      return std::nullopt;
    }
    if (!record_.days.empty() && *day < record_.until()) {
      const bool twice = *day == record_.until() - Days{1};
      error(place_of(first),
            twice ? fmt::format("{} is given twice", iso(*day))
                  : fmt::format("{} comes after {}", iso(*day), iso(record_.until() - Days{1})),
            "the days of one place, in order; a table of several places must be divided");
      return std::nullopt;
    }
    return day;
  }

  std::optional<double> read_temperature(const CsvColumn& column) {
    const CsvField& field = fields_[column.index];
    if (is_missing_word(field.text)) return std::nullopt;
    double value = 0;
    std::string_view digits = field.text;
    if (digits.starts_with('+')) digits.remove_prefix(1);
    const auto [end, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (fault != std::errc{} || end != digits.data() + digits.size() || !std::isfinite(value)) {
      const bool comma = digits.find(',') != std::string_view::npos;
      error(place_of(field), fmt::format("'{}' is not a temperature", shown(field.text)),
            comma ? "write a point, not a comma, before the tenths" : "");
      return std::nullopt;
    }
    const auto unit = options_.unit ? options_.unit : column.unit;
    const DegreeUnit assumed = unit.value_or(DegreeUnit::Celsius);
    if (is_missing_number(value, assumed)) return std::nullopt;
    const double celsius = to_celsius(value, assumed);
    if (celsius < kColdest || celsius > kHottest) {
      error(place_of(field),
            fmt::format("{} was never measured anywhere, read as {}", shown(field.text),
                        unit_words(assumed)),
            "is the column in another unit?");
      return std::nullopt;
    }
    unit_known_ = unit_known_ && unit;
    return celsius;
  }

  void add(Date day, const DailyWeather& weather) {
    if (record_.days.empty()) record_.first = day;
    record_.days.resize(static_cast<std::size_t>(days_between(record_.first, day)));
    record_.days.push_back(weather);
    any_minimum_ = any_minimum_ || weather.min_c;
  }

  void warn() {
    if (!unit_known_) {
      diagnostics_.warning(start_of(headings_.line),
                           "no heading gives the unit: read as degrees Celsius");
    }
    if (crossed_ > 0) {
      diagnostics_.warning(first_crossed_,
                           crossed_ == 1
                               ? std::string("this minimum is above its maximum: both are left out")
                               : fmt::format("minimum above maximum here and on {}: left out",
                                             counted(crossed_ - 1, "other day")));
    }
  }

  std::string_view text_;
  const std::string& path_;
  const DailyCsvOptions& options_;
  Diagnostics& diagnostics_;

  std::size_t at_ = 0;
  std::string_view line_;
  int number_ = 0;
  int errors_ = 0;
  std::vector<CsvField> fields_;
  CsvHeadings headings_;
  DailyRecord record_{};
  bool any_minimum_ = false;
  bool unit_known_ = true;
  int crossed_ = 0;
  Position first_crossed_;
};

}  // namespace

std::optional<DailyRecord> read_daily_csv(std::string_view bytes, const std::string& path,
                                          const DailyCsvOptions& options,
                                          Diagnostics& diagnostics) {
  if (bytes.starts_with("\xef\xbb\xbf")) bytes.remove_prefix(3);
  std::string text(bytes);
  if (!is_valid_utf8(text)) {
    // Older tables write the degree sign in another encoding; only the headings hold such letters,
    // and they are found by their plain ones.
    for (char& c : text) {
      if ((static_cast<unsigned char>(c) & 0x80) != 0) c = '?';
    }
  }
  diagnostics.add_file(path, text);
  return Reader(text, path, options, diagnostics).run();
}

std::optional<DailyRecord> read_daily_file(const FileReader& files, const std::string& path,
                                           const DailyCsvOptions& options,
                                           Diagnostics& diagnostics) {
  const auto bytes = read_bytes(files, path, diagnostics, kLargestTable);
  return bytes ? read_daily_csv(*bytes, path, options, diagnostics) : std::nullopt;
}

}  // namespace trug::read
