// SPDX-License-Identifier: MIT
// The headings of a table of daily weather: which column holds what, and in which unit.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "read/daily_csv.h"

namespace trug::read {

struct CsvField {
  std::string_view text;   // without blanks and quotes around it
  std::size_t offset = 0;  // bytes from the line's start
};

struct CsvColumn {
  std::size_t index = 0;
  std::optional<DegreeUnit> unit;
};

// Which columns count.
struct CsvHeadings {
  int line = 0;
  char separator = ',';
  std::vector<std::size_t> date;  // one column, or year, month and day
  CsvColumn min;
  std::optional<CsvColumn> max;

  std::size_t last_column() const;
};

// Without the blanks of tables at either end.
std::string_view trimmed_field(std::string_view text);
// Fields of one line. A quoted field may hold the separator; a doubled quote inside stays doubled,
// as no column read here has one.
void split_fields(std::string_view line, char separator, std::vector<CsvField>& fields);
// Lower-case letters and digits alone: "Min Temp (degC)" and "MIN_TEMP_DEGC" are one heading.
std::string letters_of(std::string_view text);
// The columns a line of headings names, its number and separator not filled in; nullopt where it
// names no date or no minimum.
std::optional<CsvHeadings> headings_in(const std::vector<CsvField>& fields,
                                       const DailyCsvOptions& options);

}  // namespace trug::read
