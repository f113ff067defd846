// SPDX-License-Identifier: MIT
#include "show/frost_json.h"

#include <algorithm>
#include <array>

#include "show/json_parts.h"

namespace trug::show {
namespace {

using climate::FrostDates;
using climate::FrostStatistics;

Json months_json(const std::array<double, 12>& values) {
  Json list = Json::array();
  for (const double value : values) list.push_back(tenths(value));
  return list;
}

Json dates_json(const FrostDates& dates, bool southern) {
  const auto day = [southern](double days) { return iso(climate::winter_day(days, southern)); };
  const auto level = [&](std::size_t i) {
    return dates.levels ? maybe((*dates.levels)[i], day) : Json(nullptr);
  };
  Json row;
  row["q10"] = level(0);
  row["q50"] = level(1);
  row["q90"] = level(2);
  row["mean"] = maybe(dates.mean, day);
  row["sd"] = maybe(dates.spread_days, tenths);
  row["earliest"] = maybe(dates.earliest, day);
  row["latest"] = maybe(dates.latest, day);
  row["seasons"] = dates.winters;
  row["counted"] = dates.skewed;
  return row;
}

Json threshold_json(const FrostStatistics& statistics, bool southern) {
  Json row;
  row["celsius"] = statistics.threshold_c;
  row["last"] = dates_json(statistics.last, southern);
  row["first"] = dates_json(statistics.first, southern);
  row["frost_free_seasons"] = std::max(statistics.last.winters - statistics.last.with_frost,
                                       statistics.first.winters - statistics.first.with_frost);
  return row;
}

}  // namespace

std::string frost_json(const DocumentHead& head, const FrostReport& report) {
  Json document = json_of(head);
  document["file"] = report.file;
  document["from"] = iso(report.record.first);
  document["to"] = iso(report.record.until() - Days{1});
  document["days"] = report.record.days.size();
  document["days_missing"] = report.days_missing();
  document["gaps"] = Json::array();
  for (const Gap& gap : report.gaps) {
    document["gaps"].push_back({{"from", iso(gap.from)}, {"days", gap.days}});
  }
  // Winters that tell at least one of the two dates, at the first threshold.
  const FrostStatistics& first = report.thresholds.front();
  document["seasons"] = std::max(first.last.winters, first.first.winters);
  document["thresholds"] = Json::array();
  for (const FrostStatistics& statistics : report.thresholds) {
    document["thresholds"].push_back(threshold_json(statistics, report.southern));
  }
  document["garden"] = threshold_json(report.garden, report.southern);
  const auto& months = report.temperatures;
  document["mean_c"] = months ? months_json(months->mean_c) : Json(nullptr);
  document["mean_max_c"] = months ? months_json(months->max_c) : Json(nullptr);
  document["mean_min_c"] = months ? months_json(months->min_c) : Json(nullptr);
  document["spread_c"] = months ? Json(tenths(months->spread_c)) : Json(nullptr);
  document["usual_coldest_c"] = maybe(report.usual_coldest_c, tenths);
  document["coldest"] = maybe(report.coldest, [](const ColdNight& night) {
    return Json{{"date", iso(night.day)}, {"celsius", tenths(night.celsius)}};
  });
  return dump(document);
}

}  // namespace trug::show
