// SPDX-License-Identifier: MIT
// One start of a planting as the calendar's head keeps it, in its X-TRUG-PLANTING line.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/uuid.h"
#include "garden/told.h"
#include "work/jobs.h"

namespace trug::calendar {

struct PlantingLine {
  Uuid id;  // planting_id()
  int flowering_year = 0;
  ToldStart start;
  bool operator==(const PlantingLine&) const = default;
};

// Who it is, whatever its kind of job: only the garden, which no file holds, tells what it stands
// for.
Uuid planting_id(const Uuid& garden, const work::JobKey& key);

// The value of the line: words between blanks, names percent-encoded (RFC 3986, 2.1).
std::string planting_value(const PlantingLine& line);
std::optional<PlantingLine> parse_planting_value(std::string_view value);

}  // namespace trug::calendar
