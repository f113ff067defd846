// SPDX-License-Identifier: MIT
#include "show/finding_words.h"

#include <fmt/format.h>

#include <cmath>

#include "base/text.h"

namespace trug::show {
namespace {

using ground::Finding;
using ground::FindingCode;
using ground::Remedy;
using ground::Rule;

std::string day(const std::optional<Date>& date) { return date ? plain_day(*date) : "no day"; }
std::string short_date(const std::optional<Date>& date) {
  return date ? short_day(*date) : "no day";
}
std::string percent(double share) { return fmt::format("{:.0f} in 100", share * 100); }

std::string neighbours(const Finding& f) {
  std::string text;
  for (const std::string& word : f.words) {
    if (word.starts_with("after:")) {
      text += fmt::format("{} can leave the ground on {} at the earliest", word.substr(6),
                          day(f.day("free_from")));
    } else if (word.starts_with("before:")) {
      if (!text.empty()) text += " and ";
      text += fmt::format("{} must have it by {}", word.substr(7), day(f.day("needed_by")));
    }
  }
  return text;
}

std::string ground_taken(const Finding& f) {
  return fmt::format(
      "{} is left out: it can go into the ground from {} to {} and be lifted from {} "
      "on, but {}",
      f.planting_name, day(f.day("in_ground_from")), day(f.day("in_ground_to")),
      day(f.day("lift_from")), neighbours(f));
}

std::string cannot_grow(const Finding& f) {
  const std::string way = f.way.empty() ? "no way" : fmt::format("{}", f.way);
  return fmt::format("{} cannot be grown here this year: {}: {}", f.planting_name, way,
                     f.refusal ? refusal_words(*f.refusal) : "no way of its sheet fits");
}

std::string short_season(const Finding& f) {
  const std::string weeks = number(f.number("frost_free_weeks"), 0);
  if (f.words.empty()) {
    return fmt::format(
        "the frost-free season is {} weeks: raise tender crops in warmth, and let hardy ones carry "
        "the wish",
        weeks);
  }
  return fmt::format("the frost-free season is {} weeks: {}", weeks, listed(f.words));
}

std::string short_weeks(const Finding& f) {
  return fmt::format(
      "{} of {} weeks of the wish {} short, {} in all: {}", number(f.number("short_weeks")),
      number(f.number("weeks")), f.words.size() == 1 ? "goes" : "go",
      counted(static_cast<int>(std::lround(f.number("missing_stems"))), "stem"), listed(f.words));
}

}  // namespace

std::string refusal_words(const ground::Refusal& r) {
  switch (r.rule) {
    case Rule::FrostRisk:
      return fmt::format(
          "it would be out in the open on {}, but the frost risk you accept allows it only "
          "from {}",
          day(r.found_day), day(r.wanted_day));
    case Rule::ColdSoil:
      if (!r.wanted_day) {
        return fmt::format("sown outdoors it wants soil at {} degC for a week, and it never is",
                           number(r.wanted));
      }
      return fmt::format("it would be sown on {}, but the soil is warm enough, {} degC, from {}",
                         day(r.found_day), number(r.wanted), day(r.wanted_day));
    case Rule::WinterCold:
      return fmt::format("it would meet {} degC in winter and survives {} degC", number(r.found),
                         number(r.wanted));
    case Rule::FlowersBeforeWinter:
      return fmt::format("begun on {} it would flower on {}, before the winter", day(r.start),
                         day(r.found_day));
    case Rule::RosetteTooSmall:
      return fmt::format(
          "begun on {} it has {} of its leaves when the days fall under ten hours, and "
          "needs {}",
          day(r.start), percent(r.found), percent(r.wanted));
    case Rule::NoFlower:
      if (r.mild_winter) {
        return fmt::format(
            "the coldest month averages {} degC, and above {} no winter chills it in the ground: "
            "no date can be told for it; from a refrigerator into your coolest weeks it may flower "
            "once",
            number(r.found), number(r.wanted));
      }
      if (r.found_day) {
        return fmt::format(
            "its first cut would be due on {}, and going into the ground on {} it cannot be cut "
            "before {}",
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
    case Rule::SeasonTooShort:
      return fmt::format("its first cut on {} leaves {} days of cutting, and {} are wanted",
                         day(r.found_day), number(r.found, 0), number(r.wanted, 0));
    case Rule::TooHot:
      return fmt::format(
          "its first cut on {} leaves {} days of cutting before the heat of {} stops it, and {} "
          "are wanted",
          day(r.found_day), number(r.found, 0), short_date(r.wanted_day), number(r.wanted, 0));
    case Rule::TooLate:
      return fmt::format("it should have begun on {}, before {}", day(r.found_day),
                         day(r.wanted_day));
    case Rule::NoShelter:
      switch (r.needs) {
        case Raised::Heated:
          return "it is raised in warmth, and [shelter] has no heated_trays";
        case Raised::Frame:
          return "it is raised in a frame, and the plan has none: [shelter] frame_m2 says so";
        case Raised::NurseryBed:
          return "it is raised in a nursery bed, and [shelter] has no nursery_m2";
        case Raised::InPlace:
          break;
      }
      return "";
    case Rule::Pinned:
      return "the plan's own pins rule it out";
  }
  return "";
}

std::string message(const Finding& f) {
  switch (f.code) {
    case FindingCode::CannotGrow:
      return cannot_grow(f);
    case FindingCode::GroundTaken:
      return ground_taken(f);
    case FindingCode::TooLate:
      return fmt::format("{} is too late for this year: {}", f.planting_name,
                         refusal_words(*f.refusal));
    case FindingCode::ShortWeeks:
      return short_weeks(f);
    case FindingCode::LateStart:
      if (f.number("days_early") > 0) {
        return fmt::format(
            "{} ({}) goes into the ground on {}, {} days before the trade's window opens ({})",
            f.planting_name, f.way, day(f.day("in_ground")), number(f.number("days_early"), 0),
            short_date(f.day("window_start")));
      }
      return fmt::format(
          "{} ({}) goes into the ground on {}, {} days after the trade's window ends ({})",
          f.planting_name, f.way, day(f.day("in_ground")), number(f.number("days_late"), 0),
          short_date(f.day("window_end")));
    case FindingCode::TooEarly:
      return fmt::format(
          "{} begun on {} is {} of the way to its flower before the winter: hard frost "
          "may take the buds",
          f.planting_name, day(f.day("start")), percent(f.number("share_done")));
    case FindingCode::SmallRosette:
      return fmt::format("{} has {} of its leaves before the winter: count on half its stems",
                         f.planting_name, percent(f.number("share_done")));
    case FindingCode::NeedsFleece:
      return fmt::format(
          "{} survives {} degC bare and your coldest night is {} degC: it needs fleece",
          f.planting_name, number(f.number("survives_c")), number(f.number("coldest_c")));
    case FindingCode::ColdSoil:
      return fmt::format(
          "{} is sown on {}, where the soil is likely at {} degC and its seed wants {} degC for a "
          "week: measure it before you sow",
          f.planting_name, day(f.day("start")), number(f.number("soil_c"), 0),
          number(f.number("wanted_c")));
    case FindingCode::NeedsCold:
      return fmt::format(
          "{} wants a cold winter and your coldest month averages {} degC: keep the bulbs in a "
          "refrigerator for {} to {} weeks before you plant them",
          f.planting_name, number(f.number("coldest_month_c")), number(f.number("weeks_low")),
          number(f.number("weeks_high")));
    case FindingCode::HardlyFrost:
      return fmt::format(
          "frost hardly comes here, {} days of the year are free of it: tender crops need not "
          "wait for it, but windows that count from frosts mean little, hardy annuals are for your "
          "coolest months, and biennials, bulbs and peonies miss their cold",
          number(f.number("frost_free_days"), 0));
    case FindingCode::ShortSeason:
      return short_season(f);
    case FindingCode::CostsStems:
      return fmt::format("keeping {} costs its stretch {} stems of the {} it could give",
                         f.planting_name, number(f.number("stems"), 0),
                         number(f.number("stems") + f.number("stretch_stems"), 0));
    case FindingCode::TooManyPlants:
      return fmt::format("{} has {} plants where {} fit at {} cm", f.planting_name,
                         number(f.number("plants"), 0), number(f.number("room"), 0),
                         number(f.number("spacing_cm")));
    case FindingCode::FewStems:
      return fmt::format("{} gives {} stems in its best week: too few to count in a vase",
                         f.planting_name, number(f.number("best_week_stems")));
    case FindingCode::OffColour:
      return fmt::format("{} has none of the wish's colours ({})", f.planting_name,
                         listed(f.words));
    case FindingCode::NotSettled:
      return fmt::format(
          "the stretches were still changing after {} rounds: another choice may be better",
          number(f.number("rounds"), 0));
  }
  return "";
}

std::string remedy_text(const Finding& f) {
  if (!f.remedy) return "";
  const Remedy& r = *f.remedy;
  switch (r.kind) {
    case Remedy::Kind::LiftEarlier:
      return fmt::format("lift {} on {}, before its fewest useful days; that costs {} stems",
                         r.crop, day(r.day), number(r.costs_stems, 0));
    case Remedy::Kind::LeaveOut:
      return "leave it out of this stretch";
    case Remedy::Kind::NextYear:
      return "it can be grown a year later; or buy plants";
    case Remedy::Kind::FewerPlants:
      return fmt::format("plant {}", number(r.plants));
    case Remedy::Kind::StartLater:
      return fmt::format("start it on {} or later", day(r.day));
    case Remedy::Kind::OtherPlace:
      return "give its ground to another crop; it does not grow here";
  }
  return "";
}

}  // namespace trug::show
