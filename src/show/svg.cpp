// SPDX-License-Identifier: MIT
#include "show/svg.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/text.h"
#include "show/markup.h"

namespace trug::show {
namespace {

// Mean widths of DejaVu Sans and Verdana, in type sizes (measured on crop names).
constexpr double kLetterWidth = 0.61;
constexpr double kBoldLetterWidth = 0.69;

double letter_width(double size, bool bold) {
  return size * (bold ? kBoldLetterWidth : kLetterWidth);
}

// Of a plain letter, the wider of the two; others count as wide ones.
double letter_width(char letter) {
  if (letter == ' ' || std::string_view("ijl.,:;'!|").find(letter) != std::string_view::npos) {
    return 0.36;
  }
  if (std::string_view("frt()-").find(letter) != std::string_view::npos) return 0.45;
  if (std::string_view("mwMW").find(letter) != std::string_view::npos) return 0.98;
  return letter >= 'A' && letter <= 'Z' ? 0.78 : 0.64;
}

std::string_view anchor_words(Anchor anchor) {
  switch (anchor) {
    case Anchor::Start:
      return "";
    case Anchor::Middle:
      return " text-anchor=\"middle\"";
    case Anchor::End:
      return " text-anchor=\"end\"";
  }
  return "";
}

}  // namespace

std::string mm(double length) { return number(length, 2); }

double text_width(std::string_view text, double size, bool bold) {
  double width = 0;
  std::string others;  // what is not ASCII, by its columns
  for (const char letter : text) {
    const bool plain = static_cast<unsigned char>(letter) < 0x80U;
    if (plain) {
      width += letter_width(letter);
    } else {
      others += letter;
    }
  }
  width += 0.78 * display_width(others);
  return width * size * (bold ? kBoldLetterWidth / kLetterWidth : 1);
}

std::vector<std::string> lines_in(double room, std::string_view text, double size, bool bold) {
  std::vector<std::string> lines;
  for (std::string& word : wrapped(text, 1)) {  // each word by itself
    const std::string longer = lines.empty() ? word : lines.back() + " " + word;
    if (lines.empty() || text_width(longer, size, bold) > room) {
      lines.push_back(std::move(word));
    } else {
      lines.back() = longer;
    }
  }
  return lines;
}

int letters(double room, double size, bool bold) {
  return std::max(0, static_cast<int>(room / letter_width(size, bold)));
}

std::string shortened(const std::string& text, int columns) {
  if (display_width(text) <= columns) return text;
  std::string result;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t next = at + 1;
    while (next < text.size() && (static_cast<unsigned char>(text[next]) & 0xC0U) == 0x80U) ++next;
    const std::string longer = result + text.substr(at, next - at);
    if (display_width(longer) + 1 > columns) break;
    result = longer;
    at = next;
  }
  return result + "…";
}

std::string filled(std::string_view colour) { return fmt::format("fill=\"{}\"", colour); }

std::string stroke(std::string_view colour, double width) {
  return fmt::format("fill=\"none\" stroke=\"{}\" stroke-width=\"{}\"", colour, mm(width));
}

void Svg::open_group(std::string_view name, std::string_view title) {
  bytes_ += fmt::format("<g class=\"{}\">\n<title>{}</title>\n", name, escaped(title));
}

void Svg::rect(std::string_view name, const Box& box, std::string_view paint) {
  bytes_ += fmt::format("<rect class=\"{}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" {}/>\n",
                        name, mm(box.x), mm(box.y), mm(box.width), mm(box.height), paint);
}

void Svg::path(std::string_view d, std::string_view paint) {
  bytes_ += fmt::format("<path d=\"{}\" {}/>\n", d, paint);
}

void Svg::text(double x, double y, std::string_view words, const TextStyle& style) {
  bytes_ += fmt::format(
      "<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}{}{}{}>{}</text>\n", mm(x), mm(y), mm(style.size),
      anchor_words(style.anchor), style.bold ? " font-weight=\"bold\"" : "",
      style.fill == kInk ? "" : " " + filled(style.fill),
      style.downwards ? fmt::format(" transform=\"rotate(90 {} {})\"", mm(x), mm(y)) : "",
      escaped(words));
}

}  // namespace trug::show
