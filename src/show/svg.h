// SPDX-License-Identifier: MIT
// The few SVG elements a picture of ours is made of. Lengths are millimetres on the page.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace trug::show {

inline constexpr std::string_view kPaper = "#fffdf8";
inline constexpr std::string_view kInk = "#33302b";
inline constexpr std::string_view kEdge = "#5d564b";  // around ground and plants

struct Box {
  double x = 0, y = 0, width = 0, height = 0;
  double right() const { return x + width; }
  double bottom() const { return y + height; }
};

enum class Anchor { Start, Middle, End };

struct TextStyle {
  double size = 0;
  bool bold = false;
  Anchor anchor = Anchor::Start;
  std::string_view fill = kInk;
  bool downwards = false;  // turned a quarter: reads from the top to the bottom
};

// A length as a number: at most two digits after the point.
std::string mm(double length);
// The room a text takes in the wider of two usual sans-serifs; it may be less.
double text_width(std::string_view text, double size, bool bold = false);
// The text in lines that have that room; a longer word keeps its line.
std::vector<std::string> lines_in(double room, std::string_view text, double size,
                                  bool bold = false);
// How many letters of that size have room.
int letters(double room, double size, bool bold = false);
// Cut to at most `columns` letters, with an ellipsis where something went.
std::string shortened(const std::string& text, int columns);
// Attributes.
std::string filled(std::string_view colour);
std::string stroke(std::string_view colour, double width);

// Writes elements, one a line.
class Svg {
 public:
  void raw(std::string_view text) { bytes_ += text; }
  // `name` of a group says what it is to tests and to whoever styles the picture.
  void open_group(std::string_view name, std::string_view title);
  void close_group() { bytes_ += "</g>\n"; }
  void rect(std::string_view name, const Box& box, std::string_view paint);
  void path(std::string_view d, std::string_view paint);
  void text(double x, double y, std::string_view words, const TextStyle& style);
  const std::string& bytes() const { return bytes_; }

 private:
  std::string bytes_;
};

}  // namespace trug::show
