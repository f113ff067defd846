// SPDX-License-Identifier: MIT
#include "harvest/weeks.h"

namespace trug::harvest {

std::optional<DateRange> wish_days(const Plan& plan, const climate::Climate& climate) {
  if (!plan.wish) return std::nullopt;
  const Date season = climate.season_start(plan.flowering_year);
  const auto in_season = [&](MonthDay day) {
    const Date date = on(day, year_of(season));
    return date < season ? on(day, year_of(season) + 1) : date;
  };
  return DateRange{in_season(plan.wish->from), in_season(plan.wish->to) + Days{1}};
}

std::vector<Week> count_weeks(const Plan& plan, const climate::Climate& climate,
                              const std::vector<Cut>& cuts) {
  const auto wish = wish_days(plan, climate);
  const DateRange days = wish.value_or(DateRange{climate.season_start(plan.flowering_year),
                                                 climate.season_start(plan.flowering_year + 1)});
  const double wanted = plan.wish ? plan.wish->vases_per_week * plan.wish->stems_per_vase : 0;
  std::vector<Week> weeks;
  for (Date monday = monday_of(days.from); monday < days.until; monday += Days{7}) {
    weeks.push_back({.monday = monday, .wished = wish.has_value(), .wanted = wanted});
  }
  for (const Cut& cut : cuts) {
    for (std::size_t day = 0; day < cut.stems.size(); ++day) {
      const Date date = cut.first + Days{static_cast<int>(day)};
      const int week = days_between(weeks.front().monday, monday_of(date)) / 7;
      if (date < weeks.front().monday || week >= static_cast<int>(weeks.size())) continue;
      weeks[static_cast<std::size_t>(week)].stems += cut.stems[day];
    }
  }
  return weeks;
}

}  // namespace trug::harvest
