// SPDX-License-Identifier: MIT
#include "show/chart_label.h"

#include <algorithm>
#include <array>
#include <utility>

#include "show/chart_layout.h"

namespace trug::show {
namespace {

constexpr double kPad = 0.7;  // about the words on their plate, and about the plate
constexpr std::array kNameSizes{kName, 4.8, kText};

double width_of(const LabelLine& line) { return text_width(line.text, line.size, line.bold); }

double depth_of(const std::vector<LabelLine>& lines) {
  double depth = 0;
  for (const LabelLine& line : lines) depth += line.size * kLine;
  return depth;
}

// As few lines as their length allows.
std::vector<LabelLine> lines_of(const LabelWords& words, double size, double length) {
  std::vector<LabelLine> lines;
  if (!words.name.empty()) {
    for (std::string& line : lines_in(length, words.name, size, true)) {
      lines.push_back({std::move(line), size, true});
    }
  }
  std::string facts;
  for (const std::string& fact : words.facts) {
    const std::string longer =
        facts.empty() ? fact : facts + (fact.starts_with("to ") ? " " : ", ") + fact;
    if (!facts.empty() && text_width(longer, kText) > length) {
      lines.push_back({facts, kText});
      facts = fact;
    } else {
      facts = longer;
    }
  }
  if (!facts.empty()) lines.push_back({facts, kText});
  return lines;
}

std::optional<Label> fit(const LabelWords& words, const Box& area, double size, bool downwards) {
  const double along = (downwards ? area.height : area.width) - 4 * kPad;
  const double across = (downwards ? area.width : area.height) - 2 * kPad;
  Label label{.downwards = downwards, .lines = lines_of(words, size, along)};
  double length = 0;
  for (const LabelLine& line : label.lines) length = std::max(length, width_of(line));
  const double depth = depth_of(label.lines) + kPad;
  if (length > along || depth > across) return std::nullopt;
  length += 2 * kPad;
  const double width = downwards ? depth : length;
  label.box = {area.x + (area.width - width) / 2, area.y + kPad, width, downwards ? length : depth};
  return label;
}

bool meet(const Box& one, const Box& other) {
  return one.x < other.right() && other.x < one.right() && one.y < other.bottom() &&
         other.y < one.bottom();
}

}  // namespace

std::optional<Label> fit(const LabelWords& words, const Box& area) {
  for (const double size : kNameSizes) {
    for (const bool downwards : {false, true}) {
      if (auto label = fit(words, area, size, downwards)) return label;
    }
  }
  return std::nullopt;
}

std::optional<Label> fit(const LabelWords& words, const std::vector<Box>& areas) {
  for (const Box& area : areas) {
    if (auto label = fit(words, area)) return label;
  }
  return std::nullopt;
}

Label forced(const std::string& words, const Box& area) {
  Label label{.lines = {{words, kText, true}}};
  const double width = width_of(label.lines.front()) + 2 * kPad;
  const double height = depth_of(label.lines) + kPad;
  label.box = {area.x + (area.width - width) / 2, area.y + (area.height - height) / 2, width,
               height};
  return label;
}

std::vector<Box> free_parts(const Box& area, const std::vector<Box>& taken) {
  double left = area.right(), right = area.x, top = area.bottom(), bottom = area.y;
  for (const Box& box : taken) {
    if (!meet(area, box)) continue;
    left = std::min(left, box.x);
    right = std::max(right, box.right());
    top = std::min(top, box.y);
    bottom = std::max(bottom, box.bottom());
  }
  if (left > right || top > bottom) return {area};
  return {{area.x, area.y, area.width, top - area.y},
          {right, area.y, area.right() - right, area.height},
          {area.x, bottom, area.width, area.bottom() - bottom}};
}

void draw_label(Svg& svg, const Label& label) {
  svg.rect("plate", label.box, filled(kPaper) + " fill-opacity=\"0.92\" rx=\"0.7\"");
  double depth = kPad / 2;
  for (const LabelLine& line : label.lines) {
    const double base = depth + line.size * kAscent;
    if (label.downwards) {
      svg.text(label.box.right() - base, label.box.y + kPad, line.text,
               {.size = line.size, .bold = line.bold, .downwards = true});
    } else {
      svg.text(label.box.x + label.box.width / 2, label.box.y + base, line.text,
               {.size = line.size, .bold = line.bold, .anchor = Anchor::Middle});
    }
    depth += line.size * kLine;
  }
}

}  // namespace trug::show
