// SPDX-License-Identifier: MIT
#include "show/chart_block.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>

namespace trug::show {
namespace {

constexpr std::string_view kLeaf = "#dfe8d0";
constexpr std::string_view kLeafLine = "#93ab78";
constexpr std::string_view kUnknownColour = "#d9c7bd";
constexpr std::string_view kLeafPaint = "fill=\"url(#leaf)\"";

// The colour words of the sheets, in fills that are calm in print.
constexpr std::array<std::pair<std::string_view, std::string_view>, 22> kFills{{
    {"white", "#eef1f4"},     {"cream", "#f7ebc6"},      {"yellow", "#f2d974"},
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

// What stood before or stays has no edge where the picture cuts it off.
std::string edge(const ChartBlock& block, const Box& box) {
  std::string d = fmt::format("M{0} {1}V{2}M{3} {1}V{2}", mm(box.x), mm(box.y), mm(box.bottom()),
                              mm(box.right()));
  if (!block.stood_before) d += fmt::format("M{} {}h{}", mm(box.x), mm(box.y), mm(box.width));
  if (!block.stays) d += fmt::format("M{} {}h{}", mm(box.x), mm(box.bottom()), mm(box.width));
  return d;
}

}  // namespace

std::string chart_patterns() {
  const std::string leaf = fmt::format(
      "<pattern id=\"leaf\" width=\"1.6\" height=\"1.6\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"rotate(45)\"><rect width=\"1.6\" height=\"1.6\" {}/>"
      "<path d=\"M0.8 0V1.6\" {}/></pattern>",
      filled(kLeaf), stroke(kLeafLine, 0.3));
  const std::string flowers = fmt::format(
      "<pattern id=\"flowers\" width=\"4\" height=\"4\" patternUnits=\"userSpaceOnUse\">"
      "<g {} stroke=\"{}\" stroke-width=\"0.2\"><circle cx=\"1\" cy=\"1\" r=\"0.5\"/>"
      "<circle cx=\"3\" cy=\"3\" r=\"0.5\"/></g></pattern>",
      filled(kPaper), kEdge);
  const std::string bare = fmt::format(
      "<pattern id=\"bare\" width=\"3\" height=\"3\" patternUnits=\"userSpaceOnUse\">"
      "<path d=\"M0.5 0.6h0M2 2.1h0\" {} stroke-linecap=\"round\"/></pattern>",
      stroke(kEdge, 0.4));
  return leaf + flowers + bare;
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
  svg.rect("dots", box, "fill=\"url(#flowers)\"");
  svg.rect("edge", box, stroke(kEdge, 0.25));
}

void draw_bare(Svg& svg, const Box& box) {
  svg.rect("bare", box, "fill=\"url(#bare)\"");
  svg.rect("edge", box, stroke(kEdge, 0.3) + " stroke-dasharray=\"0.3 1.2\"");
}

void draw_stalk(Svg& svg, const Box& box) {
  const double x = box.x + box.width / 2, top = std::min(box.y + 1.1, box.bottom());
  const std::string line = fmt::format("M{} {}V{}", mm(x), mm(top), mm(box.bottom()));
  const std::string seed = fmt::format("M{} {}h0", mm(x), mm(top));
  for (const auto& [colour, more] : {std::pair{kPaper, 0.9}, std::pair{kEdge, 0.0}}) {
    svg.path(line, stroke(colour, 0.9 + more));
    svg.path(seed, stroke(colour, 2.2 + more) + " stroke-linecap=\"round\"");
  }
}

Box whole_box(const BedPage& page, const ChartBlock& block) {
  return page.box(block.at_cm, block.length_cm, block.in_ground);
}

Box leaf_box(const BedPage& page, const ChartBlock& block) {
  return page.box(block.at_cm, block.length_cm, {block.in_ground.from, block.perhaps_from});
}

Box flower_box(const BedPage& page, const ChartBlock& block) {
  const Date until = std::min(block.in_flower.until, block.in_ground.until);
  return page.box(block.at_cm, block.length_cm, {block.in_flower.from, until});
}

Box stalk_box(const BedPage& page, const ChartBlock& block) {
  if (!block.raising) return {};
  const Box column = page.box(block.at_cm, block.length_cm, block.raising->days);
  return {column.x + std::min(0.8, column.width / 4), column.y, std::min(2.6, column.width / 2),
          column.height};
}

void draw_block(Svg& svg, const BedPage& page, const ChartBlock& block) {
  const Box whole = whole_box(page, block);
  svg.open_group("planting", block.words);
  draw_leaf(svg, whole);
  draw_flecks(svg,
              page.box(block.at_cm, block.length_cm, {block.perhaps_from, block.in_flower.from}),
              block.colours);
  draw_flowers(svg, flower_box(page, block), block.colours);
  svg.path(edge(block, whole), stroke(kEdge, 0.4) + " stroke-linecap=\"square\"");
  svg.close_group();
}

}  // namespace trug::show
