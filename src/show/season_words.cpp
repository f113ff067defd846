// SPDX-License-Identifier: MIT
#include "show/season_words.h"

#include <fmt/format.h>

#include <cstdlib>
#include <string>
#include <vector>

#include "base/text.h"

namespace trug::show {
namespace {

std::string percent(double share) { return fmt::format("{:.0f} in 100", share * 100); }

}  // namespace

std::string words(const ask::TooEarly& f, const About& about) {
  return fmt::format(
      "{} begun on {} is {} of the way to its flower before the winter: hard frost may take the "
      "buds",
      about.name, plain_day(f.start), percent(f.share_done));
}
Numbers numbers(const ask::TooEarly& f) { return {{"share_done", f.share_done}}; }

std::string words(const ask::SmallRosette& f, const About& about) {
  return fmt::format("{} has {} of its leaves before the winter: count on half its stems",
                     about.name, percent(f.share_done));
}
Numbers numbers(const ask::SmallRosette& f) { return {{"share_done", f.share_done}}; }

std::string words(const ask::ShortStems& f, const About& about) {
  return fmt::format(
      "{} gets {} of the cold it needs from the winter here: count on short stems, and fewer",
      about.name, percent(f.cold_share));
}
Numbers numbers(const ask::ShortStems& f) { return {{"cold_share", f.cold_share}}; }

std::string words(const ask::WinterLosses& f, const About& about) {
  const std::string snow =
      f.felt_c > f.coldest_c
          ? fmt::format(", {} under snow{}", number(f.felt_c),
                        f.snow_guessed ? " (if none lies, snow = false under [place] says so)" : "")
          : "";
  std::string text = fmt::format(
      "{} survives {} degC and your coldest night is {} degC{}: {} live{}", about.name,
      number(f.survives_c), number(f.coldest_c), snow, in_ten(f.bare), f.covered ? " bare" : "");
  if (f.covered) {
    text += fmt::format(", {} under {}", in_ten(f.alive), f.mulch ? "a deep mulch" : "fleece");
  }
  if (f.spare > 0) {
    text += fmt::format("; have {} to spare for the gaps", counted(f.spare, "plant"));
  }
  if (f.lift) text += "; or lift and store it";
  return text;
}
Numbers numbers(const ask::WinterLosses& f) {
  return {{"coldest_c", f.coldest_c},
          {"survives_c", f.survives_c},
          {"alive_bare", f.bare},
          {"alive", f.alive},
          {"spare_plants", f.spare}};
}

std::string words(const ask::OneYear& f, const About& about) {
  return fmt::format(
      "{} does not live through a summer like yours, {} degC by day in the hottest month where it "
      "lives to {}: count on one year, and buy it anew",
      about.name, number(f.hottest_c, 0), number(f.lives_to_c));
}
Numbers numbers(const ask::OneYear& f) {
  return {{"hottest_c", f.hottest_c}, {"lives_to_c", f.lives_to_c}};
}

std::string words(const ask::TooLate& f, const About& about) {
  const std::string usual =
      f.usual < f.latest ? fmt::format("usual until {}, ", plain_day(f.usual)) : "";
  return fmt::format(
      "{}: too late to {}: {}: {}possible until {}, and {} is the first day it can be begun",
      about.name, f.sown ? "sow" : "plant", f.way, usual, plain_day(f.latest), plain_day(f.first));
}

std::string words(const ask::OwnClockSeen& f, const About&) {
  std::vector<std::string> runs, lines;
  if (f.own.days_late != 0) {
    runs.push_back(fmt::format("runs {} {} than reckoned, by {} first cuts",
                               counted(std::abs(f.own.days_late), "day"),
                               f.own.days_late > 0 ? "later" : "sooner", f.own.dates));
    lines.push_back(fmt::format("days_late = {}", f.days_late));
  }
  if (f.own.counts > 0) {
    runs.push_back(fmt::format("gives {:.1f} times the stems, by {} counted starts",
                               f.own.stems_times, f.own.counts));
    lines.push_back(fmt::format("stems_times = {:.2f}", f.stems_times));
  }
  return fmt::format(
      "this garden {}: the forecasts of what has no record go by that this year; for the choices "
      "of "
      "the next write {} in [place]",
      listed(runs), listed(lines));
}
Numbers numbers(const ask::OwnClockSeen& f) {
  return {{"dates", f.own.dates},
          {"days_late", f.own.days_late},
          {"counts", f.own.counts},
          {"stems_times", f.own.stems_times}};
}

std::string words(const ask::OutOfWish& f, const About& about) {
  return fmt::format("{} is first cut on {}: {} of its {} stems fall in the weeks of the wish",
                     about.name, plain_day(f.first_cut), number(f.in_wish, 0), number(f.stems, 0));
}
Numbers numbers(const ask::OutOfWish& f) { return {{"stems", f.stems}, {"in_wish", f.in_wish}}; }

std::string words(const ask::HeatPause& f, const About& about) {
  return fmt::format(
      "{} gives nothing to cut from {} to {}, in the heat; it keeps its ground until {} for {} of "
      "its {} stems, which come after",
      about.name, plain_day(f.days.from), plain_day(f.days.until - Days{1}), plain_day(f.lift),
      number(f.stems_after, 0), number(f.stems, 0));
}
Numbers numbers(const ask::HeatPause& f) {
  return {{"weeks", days_between(f.days.from, f.days.until) / 7.0},
          {"stems_after", f.stems_after},
          {"stems", f.stems}};
}

std::string words(const ask::NeedsCold& f, const About& about) {
  return fmt::format(
      "{} wants a cold winter and your coldest month averages {} degC: keep the bulbs in a "
      "refrigerator for {} to {} weeks before you plant them",
      about.name, number(f.coldest_month_c), number(f.weeks.low), number(f.weeks.high));
}
Numbers numbers(const ask::NeedsCold& f) {
  return {{"coldest_month_c", f.coldest_month_c},
          {"weeks_low", f.weeks.low},
          {"weeks_high", f.weeks.high}};
}

std::string words(const ask::ColdSoil& f, const About& about) {
  return fmt::format(
      "{} is sown on {}, where the soil is likely at {} degC and its seed wants {} degC for a "
      "week: measure it before you sow",
      about.name, plain_day(f.start), number(f.soil_c, 0), number(f.wanted_c));
}
Numbers numbers(const ask::ColdSoil& f) { return {{"soil_c", f.soil_c}, {"wanted_c", f.wanted_c}}; }

}  // namespace trug::show
