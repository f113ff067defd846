// SPDX-License-Identifier: MIT
#include "base/diagnostics.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "base/text.h"

namespace trug {
namespace {

constexpr int kMostErrors = 20;

// Blanks up to a column counted in code points; tabs are kept so that the caret lines up.
std::string caret_indent(std::string_view line, int column) {
  std::string indent;
  int seen = 1;
  for (const char c : line) {
    const bool continues = (static_cast<unsigned char>(c) & 0xc0) == 0x80;
    if (continues) continue;
    if (seen++ >= column) break;
    indent += c == '\t' ? '\t' : ' ';
  }
  return indent;
}

}  // namespace

void Diagnostics::add_file(std::string path, std::string text) {
  if (!texts_.contains(path)) order_.push_back(path);
  texts_[std::move(path)] = std::move(text);
}

void Diagnostics::error(Position position, std::string message, std::string hint) {
  list_.push_back({std::move(position), Severity::Error, std::move(message), std::move(hint)});
}

void Diagnostics::warning(Position position, std::string message, std::string hint) {
  list_.push_back({std::move(position), Severity::Warning, std::move(message), std::move(hint)});
}

std::size_t Diagnostics::error_count() const {
  return static_cast<std::size_t>(
      std::ranges::count(list_, Severity::Error, &Diagnostic::severity));
}

std::vector<Diagnostic> Diagnostics::sorted() const {
  std::vector<Diagnostic> result = list_;
  const auto place = [&](const Diagnostic& d) {
    return std::ranges::find(order_, d.position.file) - order_.begin();
  };
  std::ranges::stable_sort(result, [&](const Diagnostic& a, const Diagnostic& b) {
    return std::pair(place(a), a.position) < std::pair(place(b), b.position);
  });
  return result;
}

std::string Diagnostics::quote(const Position& position) const {
  const auto text = texts_.find(position.file);
  if (text == texts_.end() || position.line < 1) return {};
  std::size_t from = 0;
  for (int line = 1; line < position.line; ++line) {
    from = text->second.find('\n', from);
    if (from == std::string::npos) return {};
    ++from;
  }
  std::string line = text->second.substr(from, text->second.find('\n', from) - from);
  if (line.ends_with('\r')) line.pop_back();
  if (!is_valid_utf8(line)) return {};
  constexpr std::size_t kLongest = 160;
  if (line.size() > kLongest) return {};
  return fmt::format("  | {}\n  | {}^\n", line, caret_indent(line, position.column));
}

std::string Diagnostics::render() const {
  std::string text;
  int errors = 0;
  for (const Diagnostic& d : sorted()) {
    if (d.severity == Severity::Error && ++errors > kMostErrors) continue;
    text += d.position.file;
    if (d.position.line > 0) text += fmt::format(":{}:{}", d.position.line, d.position.column);
    text +=
        fmt::format(": {}: {}\n", d.severity == Severity::Error ? "error" : "warning", d.message);
    text += quote(d.position);
    if (!d.hint.empty()) text += fmt::format("  hint: {}\n", d.hint);
  }
  if (errors > kMostErrors) {
    text += fmt::format("and {}\n", counted(errors - kMostErrors, "more error"));
  }
  return text;
}

}  // namespace trug
