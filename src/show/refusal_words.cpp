// SPDX-License-Identifier: MIT
#include "show/refusal_words.h"

#include <fmt/format.h>

#include <optional>

#include "base/text.h"

namespace trug::show {
namespace {

using ground::Refusal;
using ground::Rule;

std::string day(const std::optional<Date>& date) { return date ? plain_day(*date) : "no day"; }

std::string percent(double share) { return fmt::format("{:.0f} in 100", share * 100); }

std::string cold_soil(const Refusal& r) {
  if (!r.wanted_day) {
    return fmt::format("begun on {} it would lie in soil of {} degC, and to come up it wants {}",
                       day(r.start), number(r.found, 0), number(r.wanted));
  }
  return fmt::format("it would be sown on {}, but the soil is warm enough, {} degC, from {}",
                     day(r.found_day), number(r.wanted), day(r.wanted_day));
}

std::string no_flower(const Refusal& r) {
  if (r.mild_winter) {
    return fmt::format(
        "the coldest month averages {} degC, and above {} no winter chills it in the ground: no "
        "date can be told for it; from a refrigerator into your coolest weeks it may flower once",
        number(r.found), number(r.wanted));
  }
  if (r.found_day) {
    return fmt::format(
        "its first cut would be due on {}, and going into the ground on {} it cannot be cut before "
        "{}",
        day(r.found_day), day(r.in_ground), day(r.wanted_day));
  }
  if (r.chilling) {
    return fmt::format("begun on {} it would get {} of the {} days of cold it needs to flower",
                       day(r.start), number(r.found, 0), number(r.wanted, 0));
  }
  if (r.found < r.wanted) {
    return fmt::format(
        "begun on {} it would have {} of the {} degree-days to its flower by the year's end",
        day(r.start), number(r.found, 0), number(r.wanted, 0));
  }
  return fmt::format("begun on {} it would not flower within the year", day(r.start));
}

std::string too_hot(const Refusal& r) {
  return fmt::format(
      "its first cut is due on {} and heat stops it on {}: {} of cutting to expect, and {} are "
      "wanted",
      day(r.found_day), r.wanted_day ? short_day(*r.wanted_day) : "no day",
      counted(static_cast<int>(r.found), "day"), number(r.wanted, 0));
}

std::string no_shelter(const Refusal& r) {
  switch (r.needs) {
    case Needs::Warmth:
      return "it is raised in warmth, and [shelter] has no heated_trays";
    case Needs::Frame:
      return "it is raised in a frame, and the plan has none: [shelter] frame_m2 says so";
    case Needs::Nursery:
      return "it is raised in a nursery bed, and [shelter] has no nursery_m2";
    case Needs::Tunnel:
      return "it is grown under a tunnel or fleece, and its bed has neither: cover says so";
    case Needs::Nothing:
      break;
  }
  return "";
}

}  // namespace

std::string refusal_words(const Refusal& r) {
  switch (r.rule) {
    case Rule::FrostRisk:
      return fmt::format(
          "it would be out in the open on {}, but the frost risk you accept allows it only from {}",
          day(r.found_day), day(r.wanted_day));
    case Rule::ColdSoil:
      return cold_soil(r);
    case Rule::WarmSoil:
      return fmt::format("{} {} it would be in soil of {} degC, and wants it under {}",
                         r.found_day ? "in the ground on" : "begun on",
                         day(r.found_day.value_or(r.start)), number(r.found, 0), number(r.wanted));
    case Rule::EnoughCold:
      return fmt::format(
          "the winter here gives {} days of cold and it needs {}: it is chilled in the ground",
          number(r.found, 0), number(r.wanted, 0));
    case Rule::WinterCold:
      return fmt::format(
          "it would meet {} degC in winter, and {} live through that; enough do down to {} degC",
          number(r.found), in_ten(r.share), number(r.wanted, 0));
    case Rule::SummerHeat:
      return fmt::format(
          "it does not live through a summer whose hottest month has {} degC by day, only {}",
          number(r.found, 0), number(r.wanted));
    case Rule::PotTooOld:
      return fmt::format("begun on {} it would starve in its pot from {}, and goes out on {}",
                         day(r.start), day(r.found_day), day(r.wanted_day));
    case Rule::FlowersBeforeWinter:
      return fmt::format("begun on {} it would flower on {}, before the winter", day(r.start),
                         day(r.found_day));
    case Rule::RosetteTooSmall:
      return fmt::format(
          "begun on {} it has {} of its leaves when the days fall under ten hours, and needs {}",
          day(r.start), percent(r.found), percent(r.wanted));
    case Rule::NoFlower:
      return no_flower(r);
    case Rule::FlowersInPot:
      return fmt::format("begun on {} it would flower in its pot on {}, before it goes out on {}",
                         day(r.start), day(r.found_day), day(r.wanted_day));
    case Rule::SeasonTooShort:
      return fmt::format("its first cut on {} leaves {} of cutting, and {} are wanted",
                         day(r.found_day), counted(static_cast<int>(r.found), "day"),
                         number(r.wanted, 0));
    case Rule::TooHot:
      return too_hot(r);
    case Rule::AfterWish:
      return fmt::format("begun again on {} it is first cut on {}, and the wish ends on {}",
                         day(r.start), day(r.found_day), day(r.wanted_day));
    case Rule::TooLate:
      return fmt::format("it should have begun by {}, and {} is the first day it can",
                         day(r.found_day), day(r.wanted_day));
    case Rule::NoShelter:
      return no_shelter(r);
    case Rule::NotUsual:
      return "it is raised here as a rule: plants are bought where the plan names this way";
    case Rule::Pinned:
      return "the plan's own pins rule it out";
  }
  return "";
}

std::string told_words(const Refusal& r) {
  switch (r.rule) {
    case Rule::FrostRisk:
      return fmt::format(
          "frost comes after that in {} springs: keep fleece over it then, or begin {} later",
          in_ten(r.share), counted(days_between(*r.found_day, *r.wanted_day), "day"));
    case Rule::ColdSoil:
      return "warm the soil under fleece first, or wait for it";
    case Rule::WarmSoil:
      return "count on gaps, or begin it in cooler weeks";
    case Rule::EnoughCold:
      return "bulbs as they are sold will do";
    case Rule::WinterCold:
      return "cover it as deep as you can and have as many again to spare, or lift and store it, "
             "or "
             "begin it in spring";
    case Rule::SummerHeat:
      return "count on losing it in summer, and on buying it anew";
    case Rule::PotTooOld:
      return "count on fewer stems, or set it out sooner";
    case Rule::FlowersBeforeWinter:
    case Rule::FlowersInPot:
      return "begin it later";
    case Rule::RosetteTooSmall:
      return "count on half its stems, or begin it sooner";
    case Rule::NoFlower:
      return r.found_day ? "count on little to cut of it" : "count on nothing to cut of it";
    case Rule::TooHot:
    case Rule::SeasonTooShort:
      return "a cover, or plants begun sooner under one, would lengthen that";
    case Rule::NoShelter:
      return r.needs == Needs::Tunnel ? "cover its bed, for its dates are those of a cover"
                                      : "find it a place, or buy the plants";
    case Rule::AfterWish:
    case Rule::TooLate:
    case Rule::NotUsual:
    case Rule::Pinned:
      break;  // never told of what is grown
  }
  return "";
}

}  // namespace trug::show
