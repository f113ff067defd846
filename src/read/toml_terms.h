// SPDX-License-Identifier: MIT
// What a reader says to a TOML table, and what it gets from it, beside plain values.
#pragma once

#include <string>
#include <string_view>

#include "base/diagnostics.h"

namespace trug::read {

// Whether a key must be there, and how it may be written (for the hint when it is not).
struct Need {
  bool required = false;
  std::string_view example = {};
};
inline constexpr Need kOptional{};
constexpr Need required(std::string_view example = {}) { return {true, example}; }

// Both ends inclusive.
struct Bounds {
  double low = -1e9;
  double high = 1e9;
  std::string_view hint = {};  // for a number above them
};

// A text and where it stands.
struct PlacedText {
  std::string text;
  Position at;
};

// Where a key belongs, to send a stray one home: {"latitude", "[place]"}.
struct KeyHome {
  std::string_view key;
  std::string_view heading;
};

// The place of one key in the file, for questions about all of them.
struct KeyPath {
  std::string path;  // "way.sown in place.window.earliest.weeks": entries of lists by their `name`
  Position at;
  bool is_number = false;  // a number, or a list that holds one
};

}  // namespace trug::read
