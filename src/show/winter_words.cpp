// SPDX-License-Identifier: MIT
#include "show/winter_words.h"

#include <fmt/format.h>

#include "base/text.h"
#include "work/seeds.h"

namespace trug::show {

std::string more_for_the_winter(const ground::Sowing& sowing) {
  const int spare = work::spare_plants(sowing);
  if (spare == 0) return "a tenth to a fifth more than that: the winter takes some";
  return fmt::format("{} more than that: {} live through the winter here", counted(spare, "plant"),
                     in_ten(sowing.alive));
}

std::string cover_words(const Place& place, const ground::Sowing& sowing) {
  if (!sowing.under_fleece) {
    return "Lay the bed's fleece over these plants, loose enough to grow into and held down all "
           "round; open it in mild spells.";
  }
  return fmt::format(
      "Lay {}: the usual coldest night here is {} degC and it survives {} degC bare. So covered, "
      "{} live.{}",
      work::is_mulched(*sowing.sheet) ? "a mulch a hand deep" : "fleece",
      number(place.coldest_c.value_or(0)), number(sowing.sheet->survives_c), in_ten(sowing.alive),
      work::is_mulched(*sowing.sheet) ? "" : " Open it in mild spells.");
}

}  // namespace trug::show
