// SPDX-License-Identifier: MIT
#include "read/csv_headings.h"

#include <algorithm>
#include <span>

#include "base/text.h"

namespace trug::read {
namespace {

constexpr std::size_t kMostFields = 1000;  // of a line; what lies behind them is not read

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

bool is_one_of(std::string_view word, std::span<const std::string_view> words) {
  return std::ranges::find(words, word) != words.end();
}

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

// Whether a heading is one of `names`, followed or not by a unit.
std::optional<CsvColumn> as_temperature(std::string_view heading, std::size_t index,
                                        std::span<const std::string_view> names) {
  const std::string letters = letters_of(heading);
  if (is_one_of(letters, names)) return CsvColumn{index, std::nullopt};
  for (const std::string_view name : names) {
    if (!letters.starts_with(name)) continue;
    if (const auto unit = unit_of(std::string_view(letters).substr(name.size()))) {
      return CsvColumn{index, unit};
    }
  }
  return std::nullopt;
}

std::optional<std::size_t> find_column(const std::vector<CsvField>& fields,
                                       std::span<const std::string_view> names) {
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (is_one_of(letters_of(fields[i].text), names)) return i;
  }
  return std::nullopt;
}

std::optional<std::size_t> find_named(const std::vector<CsvField>& fields,
                                      std::string_view wanted) {
  const std::string letters = letters_of(wanted);
  const std::string_view names[] = {letters};
  return find_column(fields, names);
}

std::vector<std::size_t> date_columns(const std::vector<CsvField>& fields,
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

std::optional<CsvColumn> temperature_column(const std::vector<CsvField>& fields,
                                            const std::optional<std::string>& wanted,
                                            std::span<const std::string_view> names) {
  for (std::size_t i = 0; i < fields.size(); ++i) {
    const auto known = as_temperature(fields[i].text, i, names);
    if (!wanted && known) return known;
    if (wanted && letters_of(fields[i].text) == letters_of(*wanted)) {
      return known.value_or(CsvColumn{i, std::nullopt});
    }
  }
  return std::nullopt;
}

}  // namespace

std::string_view trimmed_field(std::string_view text) { return trimmed(text, " \t\r"); }

void split_fields(std::string_view line, char separator, std::vector<CsvField>& fields) {
  fields.clear();
  std::size_t from = 0;
  while (from <= line.size() && fields.size() < kMostFields) {
    bool quoted = false;
    std::size_t end = from;
    for (; end < line.size() && (quoted || line[end] != separator); ++end) {
      if (line[end] == '"') quoted = !quoted;
    }
    std::string_view text = trimmed_field(line.substr(from, end - from));
    if (text.size() >= 2 && text.front() == '"' && text.back() == '"') {
      text = trimmed_field(text.substr(1, text.size() - 2));
    }
    const auto offset = text.empty() ? from : static_cast<std::size_t>(text.data() - line.data());
    fields.push_back({text, offset});
    from = end + 1;
  }
}

std::string letters_of(std::string_view text) {
  std::string result;
  for (const char c : text) {
    if (c >= 'A' && c <= 'Z') result += static_cast<char>(c - 'A' + 'a');
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) result += c;
  }
  return result;
}

std::size_t CsvHeadings::last_column() const {
  return std::max({std::ranges::max(date), min.index, max ? max->index : 0});
}

std::optional<CsvHeadings> headings_in(const std::vector<CsvField>& fields,
                                       const DailyCsvOptions& options) {
  CsvHeadings headings;
  headings.date = date_columns(fields, options.date_column);
  const auto min = temperature_column(fields, options.min_column, kMinNames);
  if (headings.date.empty() || !min) return std::nullopt;
  headings.min = *min;
  headings.max = temperature_column(fields, options.max_column, kMaxNames);
  return headings;
}

}  // namespace trug::read
