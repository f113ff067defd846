// SPDX-License-Identifier: MIT
// Daily minima and maxima from the tables weather services give away, one line a day.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/diagnostics.h"
#include "base/files.h"
#include "garden/weather.h"

namespace trug::read {

enum class DegreeUnit { Celsius, Fahrenheit, TenthsCelsius };

// What the person says of the table; whatever is absent is looked for in the headings.
struct DailyCsvOptions {
  std::optional<std::string> date_column;
  std::optional<std::string> min_column;
  std::optional<std::string> max_column;
  std::optional<DegreeUnit> unit;  // beats what the headings say
};

// Reads a table separated by commas, semicolons or tabs, after any number of lines about the
// station. Columns go by their headings ("date", or "year", "month" and "day"; "tmin", "Min Temp
// (degC)" and their like); maxima may be absent. Dates: 2027-05-14, 2027/05/14, 20270514,
// 14-May-2027, a time of day after it left out. Empty fields, "NA", "M", -99.9, 999 and their like
// are missing. Days must rise; days left out are missing. Reports lines that cannot be read, days
// out of order or given twice, impossible temperatures (at most 20 errors), and warns where no
// heading gives the unit (degrees Celsius then) and where a minimum is above its maximum (both are
// left out). nullopt where there was an error.
std::optional<DailyRecord> read_daily_csv(std::string_view bytes, const std::string& path,
                                          const DailyCsvOptions& options, Diagnostics& diagnostics);

// The largest table that is read, in bytes: a thousand years of days at 170 bytes each.
inline constexpr std::size_t kLargestTable = 64 * 1024 * 1024;

// The same from a file; also reports one that cannot be read.
std::optional<DailyRecord> read_daily_file(const FileReader& files, const std::string& path,
                                           const DailyCsvOptions& options,
                                           Diagnostics& diagnostics);

}  // namespace trug::read
