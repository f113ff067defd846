// SPDX-License-Identifier: MIT
#include "show/clearing_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "base/text.h"

namespace trug::show {
namespace {

std::string how_to_clear(const Subject& of) {
  if (is_planted(of.sheet.life_cycle)) {
    return fmt::format("Lift the {}s with the last stems", word_for_bulb(of.sheet.life_cycle));
  }
  const bool spreads = std::ranges::find(of.sheet.cautions, Caution::Kind::Invasive,
                                         &Caution::kind) != of.sheet.cautions.end();
  const std::string_view seed = spreads ? ", before it seeds," : "";
  if (!of.over) return fmt::format("Pull out{} and compost", seed);
  return fmt::format("Cut off at the soil{} and do not dig, since {}s of {} lie there", seed,
                     word_for_bulb(of.over->life_cycle), of.over->name);
}

}  // namespace

bool gives_pods(const Subject& of) { return of.sheet.pods && of.job.day >= pods_ripe(of); }

std::string lift(const Subject& of) {
  const bool bulbs = is_planted(of.sheet.life_cycle);
  const std::string why = of.sowing.another_follows() ? ": the ground is wanted for the next crop."
                          : of.sowing.timeline.cut_short ? ": its season is over."
                                                         : ": it has given what it had.";
  return (gives_pods(of) ? "Cut the ripe pods. " : "") + how_to_clear(of) + why +
         (bulbs ? what_becomes(of) : "");
}

std::string lift_and_store(const Subject& of) {
  const auto& left = of.job.alive_if_left;
  if (!left) return yearly(of);
  return fmt::format("{} Left in the ground under a deep mulch, {} would live.", yearly(of),
                     in_ten(*left));
}

std::string let_die_down(const Subject& of) {
  const auto& next = of.sowing.next_in_ground;
  return fmt::format(
      "Leave the {}s in the ground, they flower there for years: plant {} between them{}, and take "
      "the leaves off when they have yellowed, about six weeks after the flowers.",
      word_for_bulb(of.sheet.life_cycle),
      of.sowing.next_sheet ? of.sowing.next_sheet->name : "the next crop",
      next ? " on " + short_day(*next) : "");
}

std::string replant(const Subject& of) {
  return fmt::format("Plant the dried {} again, where they can stay for years, {}.{}", bulbs(of),
                     of.sheet.depth_mm ? depth_words(of.sheet) : "just under the surface",
                     how_to_plant(of.sheet));
}

std::string look_at_stored(const Subject& of) {
  return fmt::format(
      "Look through what is stored once a month until {}: take out what is soft or mouldy, and "
      "damp what shrivels.",
      short_day(of.job.last));
}

std::string clear_and_feed(const Subject& of) {
  const auto& next = of.sowing.next_in_ground;
  const std::string goes_in = next ? ": the next crop goes in on " + short_day(*next) : "";
  const std::string place = at_place(of.job);
  switch (of.job.clearing) {
    case work::Clearing::Feed:
      return fmt::format("Clear and feed the ground, {}{}.", place, goes_in);
    case work::Clearing::Lean:
      return fmt::format("Clear the ground, {}{}. Do not feed it: {} flowers best in lean soil.",
                         place, goes_in, of.sowing.next_sheet->name);
    case work::Clearing::Rest:
      return fmt::format("Clear the ground, {}{}. Feed it in spring, not now.", place, goes_in);
    case work::Clearing::Cover:
      return fmt::format(
          "Clear the ground, {}, and cover it for the winter with compost or leaves; "
          "feed it in spring.",
          place);
  }
  return "";
}

}  // namespace trug::show
