// SPDX-License-Identifier: MIT
// The values of properties, each against the type that its RFC gives it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "calendar/content_line.h"

namespace trug::calendar {

// Rules that are none of an RFC's.
inline constexpr std::string_view kOwnRule = "trug's own rule";

struct ValueFault {
  std::string what;       // DTEND cannot be "20270230"
  std::string_view rule;  // "RFC 5545, 3.8.2.2"
};

// What is wrong with a property's value; nothing where the property is not one that is known here.
std::vector<ValueFault> value_faults(const Property& property);

}  // namespace trug::calendar
