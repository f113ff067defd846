// SPDX-License-Identifier: MIT
// What the words of a plan and of the output mean: one table, asked by `trug help WORD` and printed
// in the manual page.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace trug::show {

enum class WordKind {
  Key,      // of the plan; one with a unit by its name alone: "length" for length_m
  Heading,  // of the plan: "place"
  Job,      // by its word in files: "prick-out"
  Finding,  // by its code: "short-weeks"
  Term      // another word of the output
};

struct GlossaryEntry {
  std::string_view word;
  WordKind kind;
  std::string_view text;  // sentences
};

// Sorted by kind, then as the plan or the year has them.
std::span<const GlossaryEntry> glossary();

// The entries of a word as people write it: any case, blanks for hyphens and underscores, with the
// brackets of a heading or the unit of a key.
std::vector<GlossaryEntry> find_words(std::string_view word);

// The word most like it; empty where none is near.
std::string nearest_word(std::string_view word);

// The keys of a plan that have units are written with one: "length_m, length_cm, ...". A key
// without: itself.
std::string with_units(std::string_view key);

}  // namespace trug::show
