// SPDX-License-Identifier: MIT
// A sowing's part of its stretch in whole centimetres, for people: each part ends where the next
// begins, whatever is left of a centimetre.
#pragma once

#include "ground/schedule.h"

namespace trug::ground {

inline int length_cm(const Sowing& sowing) {
  return whole_cm(sowing.offset + sowing.length) - whole_cm(sowing.offset);
}

}  // namespace trug::ground
