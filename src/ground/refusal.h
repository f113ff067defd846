// SPDX-License-Identifier: MIT
// The hard rules of a start, and what it is to break one.
#pragma once

#include <optional>

#include "base/date.h"
#include "garden/sheet.h"

namespace trug::ground {

// Hard rules: what is free to choose keeps them all. What stands or is pinned is chosen all the
// same and told the rule that it breaks, but for the last three (the past, what the plan has not
// asked for, pins that contradict each other) and for what flowers in another year than the plan's.
enum class Rule {
  FrostRisk,            // tender or half-hardy plants out before the frost risk has passed
  ColdSoil,             // tender or half-hardy seed in soil too cold for it
  WarmSoil,             // seed, corms, chilled bulbs or hardy annuals in soil too warm
  EnoughCold,           // bulbs from cold storage where the winter chills them in the ground
  WinterCold,           // too few live through it where they stand over winter
  SummerHeat,           // a hotter summer than it lives through lies before its first flower
  PotTooOld,            // it would starve in its pot before it goes out
  FlowersBeforeWinter,  // so far on that it would flower before the winter
  RosetteTooSmall,      // a biennial under half its rosette by the first ten-hour day
  FlowersInPot,         // in flower before it goes out
  NoFlower,             // no first flower within the flowering year
  TooHot,               // too little cutting before the heat stops it
  SeasonTooShort,       // hardly a first flower, or too little cutting, before the season ends
  AfterWish,            // begun again after a failure, it is cut after the last week of the wish
  NoShelter,            // needs a place to raise it that the plan does not have
  TooLate,              // should have begun before the plan's first day
  NotUsual,             // bought plants of what the trade raises, and the plan asks for none
  Pinned                // the plan pins another way or day
};

// One refusal, with what was found and what the rule wants: days, degrees or shares by rule.
struct Refusal {
  Rule rule = Rule::NoFlower;
  Date start;
  std::optional<Date> found_day, wanted_day;
  double found = 0, wanted = 0;
  double share = 0;          // WinterCold: that lives; FrostRisk: of springs with a frost after
  bool chilling = false;     // found and wanted are days of cold
  bool mild_winter = false;  // found: the coldest month's mean; above wanted no date can be told
  Date in_ground;
  Needs needs = Needs::Nothing;  // of NoShelter: what there is not
};

// Whether a refusal is nearer to being allowed than another: the one met later in the judging, then
// the smaller miss.
bool is_nearer(const Refusal& one, const Refusal& other);

}  // namespace trug::ground
