// SPDX-License-Identifier: MIT
#include "show/table.h"

#include <algorithm>
#include <numeric>
#include <string_view>
#include <utility>

#include "base/text.h"

namespace trug::show {
namespace {

constexpr int kIndent = 2;
constexpr int kGap = 2;  // between two columns
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

// Whole lines in faint letters: each line end stays outside.
std::string faint_lines(std::string lines, Style style) {
  lines.pop_back();
  return faint(lines, style) + "\n";
}

}  // namespace

void Table::add(std::vector<std::string> cells, bool is_faint) {
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

// Of each shown column; empty where they do not fit.
std::vector<int> Table::widths(const std::vector<std::size_t>& shown, int width) const {
  std::vector<int> result, least;
  for (const std::size_t column : shown) {
    result.push_back(natural_width(column));
    least.push_back(least_width(column));
  }
  const int room = width - kIndent - kGap * (static_cast<int>(shown.size()) - 1);
  if (std::accumulate(least.begin(), least.end(), 0) > room) return {};
  for (int over = std::accumulate(result.begin(), result.end(), 0) - room; over > 0; --over) {
    std::size_t widest = shown.size();  // of those that can still give
    for (std::size_t i = 0; i < shown.size(); ++i) {
      const bool gives = result[i] > least[i];
      if (gives && (widest == shown.size() || result[i] > result[widest])) widest = i;
    }
    --result[widest];
  }
  return result;
}

std::string Table::lines(const std::vector<std::string>& cells,
                         const std::vector<std::size_t>& shown,
                         const std::vector<int>& widths) const {
  std::vector<std::vector<std::string>> parts;
  std::size_t height = 1;
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const Column& column = columns_[shown[i]];
    parts.push_back(column.breaks ? wrapped(cells[shown[i]], widths[i])
                                  : std::vector<std::string>{cells[shown[i]]});
    height = std::max(height, parts.back().size());
  }
  std::string text;
  for (std::size_t line = 0; line < height; ++line) {
    std::string row = blanks(kIndent);
    for (std::size_t i = 0; i < shown.size(); ++i) {
      const std::string part = line < parts[i].size() ? parts[i][line] : "";
      const std::string space = blanks(widths[i] - display_width(part));
      row += columns_[shown[i]].right ? space + part : part + space;
      row += blanks(kGap);
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
  const std::vector<std::size_t> shown = shown_columns();
  if (shown.empty()) return "";
  const std::vector<int> column_widths = widths(shown, style.width);
  std::string text;
  if (!column_widths.empty()) {
    std::vector<std::string> headings;
    for (const Column& column : columns_) headings.push_back(column.heading);
    text = faint_lines(lines(headings, shown, column_widths), style);
  }
  for (const Row& row : rows_) {
    if (row.kind == Row::Kind::Heading) {
      text += "\n" + bold(row.cells.front(), style) + "\n";
    } else if (row.kind == Row::Kind::Note) {
      text += indented(row.cells.front(), kNoteIndent, style);
    } else {
      const std::string cells = column_widths.empty() ? paragraph(row.cells, style)
                                                      : lines(row.cells, shown, column_widths);
      text += row.is_faint ? faint_lines(cells, style) : cells;
    }
  }
  return text;
}

}  // namespace trug::show
