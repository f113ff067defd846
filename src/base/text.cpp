// SPDX-License-Identifier: MIT
#include "base/text.h"

#include <fmt/format.h>
#include <utf8proc.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <memory>
#include <new>

namespace trug {
namespace {

const utf8proc_uint8_t* octets(std::string_view text) {
  return reinterpret_cast<const utf8proc_uint8_t*>(text.data());
}

// Calls `visit(code point)` for each; false at the first octet that is not UTF-8.
template <class Visit>
bool each_code_point(std::string_view text, Visit visit) {
  std::size_t at = 0;
  while (at < text.size()) {
    utf8proc_int32_t point = static_cast<unsigned char>(text[at]);
    utf8proc_ssize_t used = 1;
    if (point >= 0x80) {
      used = utf8proc_iterate(octets(text) + at, static_cast<utf8proc_ssize_t>(text.size() - at),
                              &point);
    }
    if (used <= 0) return false;
    visit(point);
    at += static_cast<std::size_t>(used);
  }
  return true;
}

// Most text is: nothing is to be composed in it, and only capitals to be folded.
bool is_ascii(std::string_view text) {
  unsigned char all = 0;
  for (const char c : text) all |= static_cast<unsigned char>(c);  // many at a time
  return all < 0x80;
}

// A character that cannot be seen and does something.
bool is_hidden(utf8proc_int32_t point) {
  return point < 0x20 || (point >= 0x7f && point < 0xa0) || point == 0xad || point == 0x200b ||
         point == 0x2028 || point == 0x2029 || (point >= 0x202a && point <= 0x202e) ||
         point == 0x2060 || (point >= 0x2066 && point <= 0x2069) || point == 0xfeff;
}

// The length of the sequence that sets colour or weight (ECMA-48, 8.3.117) at the front; 0 where
// there is none, or one that hides the text (8).
std::size_t colour_sequence(std::string_view text) {
  if (!text.starts_with("\x1b[")) return 0;
  const std::size_t end = text.find_first_not_of("0123456789;", 2);
  if (end == std::string_view::npos || text[end] != 'm') return 0;
  const std::string numbers = fmt::format(";{};", text.substr(2, end - 2));
  return numbers.find(";8;") == std::string::npos ? end + 1 : 0;
}

std::string mapped(std::string_view text, int options) {
  utf8proc_uint8_t* raw = nullptr;
  const auto length = utf8proc_map(octets(text), static_cast<utf8proc_ssize_t>(text.size()), &raw,
                                   static_cast<utf8proc_option_t>(options));
  const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> owner(raw, &std::free);
  if (length == UTF8PROC_ERROR_NOMEM) throw std::bad_alloc();
  if (length < 0) return std::string(text);
  return std::string(reinterpret_cast<const char*>(raw), static_cast<std::size_t>(length));
}

char lower_ascii(char c) { return 'A' <= c && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

}  // namespace

bool is_valid_utf8(std::string_view text) {
  return is_ascii(text) || each_code_point(text, [](utf8proc_int32_t) {});
}

bool has_control_character(std::string_view text) {
  bool found = false;
  each_code_point(text, [&](utf8proc_int32_t point) { found = found || is_hidden(point); });
  return found;
}

std::string printable(std::string_view text, bool colours) {
  std::string result;
  while (!text.empty()) {
    utf8proc_int32_t point = 0;
    auto used = static_cast<std::size_t>(std::max<utf8proc_ssize_t>(
        utf8proc_iterate(octets(text), static_cast<utf8proc_ssize_t>(text.size()), &point), 0));
    bool shown = used > 0 && (!is_hidden(point) || point == '\t' || point == '\n');
    if (const std::size_t sequence = colours ? colour_sequence(text) : 0; sequence > 0) {
      used = sequence;
      shown = true;
    }
    used = std::max<std::size_t>(used, 1);
    result += shown ? text.substr(0, used) : "?";
    text.remove_prefix(used);
  }
  return result;
}

std::string nfc(std::string_view text) {
  return is_ascii(text) ? std::string(text) : mapped(text, UTF8PROC_STABLE | UTF8PROC_COMPOSE);
}

std::string folded(std::string_view text) {
  if (is_ascii(text)) return lower_ascii(text);
  return mapped(text, UTF8PROC_STABLE | UTF8PROC_COMPOSE | UTF8PROC_CASEFOLD);
}

std::string lower_ascii(std::string_view text) {
  std::string result(text);
  for (char& c : result) c = lower_ascii(c);
  return result;
}

int characters(std::string_view text) {
  return static_cast<int>(std::ranges::count_if(
      text, [](char c) { return (static_cast<unsigned char>(c) & 0xc0) != 0x80; }));
}

std::string_view trimmed(std::string_view text, std::string_view blanks) {
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) + 1 - first);
}

int display_width(std::string_view text) {
  int width = 0;
  each_code_point(text, [&](utf8proc_int32_t point) { width += utf8proc_charwidth(point); });
  return width;
}

std::string padded(std::string_view text, int width) {
  std::string result(text);
  const int missing = width - display_width(text);
  if (missing > 0) result.append(static_cast<std::size_t>(missing), ' ');
  return result;
}

std::vector<std::string> wrapped(std::string_view text, int width) {
  std::vector<std::string> lines(1);
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t blank = std::min(text.find(' ', at), text.size());
    const std::string_view word = text.substr(at, blank - at);
    if (!lines.back().empty() && display_width(lines.back()) + 1 + display_width(word) > width) {
      lines.emplace_back();
    }
    if (!lines.back().empty()) lines.back() += ' ';
    lines.back() += word;
    at = blank + 1;
  }
  return lines;
}

std::string listed(std::span<const std::string> words, std::string_view last_word) {
  std::string result;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) result += i + 1 == words.size() ? fmt::format(" {} ", last_word) : ", ";
    result += words[i];
  }
  return result;
}

std::string capitalised(std::string text) {
  if (!text.empty() && 'a' <= text[0] && text[0] <= 'z') {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  }
  return text;
}

std::string uncapitalised(std::string text) {
  if (!text.empty()) text[0] = lower_ascii(text[0]);
  return text;
}

std::string in_ten(double share) {
  const long tenths = std::lround(share * 10);
  if (tenths >= 10) return "nearly all";
  return tenths <= 0 ? "hardly any" : fmt::format("about {} in ten", tenths);
}

std::string counted(int count, std::string_view word, std::string_view plural) {
  if (count == 1) return fmt::format("1 {}", word);
  if (!plural.empty()) return fmt::format("{} {}", count, plural);
  return fmt::format("{} {}s", count, word);
}

std::string number(double value, int digits) {
  std::string text = fmt::format("{:.{}f}", value, digits);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

int edit_distance(std::string_view a, std::string_view b) {
  // Optimal string alignment: three rows of the usual table.
  std::vector<int> before(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = static_cast<int>(i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const int replace = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({replace, last[j] + 1, row[j - 1] + 1});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        row[j] = std::min(row[j], before[j - 2] + 1);
      }
    }
    before.swap(last);
    last.swap(row);
  }
  return last[b.size()];
}

std::string nearest(std::string_view word, std::span<const std::string> words) {
  int best = std::max(1, static_cast<int>(word.size()) / 3) + 1;
  std::string result;
  for (const std::string& candidate : words) {
    const int distance = edit_distance(word, candidate);
    if (distance < best) {
      best = distance;
      result = candidate;
    }
  }
  return result;
}

}  // namespace trug
