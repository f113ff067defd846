// SPDX-License-Identifier: MIT
// One field of a table of daily weather as a date or a temperature.
#pragma once

#include <optional>
#include <string_view>

#include "base/date.h"
#include "read/daily_csv.h"

namespace trug::read {

// The date of one field, a time of day after it left out.
std::optional<Date> csv_date(std::string_view text);
// The date of three fields.
std::optional<Date> csv_date(std::string_view year, std::string_view month, std::string_view day);
// Words and signs that stand for "not measured".
bool is_missing_word(std::string_view text);
// Numbers that stand for "not measured". In tenths, -99 is a cold night.
bool is_missing_number(double value, DegreeUnit unit);
double to_celsius(double value, DegreeUnit unit);
// "degrees Celsius"
std::string_view unit_words(DegreeUnit unit);

}  // namespace trug::read
