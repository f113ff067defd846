// SPDX-License-Identifier: MIT
// Words on a piece of the picture: upright or turned, whole or not at all.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "show/svg.h"

namespace trug::show {

struct LabelWords {
  std::string name;                // bold, may be empty
  std::vector<std::string> facts;  // none is broken; those that begin with "to " go on with the
                                   // one before, others follow a comma
};

struct LabelLine {
  std::string text;
  double size = 0;
  bool bold = false;
};

struct Label {
  Box box;
  bool downwards = false;
  std::vector<LabelLine> lines;
};

// The words at the top of the area, in as large a type as has room; nullopt: they have none.
std::optional<Label> fit(const LabelWords& words, const Box& area);
// In the first area that has room for them.
std::optional<Label> fit(const LabelWords& words, const std::vector<Box>& areas);
// The words in one line each about the middle of the area, whether they have room or not.
Label forced(const std::string& words, const Box& area);

// What is left of an area beside things that lie on it: above them, to their right, below.
std::vector<Box> free_parts(const Box& area, const std::vector<Box>& taken);

// The words on a plate of paper.
void draw_label(Svg& svg, const Label& label);

}  // namespace trug::show
