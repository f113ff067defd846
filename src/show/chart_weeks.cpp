// SPDX-License-Identifier: MIT
#include "show/chart_weeks.h"

#include <fmt/format.h>

#include "base/date.h"
#include "show/week_words.h"

namespace trug::show {

using harvest::WeekState;

namespace {
constexpr double kApart = 0.5;
}  // namespace

void draw_week(Svg& svg, WeekState state, const Box& box) {
  Box fill = box;
  if (state == WeekState::Half) fill.width /= 2;
  if (state != WeekState::Short) svg.rect("vases", fill, filled(kInk));
  svg.rect("edge", box, stroke(kInk, 0.25));
  if (state == WeekState::Short) {
    svg.path(fmt::format("M{} {}L{} {}", mm(box.x), mm(box.bottom()), mm(box.right()), mm(box.y)),
             stroke(kInk, 0.4));
  }
}

void draw_weeks(Svg& svg, const BedPage& page, const std::vector<harvest::Week>& weeks) {
  const double x = page.ground.right() + kWeekGap;
  bool headed = false;
  for (const harvest::Week& week : weeks) {
    const double top = page.y_of(week.monday), bottom = page.y_of(week.monday + Days{7});
    if (!week.wished || bottom <= top) continue;
    if (!headed) {
      svg.text(x + kWeekColumn / 2, top - 1.2, "vases", {.size = kText, .anchor = Anchor::Middle});
      headed = true;
    }
    svg.open_group("week", week_words({week.monday}, week.vase));
    draw_week(svg, week.vase.state(), {x, top + kApart / 2, kWeekColumn, bottom - top - kApart});
    svg.close_group();
  }
}

}  // namespace trug::show
