// SPDX-License-Identifier: MIT
#include "show/chart_legend.h"

#include <utility>

#include "harvest/vase.h"
#include "show/chart_block.h"
#include "show/chart_layout.h"
#include "show/chart_scale.h"
#include "show/chart_weeks.h"

namespace trug::show {
namespace {

using harvest::WeekState;

constexpr double kRow = 6.5;
constexpr double kGap = 1.5;
constexpr double kBetween = 4;

// One row, mark by mark from the left.
class Row {
 public:
  Row(Svg& svg, double top) : svg_(svg), top_(top) {}

  template <class Draw>
  void entry(const std::string& words, double width, Draw draw) {
    const Box box{x_, top_ + 1, width, 4};
    svg_.open_group("legend", words);
    draw(box);
    svg_.text(box.right() + kGap, top_ + 4.4, words, {.size = kText});
    svg_.close_group();
    x_ = box.right() + kGap + text_width(words, kText) + kBetween;
  }

 private:
  Svg& svg_;
  double top_;
  double x_ = kPageMargin;
};

}  // namespace

void draw_legend(Svg& svg, double top, const std::string& frosts, bool has_weeks) {
  Row ground(svg, top);
  ground.entry("raising", 2, [&](const Box& box) { draw_stalk(svg, box); });
  ground.entry("in leaf", 8, [&](const Box& box) { draw_leaf(svg, box); });
  ground.entry("cut in early years", 8, [&](const Box& box) {
    draw_leaf(svg, box);
    draw_flecks(svg, box, {"lilac"});
  });
  ground.entry("to cut", 8, [&](const Box& box) { draw_flowers(svg, box, {"lilac"}); });
  ground.entry("bare in summer", 8, [&](const Box& box) {
    svg.rect("soil", box, filled(kSoil));
    draw_bare(svg, box);
  });
  Row weeks(svg, top + kRow);
  weeks.entry(frosts, 8, [&](const Box& box) {
    draw_frost_line(svg, box.x, box.y + box.height / 2, box.right());
  });
  if (!has_weeks) return;
  for (const auto& [words, state] :
       {std::pair{"all its vases", WeekState::Full}, std::pair{"half", WeekState::Half},
        std::pair{"short", WeekState::Short}}) {
    weeks.entry(words, 5, [&svg, state = state](const Box& box) { draw_week(svg, state, box); });
  }
}

}  // namespace trug::show
