// SPDX-License-Identifier: MIT
// The words of an enumeration in one table, for both ways: read from a file, shown to people.
#pragma once

#include <cstddef>
#include <string_view>

namespace trug {

template <class Value>
struct Word {
  Value value;
  std::string_view word;
};

// Whether an enumeration has a name for this value: compilers spell one that has none as a cast.
template <auto kValue>
constexpr bool is_enumerator() {
  return std::string_view(__PRETTY_FUNCTION__).find("kValue = (") == std::string_view::npos;
}

// Whether a table names each value once, in the enumeration's order. For a static_assert beside
// the table: it fails where an enumerator is added and its word forgotten.
template <class Value, std::size_t kSize>
constexpr bool names_all(const Word<Value> (&words)[kSize]) {
  for (std::size_t i = 0; i < kSize; ++i) {
    if (static_cast<std::size_t>(words[i].value) != i || words[i].word.empty()) return false;
  }
  return !is_enumerator<static_cast<Value>(kSize)>();
}

// The value's word in a table that names all.
template <class Value, std::size_t kSize>
constexpr std::string_view word_of(const Word<Value> (&words)[kSize], Value value) {
  return words[static_cast<std::size_t>(value)].word;
}

}  // namespace trug
