// SPDX-License-Identifier: MIT
// The text of small plans, for tests that look at something else than how plans are read.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

namespace trug {

// A place without temperatures; more keys may follow.
inline constexpr std::string_view kPlaceText = R"([place]
latitude = 52.5
last_frost = "10 May"
first_frost = "12 October"
frost_meaning = "garden"
)";

inline constexpr std::string_view kShelterText = R"(
[shelter]
heated_trays = 10
frame_m2 = 4
nursery_m2 = 4
)";

// A plan's keys before its first heading, and its place.
inline std::string head_text(std::string_view keys) {
  std::string text = "flowering_year = 2027\nbegan = 2025-06-01\n";
  return text.append(keys).append("\n").append(kPlaceText);
}

struct StretchText {
  std::string_view length_m;  // "1.2"
  std::string_view crops;     // all that follows: R"(crops = ["zinnia"])"
};

inline std::string bed_text(std::string_view name, std::string_view length_m,
                            std::string_view width_m,
                            std::initializer_list<StretchText> stretches) {
  std::string text = "\n[[bed]]\nname = \"";
  text.append(name).append("\"\nlength_m = ").append(length_m);
  text.append("\nwidth_m = ").append(width_m).append("\n");
  for (const StretchText& stretch : stretches) {
    text.append("\n[[bed.stretch]]\nlength_m = ").append(stretch.length_m);
    text.append("\n").append(stretch.crops).append("\n");
  }
  return text;
}

}  // namespace trug
