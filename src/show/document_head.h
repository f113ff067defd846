// SPDX-License-Identifier: MIT
// What every document for programs says of itself.
#pragma once

#include <string>

#include "base/date.h"

namespace trug::show {

struct DocumentHead {
  std::string format;   // "trug.jobs/1"
  std::string program;  // "trug 0.1.0"
  Date today;
};

}  // namespace trug::show
