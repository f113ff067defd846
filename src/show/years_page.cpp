// SPDX-License-Identifier: MIT
#include "show/years_page.h"

#include <fmt/format.h>

#include <cmath>

#include "base/text.h"
#include "show/table.h"

namespace trug::show {
namespace {

std::string in_a_hundred(double share) { return std::to_string(std::lround(share * 100)); }

// "1,000".
std::string thousands(int number) {
  return number < 1000 ? std::to_string(number)
                       : fmt::format("{},{:03}", number / 1000, number % 1000);
}

std::string how_drawn(const ask::Chances& chances) {
  return fmt::format(
      "{} years drawn from the weather of {} recorded ones, {} to {}, with the losses and yields "
      "that the sheets and common practice allow (--seed {}). The plan stays as it is.",
      thousands(chances.drawn), chances.recorded, chances.first_year, chances.last_year,
      chances.seed);
}

std::string in_the_mean(const ask::Chances& chances) {
  double full = 0, half = 0;
  for (const ask::WeekChance& week : chances.weeks) {
    full += week.full;
    half += week.half;
  }
  return fmt::format(
      "In the mean of the years {} of {} weeks have their vases, and {} more have half of them.",
      number(full, 1), chances.weeks.size(), number(half, 1));
}

}  // namespace

std::string years_page(const Plan& plan, const ask::Chances& chances, Style style) {
  std::string text = headline(plan.title,
                              fmt::format(": of a hundred years, those in which a week has its {}",
                                          plan.wish->vases_per_week == 1 ? "vase" : "vases"),
                              style);
  text += indented(how_drawn(chances), 0, style) + "\n";
  Table table({{"week of", false}, {"all", false}, {"half", false}, {"less", false}, {"stems"}});
  for (const ask::WeekChance& week : chances.weeks) {
    table.add({short_day(week.monday), in_a_hundred(week.full), in_a_hundred(week.half),
               in_a_hundred(1 - week.full - week.half),
               fmt::format("{} ({} to {})", number(week.usable.likely, 0),
                           number(week.usable.low, 0), number(week.usable.high, 0))});
  }
  text += table.text(style);
  text +=
      "\nStems that find a place in the vases: usual, and from one year in ten to nine in ten.\n";
  return text + "\n" + indented(in_the_mean(chances), 0, style);
}

}  // namespace trug::show
