// SPDX-License-Identifier: MIT
// Words: Unicode form and width, lists, and the nearest word for a mistyped one.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace trug {

bool is_valid_utf8(std::string_view text);
// True where the text holds a character that cannot be seen and does something: a control character
// (C0, DEL or C1), tab and line break included, one that turns the direction of what follows
// (U+202A to U+202E, U+2066 to U+2069), a blank without width (U+200B, U+2060, U+FEFF), a hyphen
// that shows at the end of a line only (U+00AD). Joiners and marks that scripts and emoji are
// written with are none.
bool has_control_character(std::string_view text);
// The text as it may go to a terminal: each such character but tab and line break becomes '?', and
// so does each octet that is not UTF-8. With `colours`, sequences that set colour or weight stay.
std::string printable(std::string_view text, bool colours = false);
// Unicode normal form C. The text must be valid UTF-8.
std::string nfc(std::string_view text);
// Case-folded normal form C, for comparing names.
std::string folded(std::string_view text);
// With the capitals of ASCII made small, all else as it is.
std::string lower_ascii(std::string_view text);
// Code points, as columns of a position are counted.
int characters(std::string_view text);
// Without `blanks` at either end.
std::string_view trimmed(std::string_view text, std::string_view blanks = " ");
// Columns the text takes in a terminal.
int display_width(std::string_view text);
// Padded with blanks to `width` columns; longer text is left alone.
std::string padded(std::string_view text, int width);
// Words wrapped at blanks into lines of at most `width` columns (a longer word keeps its line).
std::vector<std::string> wrapped(std::string_view text, int width);

// "a", "a and b", "a, b and c" (with another last word: "a, b or c").
std::string listed(std::span<const std::string> words, std::string_view last_word = "and");
// 1 "stem", 2 "stems"; `plural` defaults to the word with an s.
std::string counted(int count, std::string_view word, std::string_view plural = {});
// A share in words: "about 7 in ten", "nearly all", "hardly any".
std::string in_ten(double share);
// "plant out": "Plant out". Its first letter must be plain ASCII.
std::string capitalised(std::string text);
// "Plant out": "plant out", likewise.
std::string uncapitalised(std::string text);
// At most `digits` after the point, no trailing zeros: "0.8", "16".
std::string number(double value, int digits = 1);

// Edits (insert, delete, replace, swap of neighbours) between two words.
int edit_distance(std::string_view a, std::string_view b);
// The nearest of `words` within max(1, length / 3) edits; empty where none is near.
std::string nearest(std::string_view word, std::span<const std::string> words);

}  // namespace trug
