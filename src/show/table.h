// SPDX-License-Identifier: MIT
// A table as wide as the terminal: columns keep their places, cells wrap inside them.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "show/style.h"

namespace trug::show {

struct Column {
  std::string heading;
  bool breaks = true;  // its cells may be wrapped at blanks
  bool right = false;  // its cells stand at its right edge
};

// A column in which no row has anything is left out. Where the columns do not fit even wrapped,
// each row is written as a paragraph: the leading cells, then the others, each after its heading.
class Table {
 public:
  // `leading`: the columns whose cells stand in the first line of a paragraph, without headings.
  explicit Table(std::vector<Column> columns, std::size_t leading = 2)
      : columns_(std::move(columns)), leading_(leading) {}

  // As many cells as there are columns.
  void add(std::vector<std::string> cells, bool is_faint = false);
  // A line of its own between the rows, after an empty one: a month.
  void add_heading(std::string text);
  // What belongs to the row before it, indented.
  void add_note(std::string text);

  // With the headings of the columns above the first row.
  std::string text(Style style) const;

 private:
  struct Row {
    enum class Kind { Cells, Heading, Note } kind = Kind::Cells;
    std::vector<std::string> cells;  // one for a heading and for a note
    bool is_faint = false;
  };

  // How the columns are laid out.
  struct Layout {
    std::vector<std::size_t> shown;  // columns
    std::vector<int> widths;         // of each of them; empty where they do not fit
    int gap = 0;                     // between two
  };

  std::vector<std::size_t> shown_columns() const;
  int natural_width(std::size_t column) const;
  int least_width(std::size_t column) const;
  Layout layout(int width) const;
  std::string lines(const std::vector<std::string>& cells, const Layout& layout) const;
  std::string paragraph(const std::vector<std::string>& cells, Style style) const;

  std::vector<Column> columns_;
  std::size_t leading_;
  std::vector<Row> rows_;
};

}  // namespace trug::show
