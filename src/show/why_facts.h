// SPDX-License-Identifier: MIT
// What the reckoning of one sowing went through and rests on, for people and for programs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "ground/schedule.h"

namespace trug::show {

// One step of the reckoning.
struct Step {
  std::string name;
  Date start;
  std::optional<Date> end;  // absent: not reached
  double need = 0;
  double reached = 0;
  std::string unit;
};
std::vector<Step> steps(const ground::Sowing& sowing);

// A figure of the sheet, by its key, with where it comes from.
struct Constant {
  std::string key;
  double value = 0;
  std::string source;
};
std::vector<Constant> constants(const ground::Sowing& sowing);

}  // namespace trug::show
