// SPDX-License-Identifier: MIT
#include "show/chart_layout.h"

namespace trug::show {
namespace {

constexpr double kDaysInMonth = 365.25 / 12;

double room_down() { return kPageHeight - 2 * kPageMargin - kPageHead; }

}  // namespace

Box BedPage::box(double at_cm, double length_cm, DateRange when) const {
  const double x = x_of(at_cm), y = y_of(when.from);
  return {x, y, x_of(at_cm + length_cm) - x, y_of(when.until) - y};
}

BedPage bed_page(std::size_t page, Millimetres length, DateRange days, bool has_weeks,
                 double foot) {
  const double weeks = has_weeks ? kWeekGap + kWeekColumn : 0;
  const double room = BedPage::width() - kDayColumn - weeks;
  const double metres = length.value() / 1000.0;
  BedPage result;
  result.days = days;
  result.per_metre = std::min(kMostPerMetre, room / metres);
  result.per_day = (room_down() - foot) / days_between(days.from, days.until);
  result.ground = {kPageMargin + kDayColumn,
                   static_cast<double>(page) * kPageHeight + kPageMargin + kPageHead,
                   result.per_metre * metres, room_down() - foot};
  return result;
}

double most_foot(DateRange days) {
  return room_down() - kLeastPerMonth * days_between(days.from, days.until) / kDaysInMonth;
}

}  // namespace trug::show
