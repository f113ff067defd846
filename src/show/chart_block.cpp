// SPDX-License-Identifier: MIT
#include "show/chart_block.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "base/text.h"

namespace trug::show {
namespace {

constexpr std::string_view kLeaf = "#dfe8d0";
constexpr std::string_view kLeafLine = "#93ab78";
constexpr std::string_view kUnknownColour = "#d9c7bd";
constexpr std::string_view kLeafPaint = "fill=\"url(#leaf)\"";

// The colour words of the sheets, in fills that are calm in print.
constexpr std::array<std::pair<std::string_view, std::string_view>, 22> kFills{{
    {"white", "#ffffff"},     {"cream", "#f7ebc6"},      {"yellow", "#f2d974"},
    {"gold", "#dfb044"},      {"orange", "#e2954c"},     {"apricot", "#f1c396"},
    {"salmon", "#eb9f87"},    {"pink", "#efb6c4"},       {"red", "#c8504a"},
    {"crimson", "#a53249"},   {"plum", "#75395a"},       {"purple", "#835298"},
    {"lilac", "#cab4de"},     {"violet", "#7769b4"},     {"blue", "#6f95cb"},
    {"lime", "#d0dd7e"},      {"green", "#83aa69"},      {"bronze", "#a87c4e"},
    {"brown", "#875d40"},     {"near-black", "#42323a"}, {"silver", "#cdd2d2"},
    {"grey-blue", "#9bb0be"},
}};

constexpr double kStripe = 3;  // of one colour, about
constexpr double kFleckAcross = 1.8;
constexpr double kFleckDown = 1.5;
constexpr double kNameSize = 3.3;
constexpr double kDaySize = 2.6;
constexpr std::array kNameSizes{kNameSize, 2.9, kDaySize};
constexpr double kLine = 1.2;      // of a line's height, in type sizes
constexpr double kAscent = 0.9;    // of the base line below a line's top, in type sizes
constexpr double kPad = 0.6;       // about the words on a plate, and about the plate
constexpr int kFewestLetters = 4;  // a name cut shorter than this says nothing

// "8 to 21 May", "27 May to 4 Jul".
std::string span_words(DateRange days) {
  const Date last = days.until - Days{1};
  const bool one_month = month_of(days.from) == month_of(last);
  return fmt::format("{} to {}",
                     one_month ? std::to_string(day_of_month(days.from)) : brief_day(days.from),
                     brief_day(last));
}

// The plates of one block, from its top down.
class Labels {
 public:
  Labels(Svg& svg, const PlacedBlock& placed)
      : svg_(svg), block_(*placed.block), box_(placed.box), placed_(placed) {}

  void draw() {
    free_from_ = box_.y + kPad;
    name();
    flower_days();
  }

 private:
  void name() {
    for (const double size : kNameSizes) {
      if (across(size, true)) return;
    }
    for (const double size : kNameSizes) {
      if (downwards(block_.label, size)) return;
    }
    if (across(kDaySize, false)) return;
    const int room = letters(box_.height - 4 * kPad, kDaySize, true);
    if (room >= kFewestLetters) downwards(shortened(block_.label, room), kDaySize);
  }

  // The name in lines, and below it the day it goes into the ground.
  bool across(double size, bool bold) {
    const double room = box_.width - 2 * kPad;
    const auto lines = wrapped(block_.label, std::max(1, letters(room, size, bold)));
    double widest = 0;
    for (const std::string& line : lines) widest = std::max(widest, text_width(line, size, bold));
    const std::string since = block_.stood_before ? "" : brief_day(block_.in_ground.from);
    const double day = since.empty() || text_width(since, kDaySize) > room ? 0 : kDaySize * kLine;
    if (day > 0) widest = std::max(widest, text_width(since, kDaySize));
    const double height = size * kLine * static_cast<double>(lines.size()) + day + kPad;
    if (widest > room || height > box_.height - 2 * kPad) return false;
    plate(widest + 2 * kPad, height);
    double y = free_from_ + kPad / 2;
    for (const std::string& line : lines) {
      svg_.text(middle(), y + size * kAscent, line,
                {.size = size, .bold = bold, .anchor = Anchor::Middle});
      y += size * kLine;
    }
    if (day > 0) {
      svg_.text(middle(), y + kDaySize * kAscent, since,
                {.size = kDaySize, .anchor = Anchor::Middle});
    }
    free_from_ += height + kPad;
    return true;
  }

  bool downwards(const std::string& words, double size) {
    const double length = text_width(words, size, true) + 2 * kPad;
    if (length > box_.height - 2 * kPad || size * kLine > box_.width) return false;
    plate(size * kLine, length);
    svg_.text(middle() - size * 0.36, free_from_ + kPad, words,
              {.size = size, .bold = true, .downwards = true});
    free_from_ += length + kPad;
    return true;
  }

  // The first day to cut where the flowers begin and the last where they end; in a short flowering
  // both together, on it or, where they would hide it, above it.
  void flower_days() {
    const double top = std::max(free_from_, placed_.y_of(block_.in_flower.from) + kPad);
    const double bottom = placed_.y_of(block_.in_flower.until) - kPad;
    const double above = placed_.y_of(block_.perhaps_from) - kPad;
    const std::string first = brief_day(block_.in_flower.from);
    const std::string last = "to " + brief_day(block_.in_flower.until - Days{1});
    const std::string both = span_words(block_.in_flower);
    if (!has_room(first)) return;
    if (bottom - top >= 2 * day_height() + kPad && has_room(last)) {
      days({first}, top);
      days({last}, bottom - day_height());
    } else if (bottom - top >= 1.5 * day_height() && has_room(both)) {
      days({both}, (top + bottom - day_height()) / 2);
    } else if (above - free_from_ >= day_height() && has_room(both)) {
      days({both}, above - day_height());
    } else if (above - free_from_ >= 2 * day_height() && has_room(last)) {
      days({first, last}, above - 2 * day_height() + kPad / 2);
    } else if (bottom - top >= day_height() - kPad) {
      days({first}, (top + bottom - day_height()) / 2);
    }
  }

  void days(const std::vector<std::string>& lines, double y) {
    double widest = 0;
    for (const std::string& line : lines) widest = std::max(widest, text_width(line, kDaySize));
    free_from_ = y;
    plate(widest + 2 * kPad, kDaySize * kLine * static_cast<double>(lines.size()) + kPad / 2);
    for (const std::string& line : lines) {
      svg_.text(middle(), y + kDaySize * kAscent + kPad / 2, line,
                {.size = kDaySize, .anchor = Anchor::Middle});
      y += kDaySize * kLine;
    }
  }

  static double day_height() { return kDaySize * kLine + kPad / 2; }
  bool has_room(const std::string& words) const {
    return text_width(words, kDaySize) <= box_.width - 2 * kPad;
  }
  double middle() const { return box_.x + box_.width / 2; }

  // In the middle of the block, its top at `free_from_`.
  void plate(double width, double height) {
    const double fitted = std::min(width, box_.width - kPad / 2);
    svg_.rect("plate", {middle() - fitted / 2, free_from_, fitted, height},
              filled(kPaper) + " fill-opacity=\"0.92\" rx=\"0.7\"");
  }

  Svg& svg_;
  const ChartBlock& block_;
  const Box& box_;
  const PlacedBlock& placed_;
  double free_from_ = 0;
};

// What stood before or stays has no edge where the picture cuts it off.
std::string edge(const ChartBlock& block, const Box& box) {
  std::string d = fmt::format("M{0} {1}V{2}M{3} {1}V{2}", mm(box.x), mm(box.y), mm(box.bottom()),
                              mm(box.right()));
  if (!block.stood_before) d += fmt::format("M{} {}h{}", mm(box.x), mm(box.y), mm(box.width));
  if (!block.stays) d += fmt::format("M{} {}h{}", mm(box.x), mm(box.bottom()), mm(box.width));
  return d;
}

}  // namespace

double PlacedBlock::y_of(Date day) const {
  const Date kept = std::clamp(day, block->in_ground.from, block->in_ground.until);
  return box.y + per_day * days_between(block->in_ground.from, kept);
}

std::string leaf_pattern() {
  return fmt::format(
      "<pattern id=\"leaf\" width=\"1.6\" height=\"1.6\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"rotate(45)\"><rect width=\"1.6\" height=\"1.6\" {}/>"
      "<path d=\"M0.8 0V1.6\" {}/></pattern>",
      filled(kLeaf), stroke(kLeafLine, 0.3));
}

std::string_view fill_of(std::string_view colour) {
  for (const auto& [word, fill] : kFills) {
    if (word == colour) return fill;
  }
  return kUnknownColour;
}

void draw_leaf(Svg& svg, const Box& box) { svg.rect("leaf", box, kLeafPaint); }

// Every fleck of one kind, where the kinds take turns along each row.
std::string flecks(const Box& box, std::size_t kind, std::size_t kinds) {
  std::string d;
  std::size_t row = 0;
  for (double y = box.y + kFleckDown / 2; y + kFleckDown / 3 <= box.bottom(); y += kFleckDown) {
    std::size_t fleck = row++;
    const double indent = kFleckAcross * (fleck % 2 == 0 ? 0.5 : 1);
    for (double x = box.x + indent; x + 0.6 <= box.right(); x += kFleckAcross, ++fleck) {
      if (fleck % kinds == kind) d += fmt::format("M{} {}h0", mm(x), mm(y));
    }
  }
  return d;
}

void draw_flecks(Svg& svg, const Box& box, const std::vector<std::string>& colours) {
  const std::size_t kinds = std::max<std::size_t>(1, colours.size());
  for (std::size_t kind = 0; kind < kinds; ++kind) {
    const std::string d = flecks(box, kind, kinds);
    if (d.empty()) continue;
    svg.path(d, stroke(kEdge, 1.15) + " stroke-linecap=\"round\"");
    const std::string_view fill = colours.empty() ? kUnknownColour : fill_of(colours[kind]);
    svg.path(d, stroke(fill, 0.9) + " stroke-linecap=\"round\"");
  }
}

void draw_flowers(Svg& svg, const Box& box, const std::vector<std::string>& colours) {
  if (box.height <= 0) return;
  svg.rect("flower", box, filled(colours.empty() ? kUnknownColour : fill_of(colours.front())));
  const double kinds = static_cast<double>(colours.size());
  const double stripes = kinds * std::max(1.0, std::round(box.width / (kStripe * kinds)));
  const double width = box.width / stripes;
  for (std::size_t kind = 1; kind < colours.size(); ++kind) {
    std::string d;
    for (double stripe = static_cast<double>(kind); stripe < stripes; stripe += kinds) {
      d += fmt::format("M{0} {1}h{2}v{3}h-{2}z", mm(box.x + width * stripe), mm(box.y), mm(width),
                       mm(box.height));
    }
    svg.path(d, filled(fill_of(colours[kind])));
  }
  svg.rect("edge", box, stroke(kEdge, 0.25));
}

void draw_block(Svg& svg, const PlacedBlock& placed) {
  const ChartBlock& block = *placed.block;
  const auto part = [&](Date from, Date until) {
    const double top = placed.y_of(from);
    return Box{placed.box.x, top, placed.box.width, placed.y_of(until) - top};
  };
  svg.open_group("planting", block.words);
  draw_leaf(svg, placed.box);
  draw_flecks(svg, part(block.perhaps_from, block.in_flower.from), block.colours);
  draw_flowers(svg, part(block.in_flower.from, block.in_flower.until), block.colours);
  svg.path(edge(block, placed.box), stroke(kEdge, 0.4) + " stroke-linecap=\"square\"");
  svg.close_group();
}

void draw_labels(Svg& svg, const PlacedBlock& placed) {
  svg.open_group("label", placed.block->words);
  Labels(svg, placed).draw();
  svg.close_group();
}

}  // namespace trug::show
