// SPDX-License-Identifier: MIT
#include "read/daily_csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <span>
#include <vector>

#include "base/text.h"
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

struct Field {
  std::string_view text;
  std::size_t offset = 0;  // bytes from the line's start
};

std::string_view trimmed(std::string_view text) {
  const auto from = text.find_first_not_of(" \t\r");
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(" \t\r") + 1 - from);
}

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

// Fields of one line. A quoted field may hold the separator; a doubled quote inside stays doubled,
// as no column read here has one.
void split(std::string_view line, char separator, std::vector<Field>& fields) {
  fields.clear();
  std::size_t from = 0;
  while (from <= line.size()) {
    bool quoted = false;
    std::size_t end = from;
    for (; end < line.size() && (quoted || line[end] != separator); ++end) {
      if (line[end] == '"') quoted = !quoted;
    }
    std::string_view text = trimmed(line.substr(from, end - from));
    if (text.size() >= 2 && text.front() == '"' && text.back() == '"') {
      text = trimmed(text.substr(1, text.size() - 2));
    }
    const auto offset = text.empty() ? from : static_cast<std::size_t>(text.data() - line.data());
    fields.push_back({text, offset});
    from = end + 1;
  }
}

// Lower-case letters and digits alone: "Min Temp (degC)" and "MIN_TEMP_DEGC" are one heading.
std::string letters_of(std::string_view text) {
  std::string result;
  for (const char c : text) {
    if (c >= 'A' && c <= 'Z') result += static_cast<char>(c - 'A' + 'a');
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) result += c;
  }
  return result;
}

bool is_one_of(std::string_view word, std::span<const std::string_view> words) {
  return std::ranges::find(words, word) != words.end();
}

constexpr std::string_view kDateNames[] = {"date",     "datetime", "day",       "obsdate",
                                           "yyyymmdd", "time",     "obendtime", "localdate"};
constexpr std::string_view kYearNames[] = {"year", "yyyy", "yr"};
constexpr std::string_view kMonthNames[] = {"month", "mm", "mo", "mon"};
constexpr std::string_view kDayNames[] = {"day", "dd", "dy"};
constexpr std::string_view kMinNames[] = {"tmin",
                                          "tempmin",
                                          "mintemp",
                                          "tn",
                                          "mint",
                                          "mintp",
                                          "min",
                                          "minimum",
                                          "tminimum",
                                          "minairtemp",
                                          "airtempmin",
                                          "mintemperature",
                                          "minimumtemperature",
                                          "temperaturemin",
                                          "temperatureminimum",
                                          "dailyminimumtemperature",
                                          "lowtemp",
                                          "low"};
constexpr std::string_view kMaxNames[] = {"tmax",
                                          "tempmax",
                                          "maxtemp",
                                          "tx",
                                          "maxt",
                                          "maxtp",
                                          "max",
                                          "maximum",
                                          "tmaximum",
                                          "maxairtemp",
                                          "airtempmax",
                                          "maxtemperature",
                                          "maximumtemperature",
                                          "temperaturemax",
                                          "temperaturemaximum",
                                          "dailymaximumtemperature",
                                          "hightemp",
                                          "high"};

// A unit as headings write it, reduced to letters: "degC", "Degree C", "0.1 degC", "°F".
std::optional<DegreeUnit> unit_of(std::string_view letters) {
  constexpr std::string_view kTenths[] = {"01c",
                                          "01degc",
                                          "tenthsofdegc",
                                          "tenthsdegc",
                                          "tenthsofdegreesc",
                                          "tenthsofc",
                                          "tenthsofdegreescelsius",
                                          "01degreescelsius"};
  constexpr std::string_view kCelsius[] = {"c",        "degc",           "degreec",
                                           "degreesc", "degreescelsius", "celsius"};
  constexpr std::string_view kFahrenheit[] = {
      "f", "degf", "degreef", "degreesf", "degreesfahrenheit", "fahrenheit"};
  if (is_one_of(letters, kTenths)) return DegreeUnit::TenthsCelsius;
  if (is_one_of(letters, kCelsius)) return DegreeUnit::Celsius;
  if (is_one_of(letters, kFahrenheit)) return DegreeUnit::Fahrenheit;
  return std::nullopt;
}

struct Column {
  std::size_t index = 0;
  std::optional<DegreeUnit> unit;
};

// Whether a heading is one of `names`, followed or not by a unit.
std::optional<Column> as_temperature(std::string_view heading, std::size_t index,
                                     std::span<const std::string_view> names) {
  const std::string letters = letters_of(heading);
  if (is_one_of(letters, names)) return Column{index, std::nullopt};
  for (const std::string_view name : names) {
    if (!letters.starts_with(name)) continue;
    if (const auto unit = unit_of(std::string_view(letters).substr(name.size()))) {
      return Column{index, unit};
    }
  }
  return std::nullopt;
}

// Where the headings are and which columns count.
struct Headings {
  int line = 0;
  char separator = ',';
  std::vector<std::size_t> date;  // one column, or year, month and day
  std::optional<Column> min, max;
};

std::optional<std::size_t> find_column(const std::vector<Field>& fields,
                                       std::span<const std::string_view> names) {
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (is_one_of(letters_of(fields[i].text), names)) return i;
  }
  return std::nullopt;
}

std::optional<std::size_t> find_named(const std::vector<Field>& fields, std::string_view wanted) {
  const std::string letters = letters_of(wanted);
  const std::string_view names[] = {letters};
  return find_column(fields, names);
}

std::vector<std::size_t> date_columns(const std::vector<Field>& fields,
                                      const std::optional<std::string>& wanted) {
  if (wanted) {
    const auto named = find_named(fields, *wanted);
    return named ? std::vector{*named} : std::vector<std::size_t>{};
  }
  const auto year = find_column(fields, kYearNames);
  const auto month = find_column(fields, kMonthNames);
  const auto day = find_column(fields, kDayNames);
  if (year && month && day) return {*year, *month, *day};
  const auto date = find_column(fields, kDateNames);
  return date ? std::vector{*date} : std::vector<std::size_t>{};
}

std::optional<Column> temperature_column(const std::vector<Field>& fields,
                                         const std::optional<std::string>& wanted,
                                         std::span<const std::string_view> names) {
  for (std::size_t i = 0; i < fields.size(); ++i) {
    const auto known = as_temperature(fields[i].text, i, names);
    if (!wanted && known) return known;
    if (wanted && letters_of(fields[i].text) == letters_of(*wanted)) {
      return known.value_or(Column{i, std::nullopt});
    }
  }
  return std::nullopt;
}

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

// The date of one field, a time of day after it left out.
std::optional<Date> date_of(std::string_view text) {
  if (text.size() == 8 && is_digits(text)) {
    return checked_date(small_number(text.substr(0, 4)), small_number(text.substr(4, 2)),
                        small_number(text.substr(6)));
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
  if (a.size() == 4) return checked_date(small_number(a), small_number(b), small_number(c));
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

// Numbers that stand for "not measured". In tenths, -99 is a cold night.
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

class Reader {
 public:
  Reader(std::string_view text, const std::string& path, const DailyCsvOptions& options,
         Diagnostics& diagnostics)
      : text_(text), path_(path), options_(options), diagnostics_(diagnostics) {}

  std::optional<DailyRecord> run() {
    if (!find_headings()) return std::nullopt;
    while (errors_ < kMostErrors && next_line()) {
      if (!trimmed(line_).empty() && !trimmed(line_).starts_with('#')) read_day();
    }
    if (errors_ == 0 && !any_minimum_) {
      error({headings_.line, 1}, "no day below has a minimum temperature",
            "is this the column of minima?");
    }
    if (errors_ > 0) return std::nullopt;
    warn();
    return std::move(record_);
  }

 private:
  struct Place {
    int line = 0;
    int column = 0;
  };

  bool next_line() {
    if (at_ >= text_.size()) return false;
    const std::size_t end = std::min(text_.find('\n', at_), text_.size());
    line_ = text_.substr(at_, end - at_);
    at_ = end + 1;
    ++number_;
    return true;
  }

  void error(Place place, std::string message, std::string hint = {}) {
    ++errors_;
    diagnostics_.error({path_, place.line, place.column}, std::move(message), std::move(hint));
  }

  Place place_of(const Field& field) const {
    const auto before = line_.substr(0, field.offset);
    const auto points = std::ranges::count_if(
        before, [](char c) { return (static_cast<unsigned char>(c) & 0xc0) != 0x80; });
    return {number_, static_cast<int>(points) + 1};
  }

  // The first line that names a date and a minimum, whatever separates its fields.
  bool find_headings() {
    while (number_ < kLastHeadingLine && next_line()) {
      for (const char separator : {',', ';', '\t'}) {
        split(line_, separator, fields_);
        headings_ = {number_, separator, date_columns(fields_, options_.date_column),
                     temperature_column(fields_, options_.min_column, kMinNames),
                     temperature_column(fields_, options_.max_column, kMaxNames)};
        if (headings_.date.empty() || !headings_.min) continue;
        if (options_.max_column && !headings_.max) {
          error({number_, 1}, fmt::format("no column is headed '{}'", shown(*options_.max_column)));
          return false;
        }
        return true;
      }
    }
    const auto named = [](const std::optional<std::string>& name, std::string_view usual) {
      return name ? fmt::format("'{}'", shown(*name)) : std::string(usual);
    };
    error({0, 0},
          fmt::format("no line heads one column as {} and one as {}",
                      named(options_.date_column, "the date"),
                      named(options_.min_column, "the daily minimum temperature")),
          "usual headings are date, tmin and tmax; other columns can be named");
    return false;
  }

  void read_day() {
    split(line_, headings_.separator, fields_);
    std::size_t last = std::max(headings_.min->index, headings_.max ? headings_.max->index : 0);
    for (const std::size_t column : headings_.date) last = std::max(last, column);
    if (last >= fields_.size()) {
      error({number_, 1},
            fmt::format("this line has {}; the headings need {}",
                        counted(static_cast<int>(fields_.size()), "field"), last + 1));
      return;
    }
    const auto day = read_date();
    if (!day) return;
    const int errors_before = errors_;
    DailyWeather weather;
    weather.min_c = read_temperature(*headings_.min);
    if (headings_.max) weather.max_c = read_temperature(*headings_.max);
    if (errors_ > errors_before) return;
    if (weather.min_c && weather.max_c && *weather.min_c > *weather.max_c) {
      if (crossed_++ == 0) first_crossed_ = place_of(fields_[headings_.min->index]);
      weather = {};
    }
    add(*day, weather);
  }

  std::optional<Date> read_date() {
    const Field& first = fields_[headings_.date.front()];
    std::optional<Date> day;
    std::string words(first.text);
    if (headings_.date.size() == 1) {
      day = date_of(first.text);
    } else {
      const auto part = [&](std::size_t i) { return fields_[headings_.date[i]].text; };
      day = checked_date(small_number(part(0)), small_number(part(1)), small_number(part(2)));
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

  std::optional<double> read_temperature(const Column& column) {
    const Field& field = fields_[column.index];
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
      diagnostics_.warning({path_, headings_.line, 1},
                           "no heading gives the unit: read as degrees Celsius");
    }
    if (crossed_ > 0) {
      diagnostics_.warning({path_, first_crossed_.line, first_crossed_.column},
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
  std::vector<Field> fields_;
  Headings headings_;
  DailyRecord record_{};
  bool any_minimum_ = false;
  bool unit_known_ = true;
  int crossed_ = 0;
  Place first_crossed_;
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
