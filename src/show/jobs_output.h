// SPDX-License-Identifier: MIT
// The jobs of a plan in whatever form they are asked for.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "climate/climate.h"
#include "show/document_head.h"
#include "show/format.h"
#include "show/json.h"
#include "show/style.h"

namespace trug::show {

struct JobsShown {
  DocumentHead head;
  Reckoned reckoned;
  std::vector<std::size_t> rows;  // by their places in the reckoned ones
  int before = 0;                 // that lie before the first day shown
  const climate::Climate& climate;
  Style style;
  bool full = false;      // with what each job says
  bool hours = false;     // with how long each takes, and each week
  bool cautions = false;  // with what each caution says, else by name
};

// The jobs by month and day, for people.
std::string jobs_page(const JobsShown& jobs);

std::string jobs_as(Format format, const JobsShown& jobs);

}  // namespace trug::show
