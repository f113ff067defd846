// SPDX-License-Identifier: MIT
// First flowers that are known from outside, and the places they are known from.
#pragma once

#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "base/date.h"
#include "garden/plan.h"

namespace trug::calibrate {

// A table that cannot be used: what is wrong, with file and line.
struct BadTable : std::runtime_error {
  using std::runtime_error::runtime_error;
};

// One planting and when it is said to flower. Both ends of the window are inside.
struct Fact {
  std::string crop, way;
  Date start, in_ground;
  std::string place;  // by its name in climates.tsv
  Date earliest, latest;
  bool fitted = false;  // false: kept out of the fit
  std::string kind, source;

  double middle_after(Date day) const {
    return (days_between(day, earliest) + days_between(day, latest)) / 2.0;
  }
  double half_width() const { return days_between(earliest, latest) / 2.0; }
};

std::map<std::string, Place> read_places(const std::string& path);
std::vector<Fact> read_facts(const std::string& path);

}  // namespace trug::calibrate
