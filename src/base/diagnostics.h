// SPDX-License-Identifier: MIT
// What is wrong with the user's files: collected, never thrown, printed once in file order.
#pragma once

#include <compare>
#include <cstddef>
#include <map>
#include <string>
#include <vector>

namespace trug {

// A place in a file. Line and column count from 1, columns in code points; line 0 = the whole file.
struct Position {
  std::string file;
  int line = 0;
  int column = 0;
  auto operator<=>(const Position&) const = default;
};

enum class Severity { Error, Warning };

struct Diagnostic {
  Position position;
  Severity severity = Severity::Error;
  std::string message;  // lower-case start, no full stop: what was found and what is wanted
  std::string hint;     // what to do about it; may be empty
};

// Collects every problem of every file in one run, with the texts needed to quote the lines.
class Diagnostics {
 public:
  // Keeps the file's text so that a report can quote its lines.
  void add_file(std::string path, std::string text);
  void error(Position position, std::string message, std::string hint = {});
  void warning(Position position, std::string message, std::string hint = {});
  bool has_errors() const { return error_count() > 0; }
  std::size_t error_count() const;
  bool empty() const { return list_.empty(); }
  // Sorted by file (in the order they were added), line and column.
  std::vector<Diagnostic> sorted() const;
  // "file:line:column: error: message", the quoted line, a caret under the column, the hint. After
  // 20 errors only a count.
  std::string render() const;

 private:
  std::string quote(const Position& position) const;

  std::vector<Diagnostic> list_;
  std::vector<std::string> order_;
  std::map<std::string, std::string> texts_;
};

}  // namespace trug
