// SPDX-License-Identifier: MIT
#include "ground/refusal.h"

#include <cmath>

namespace trug::ground {
namespace {

int stage_of(Rule rule) {
  switch (rule) {
    case Rule::Pinned:
    case Rule::NoShelter:
    case Rule::NotUsual:
    case Rule::EnoughCold:
      return 0;
    case Rule::TooLate:
      return 1;
    case Rule::FrostRisk:
      return 2;
    case Rule::ColdSoil:
    case Rule::WarmSoil:
      return 3;
    case Rule::WinterCold:
      return 4;
    case Rule::NoFlower:
    case Rule::FlowersInPot:
    case Rule::SummerHeat:
    case Rule::PotTooOld:
      return 5;
    case Rule::FlowersBeforeWinter:
      return 6;
    case Rule::RosetteTooSmall:
      return 7;
    case Rule::TooHot:
    case Rule::SeasonTooShort:
      return 8;
    case Rule::AfterWish:
      return 9;
  }
  return 0;
}

double miss_of(const Refusal& r) {
  if (r.found_day && r.wanted_day) return std::abs(days_between(*r.found_day, *r.wanted_day));
  return std::abs(r.found - r.wanted);
}

}  // namespace

bool is_nearer(const Refusal& one, const Refusal& other) {
  if (stage_of(one.rule) != stage_of(other.rule)) return stage_of(one.rule) > stage_of(other.rule);
  return one.rule == other.rule && miss_of(one) < miss_of(other);
}

}  // namespace trug::ground
