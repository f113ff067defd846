// SPDX-License-Identifier: MIT
// The words and numbers of what winter, summer and the soil have against a crop.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "ask/season_findings.h"
#include "garden/plan.h"

namespace trug::show {

using Numbers = std::vector<std::pair<std::string, double>>;

// The plan that is spoken of, and the planting: empty where the finding speaks of none.
struct About {
  const Plan& plan;
  std::string name;

  const Planting& planting(std::size_t index) const { return plan.plantings[index]; }
};

std::string words(const ask::TooEarly& f, const About& about);
Numbers numbers(const ask::TooEarly& f);
std::string words(const ask::SmallRosette& f, const About& about);
Numbers numbers(const ask::SmallRosette& f);
std::string words(const ask::ShortStems& f, const About& about);
Numbers numbers(const ask::ShortStems& f);
std::string words(const ask::WinterLosses& f, const About& about);
Numbers numbers(const ask::WinterLosses& f);
std::string words(const ask::OneYear& f, const About& about);
Numbers numbers(const ask::OneYear& f);
std::string words(const ask::TooLate& f, const About& about);
std::string words(const ask::OwnClockSeen& f, const About& about);
Numbers numbers(const ask::OwnClockSeen& f);
std::string words(const ask::OutOfWish& f, const About& about);
Numbers numbers(const ask::OutOfWish& f);
std::string words(const ask::HeatPause& f, const About& about);
Numbers numbers(const ask::HeatPause& f);
std::string words(const ask::NeedsCold& f, const About& about);
Numbers numbers(const ask::NeedsCold& f);
std::string words(const ask::ColdSoil& f, const About& about);
Numbers numbers(const ask::ColdSoil& f);

}  // namespace trug::show
