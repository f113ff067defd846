// SPDX-License-Identifier: MIT
#include "show/chart_scale.h"

#include <fmt/format.h>

#include <chrono>
#include <string_view>

namespace trug::show {
namespace {

constexpr std::string_view kFrost = "#3f6f9c";

Date next_month(Date first) {
  const unsigned month = month_of(first);
  return month == 12 ? make_date(year_of(first) + 1, 1, 1)
                     : make_date(year_of(first), month + 1, 1);
}

}  // namespace

Box ChartScale::ground(const BedPlace& place, Millimetres length) const {
  return {place.x, place.y, layout_.per_metre * length.value() / 1000.0,
          layout_.per_day * days_between(days_.from, days_.until)};
}

double ChartScale::y_of(const Box& ground, Date day) const {
  return ground.y + layout_.per_day * days_between(days_.from, day);
}

void ChartScale::months(const Box& ground) {
  for (Date first = days_.from; first < days_.until; first = next_month(first)) {
    const double middle =
        ground.y + layout_.per_day * (days_between(days_.from, first) +
                                      days_between(first, next_month(first)) / 2.0);
    const double y = middle + kSmall * 0.36;
    svg_.text(ground.x - 2, y, short_month(std::chrono::month{month_of(first)}),
              {.size = kPlain * 0.9, .anchor = Anchor::End});
    if (first == days_.from || month_of(first) == 1) {
      svg_.text(kPageMargin - 2, y, std::to_string(year_of(first)), {.size = kSmall, .bold = true});
    }
  }
}

void ChartScale::month_lines(const Box& ground) {
  std::string thin;
  for (Date first = next_month(days_.from); first < days_.until; first = next_month(first)) {
    const std::string line =
        fmt::format("M{} {}H{}", mm(ground.x - 1.2), mm(y_of(ground, first)), mm(ground.right()));
    if (month_of(first) == 1) {
      svg_.path(line, stroke(kInk, 0.35) + " stroke-opacity=\"0.6\"");
    } else {
      thin += line;
    }
  }
  svg_.path(thin, stroke(kInk, 0.15) + " stroke-opacity=\"0.35\"");
  svg_.rect("edge", ground, stroke(kEdge, 0.3));
}

void ChartScale::metre_rule(const Box& ground, Millimetres length) {
  const int whole = length.value() / 1000;
  const int every = layout_.per_metre >= 6 ? 1 : layout_.per_metre >= 1.5 ? 5 : 10;
  std::string ticks =
      fmt::format("M{} {}H{}", mm(ground.x), mm(ground.y - 1.5), mm(ground.right()));
  for (int half = 0; half * 500 <= length.value(); ++half) {
    if (half % 2 == 1 && layout_.per_metre < 10) continue;
    const double x = ground.x + layout_.per_metre * half / 2.0;
    ticks += fmt::format("M{} {}v-{}", mm(x), mm(ground.y - 1.5), half % 2 == 0 ? "1.8" : "1");
  }
  svg_.path(ticks, stroke(kInk, 0.25));
  for (int metre = 0; metre <= whole; metre += every) {
    const bool last = metre + every > whole;
    svg_.text(ground.x + layout_.per_metre * metre, ground.y - 4.2,
              std::to_string(metre) + (last ? " m" : ""),
              {.size = kSmall, .anchor = Anchor::Middle});
  }
}

void ChartScale::frost(const Box& ground, const BedPlace& place, const std::string& name,
                       Date day) {
  if (!days_.contains(day)) return;
  const double y = y_of(ground, day);
  const double right = place.last_in_row ? ground.right() + 2 : ground.right();
  svg_.open_group("frost", fmt::format("average {} in the garden, {}", name, plain_day(day)));
  svg_.path(fmt::format("M{} {}H{}", mm(ground.x), mm(y), mm(right)),
            stroke(kFrost, 0.35) + " stroke-dasharray=\"1.6 1\"");
  if (place.last_in_row) {
    svg_.text(right + 0.6, y + 0.2, name, {.size = kSmall, .fill = kFrost});
    svg_.text(right + 0.6, y + 3.2, short_day(day), {.size = kSmall, .fill = kFrost});
  }
  svg_.close_group();
}

}  // namespace trug::show
