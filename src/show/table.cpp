// SPDX-License-Identifier: MIT
#include "show/table.h"

#include <algorithm>
#include <numeric>
#include <stdexcept>
#include <string_view>
#include <utility>

#include "base/text.h"

namespace trug::show {
namespace {

constexpr int kIndent = 2;
constexpr int kGap = 2;  // between two columns
constexpr int kNarrowGap = 1;
constexpr int kNoteIndent = 6;

std::string blanks(int count) {
  return std::string(static_cast<std::size_t>(std::max(count, 0)), ' ');
}

int longest_word(std::string_view text) {
  int longest = 0;
  for (const std::string& word : wrapped(text, 1)) longest = std::max(longest, display_width(word));
  return longest;
}

std::string without_end_blanks(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

// Of the columns that are wider than they must be.
std::size_t widest_that_gives(const std::vector<int>& widths, const std::vector<int>& least) {
  std::size_t widest = widths.size();
  for (std::size_t i = 0; i < widths.size(); ++i) {
    const bool gives = widths[i] > least[i];
    if (gives && (widest == widths.size() || widths[i] > widths[widest])) widest = i;
  }
  return widest;
}

// Whole lines in faint letters: each line end stays outside.
std::string faint_lines(std::string lines, Style style) {
  lines.pop_back();
  return faint(lines, style) + "\n";
}

}  // namespace

void Table::add(std::vector<std::string> cells, bool is_faint) {
  if (cells.size() > columns_.size()) throw std::logic_error("more cells than columns");
  cells.resize(columns_.size());
  rows_.push_back({Row::Kind::Cells, std::move(cells), is_faint});
}

void Table::add_heading(std::string text) {
  rows_.push_back({Row::Kind::Heading, {std::move(text)}});
}

void Table::add_note(std::string text) { rows_.push_back({Row::Kind::Note, {std::move(text)}}); }

std::vector<std::size_t> Table::shown_columns() const {
  std::vector<std::size_t> shown;
  for (std::size_t column = 0; column < columns_.size(); ++column) {
    const bool used = std::ranges::any_of(rows_, [column](const Row& row) {
      return row.kind == Row::Kind::Cells && !row.cells[column].empty();
    });
    if (used) shown.push_back(column);
  }
  return shown;
}

int Table::natural_width(std::size_t column) const {
  int width = display_width(columns_[column].heading);
  for (const Row& row : rows_) {
    if (row.kind == Row::Kind::Cells) width = std::max(width, display_width(row.cells[column]));
  }
  return width;
}

int Table::least_width(std::size_t column) const {
  if (!columns_[column].breaks) return natural_width(column);
  int width = longest_word(columns_[column].heading);
  for (const Row& row : rows_) {
    if (row.kind == Row::Kind::Cells) width = std::max(width, longest_word(row.cells[column]));
  }
  return width;
}

// Wide gaps where every cell fits its column; else narrow ones, and the widest columns give first.
Table::Layout Table::layout(int width) const {
  Layout result{shown_columns(), {}, kGap};
  std::vector<int> least;
  for (const std::size_t column : result.shown) {
    result.widths.push_back(natural_width(column));
    least.push_back(least_width(column));
  }
  const auto sum = [](const std::vector<int>& widths) {
    return std::accumulate(widths.begin(), widths.end(), 0);
  };
  const int gaps = static_cast<int>(result.shown.size()) - 1;
  if (sum(result.widths) <= width - kIndent - kGap * gaps) return result;
  result.gap = kNarrowGap;
  const int room = width - kIndent - kNarrowGap * gaps;
  if (sum(least) > room) {
    result.widths.clear();
    return result;
  }
  for (int over = sum(result.widths) - room; over > 0; --over) {
    --result.widths[widest_that_gives(result.widths, least)];
  }
  return result;
}

std::string Table::lines(const std::vector<std::string>& cells, const Layout& layout) const {
  std::vector<std::vector<std::string>> parts;
  std::size_t height = 1;
  for (std::size_t i = 0; i < layout.shown.size(); ++i) {
    const std::string& cell = cells[layout.shown[i]];
    parts.push_back(columns_[layout.shown[i]].breaks ? wrapped(cell, layout.widths[i])
                                                     : std::vector<std::string>{cell});
    height = std::max(height, parts.back().size());
  }
  std::string text;
  for (std::size_t line = 0; line < height; ++line) {
    std::string row = blanks(kIndent);
    for (std::size_t i = 0; i < layout.shown.size(); ++i) {
      const std::string part = line < parts[i].size() ? parts[i][line] : "";
      const std::string space = blanks(layout.widths[i] - display_width(part));
      row += columns_[layout.shown[i]].right ? space + part : part + space;
      row += blanks(layout.gap);
    }
    text += without_end_blanks(std::move(row)) + "\n";
  }
  return text;
}

std::string Table::paragraph(const std::vector<std::string>& cells, Style style) const {
  std::string lead, rest;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (cells[i].empty()) continue;
    if (i < leading_) {
      lead += (lead.empty() ? "" : blanks(kGap)) + cells[i];
    } else {
      rest += (rest.empty() ? "" : "; ") + columns_[i].heading + " " + cells[i];
    }
  }
  const std::string text = indented(lead, kIndent, style);
  return rest.empty() ? text : text + indented(rest, kIndent + kGap, style);
}

std::string Table::text(Style style) const {
  const Layout columns = layout(style.width);
  if (columns.shown.empty()) return "";
  const bool fits = !columns.widths.empty();
  std::string text;
  if (fits) {
    std::vector<std::string> headings;
    for (const Column& column : columns_) headings.push_back(column.heading);
    text = faint_lines(lines(headings, columns), style);
  }
  for (const Row& row : rows_) {
    if (row.kind == Row::Kind::Heading) {
      text += "\n" + bold(row.cells.front(), style) + "\n";
    } else if (row.kind == Row::Kind::Note) {
      text += indented(row.cells.front(), kNoteIndent, style);
    } else {
      const std::string cells = fits ? lines(row.cells, columns) : paragraph(row.cells, style);
      text += row.is_faint ? faint_lines(cells, style) : cells;
    }
  }
  return text;
}

}  // namespace trug::show
