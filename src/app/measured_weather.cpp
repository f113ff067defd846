// SPDX-License-Identifier: MIT
#include "app/measured_weather.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <variant>

#include "climate/frost_record.h"
#include "read/daily_csv.h"

namespace trug::app {
namespace {

constexpr int kYearsOfAverages = 30;

// The record's days before `day`.
DailyRecord before(const DailyRecord& record, Date day) {
  const int days =
      std::clamp(days_between(record.first, day), 0, static_cast<int>(record.days.size()));
  return {record.first, {record.days.begin(), record.days.begin() + days}};
}

}  // namespace

std::optional<MeasuredWeather> read_weather(const FileReader& files, Date today, Plan& plan,
                                            Diagnostics& diagnostics) {
  const std::string path =
      (std::filesystem::path(plan.file).parent_path() / *plan.place.weather).string();
  const auto whole = read::read_daily_file(files, path, {}, diagnostics);
  if (!whole) return std::nullopt;
  MeasuredWeather result;
  result.record = std::make_shared<DailyRecord>(before(*whole, today));
  const bool southern = is_southern(plan.place);
  const Date stable = southern ? make_date(plan.flowering_year - 2, 7, 1)
                               : make_date(plan.flowering_year - 1, 1, 1);
  const auto averages = climate::record_temperatures(
      climate::last_years(before(*result.record, stable), kYearsOfAverages), southern);
  if (averages) result.spread_c = averages->spread_c;
  if (std::holds_alternative<NoTemperatures>(plan.place.temperatures)) {
    if (!averages) {
      diagnostics.error(
          {path, 0, 0},
          fmt::format("no averages can be made of this record: of each month, twenty days with a "
                      "minimum and a maximum before {} are needed",
                      plain_day(stable)),
          "write the place's monthly means into the plan: mean_c = [ ... ]");
      return std::nullopt;
    }
    plan.place.temperatures = MonthlyMeans{averages->mean_c, averages->max_c};
  }
  return result;
}

}  // namespace trug::app
