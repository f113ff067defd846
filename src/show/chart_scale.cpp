// SPDX-License-Identifier: MIT
#include "show/chart_scale.h"

#include <fmt/format.h>

#include <string>

#include "base/text.h"

namespace trug::show {
namespace {

constexpr std::string_view kFrost = "#2f5f8c";
constexpr double kCapital = 0.36;  // half of a capital's height, in type sizes

Date next_month(Date first) {
  const unsigned month = month_of(first);
  return month == 12 ? make_date(year_of(first) + 1, 1, 1)
                     : make_date(year_of(first), month + 1, 1);
}

}  // namespace

void draw_days(Svg& svg, const BedPage& page) {
  for (Date first = page.days.from; first < page.days.until; first = next_month(first)) {
    const double y = page.y_of(first) + kText * kCapital;
    const bool new_year = month_of(first) == 1;
    const std::string year = std::to_string(year_of(first));
    const TextStyle style{.size = kText, .bold = new_year, .anchor = Anchor::End};
    svg.text(page.ground.x - 2, y, new_year ? year : brief_day(first), style);
    if (first == page.days.from && !new_year) {
      svg.text(page.ground.x - 2, y - kText * kLine, year,
               {.size = kText, .bold = true, .anchor = Anchor::End});
    }
  }
}

void draw_month_lines(Svg& svg, const BedPage& page) {
  std::string thin;
  for (Date first = page.days.from; first < page.days.until; first = next_month(first)) {
    const std::string line = fmt::format("M{} {}H{}", mm(page.ground.x - 1.2), mm(page.y_of(first)),
                                         mm(page.ground.right()));
    if (month_of(first) == 1) {
      svg.path(line, stroke(kInk, 0.35) + " stroke-opacity=\"0.6\"");
    } else {
      thin += line;
    }
  }
  svg.path(thin, stroke(kInk, 0.15) + " stroke-opacity=\"0.35\"");
  svg.rect("edge", page.ground, stroke(kEdge, 0.3));
}

void draw_metres(Svg& svg, const BedPage& page, Millimetres length) {
  const Box& ground = page.ground;
  const int whole = length.value() / 1000;
  const int every = page.per_metre >= 8 ? 1 : page.per_metre >= 2 ? 5 : 10;
  std::string ticks =
      fmt::format("M{} {}H{}", mm(ground.x), mm(ground.y - 1.5), mm(ground.right()));
  for (int metre = 0; metre <= whole; ++metre) {
    ticks += fmt::format("M{} {}v-1.8", mm(page.x_of(metre * 100.0)), mm(ground.y - 1.5));
  }
  svg.path(ticks, stroke(kInk, 0.3));
  if (whole == 0) {
    svg.text(ground.right(), ground.y - 4.4, number(length.value() / 1000.0, 2) + " m",
             {.size = kText, .anchor = Anchor::End});
  }
  for (int metre = 0; metre <= whole; metre += every) {
    const bool last = whole > 0 && metre + every > whole;
    svg.text(page.x_of(metre * 100.0), ground.y - 4.4, std::to_string(metre) + (last ? " m" : ""),
             {.size = kText, .anchor = Anchor::Middle});
  }
}

void draw_frost_line(Svg& svg, double x, double y, double right) {
  svg.path(fmt::format("M{} {}H{}", mm(x), mm(y), mm(right)),
           stroke(kFrost, 0.6) + " stroke-dasharray=\"2.4 1.2\"");
}

void draw_frost(Svg& svg, const BedPage& page, std::string_view name, Date day) {
  if (!page.days.contains(day)) return;
  svg.open_group("frost", fmt::format("average {} in the garden, {}", name, plain_day(day)));
  draw_frost_line(svg, page.ground.x, page.y_of(day), page.ground.right());
  svg.close_group();
}

}  // namespace trug::show
