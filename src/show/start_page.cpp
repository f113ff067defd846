// SPDX-License-Identifier: MIT
#include "show/start_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>

#include "base/text.h"
#include "harvest/vase.h"
#include "show/caution_words.h"
#include "show/job_words.h"
#include "show/pages.h"
#include "show/purchase_words.h"
#include "show/table.h"
#include "show/week_words.h"

namespace trug::show {
namespace {

using harvest::WeekState;

constexpr int kWorthNamingCm = 20;  // of a bed that is left free

std::string headline_words(const StartFacts& facts) {
  const Wish& wish = *facts.plan.wish;
  const auto& weeks = facts.outcome.weeks;
  const int full = harvest::count(weeks, WeekState::Full);
  return fmt::format(
      ": {} of {} weeks from {} to {} {} {} of {} stems.", full, weeks.size(), short_day(wish.from),
      short_day(wish.to), full == 1 ? "has its" : "have their",
      wish.vases_per_week == 1 ? "vase" : fmt::format("{} vases", number(wish.vases_per_week)),
      wish.stems_per_vase);
}

// The first thing that is done to it: "sow 4 April".
std::string begun(const std::vector<JobRow>& rows, std::size_t planting) {
  const auto row = std::ranges::find_if(rows, [&](const JobRow& job) {
    return job.planting == planting && (work::trait(job.key.kind).chosen);
  });
  return row == rows.end() ? "" : fmt::format("{} {}", row->doing, brief_day(row->day));
}

// "5 July to 19 September".
std::string cut_days(const ask::Outcome& outcome, std::size_t planting) {
  std::optional<DateRange> days;
  for (const ground::Sowing& sowing : outcome.schedule.of(planting)) {
    if (!sowing.is_cut()) continue;
    const DateRange one{sowing.timeline.first_cut.likely, sowing.last_cut()};
    days = days ? DateRange{std::min(days->from, one.from), std::max(days->until, one.until)} : one;
  }
  return days ? fmt::format("{} to {}", short_day(days->from), short_day(days->until)) : "";
}

int plants_of(const ask::Outcome& outcome, std::size_t planting) {
  int plants = 0;
  for (const ground::Sowing& sowing : outcome.schedule.of(planting)) plants += sowing.plants;
  return plants;
}

// "tulip (late)": two pieces side by side that are cut in turn.
std::string crop_words(const Sheet& sheet, std::span<const ground::Sowing> sowings) {
  const bool grouped = !sowings.empty() && sowings.front().group != nullptr;
  return grouped ? fmt::format("{} ({})", sheet.name, sowings.front().group->name) : sheet.name;
}

std::string crops_table(const StartFacts& facts, Style style) {
  const Plan& plan = facts.plan;
  const auto rows = job_rows(plan, facts.outcome.schedule, facts.outcome.jobs, {});
  Table table({{"crop"}, {"", false}, {"where"}, {"plants", true, true}, {"begin"}, {"in cut"}}, 3);
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    const Planting& planting = plan.plantings[i];
    if (!planting.patch) continue;
    const Sheet& sheet = *facts.outcome.schedule.weighed[i].sheet;
    table.add({crop_words(sheet, facts.outcome.schedule.of(i)), sheet.cautions.empty() ? "" : "!",
               fmt::format("{} m of {}", number(planting.patch->length.value() / 1000.0, 2),
                           bed_name(plan, planting)),
               std::to_string(plants_of(facts.outcome, i)), begun(rows, i),
               cut_days(facts.outcome, i)});
  }
  return table.text(style);
}

std::string weeks_words(const StartFacts& facts) {
  std::vector<Date> half, less;
  for (const harvest::Week& week : facts.outcome.weeks) {
    if (week.vase.state() == WeekState::Half) half.push_back(week.monday);
    if (week.vase.state() == WeekState::Short) less.push_back(week.monday);
  }
  if (half.empty() && less.empty()) return "Every week has its vases.";
  std::vector<Date> proved;
  for (const ask::WeekBound& bound : facts.bounds) {
    const bool is_short =
        std::ranges::count(half, bound.monday) + std::ranges::count(less, bound.monday) > 0;
    const double wanted = facts.outcome.weeks.front().vase.wanted;
    if (is_short && bound.most < wanted - 0.5) proved.push_back(bound.monday);
  }
  std::string text;
  if (!half.empty()) text += fmt::format("Half full: {}. ", weeks_of(half));
  if (!less.empty()) text += fmt::format("Less than half: {}. ", weeks_of(less));
  if (!proved.empty()) {
    text += fmt::format("Nothing that can be grown on this ground fills the {}.", weeks_of(proved));
  }
  return text;
}

std::string why_words(const StartFacts& facts) {
  const Wish& wish = *facts.plan.wish;
  std::string which = "that can be raised there and cut in these weeks";
  if (!wish.colours.empty()) which += fmt::format(", in {}", listed(wish.colours, "or"));
  if (wish.safe) which += ", and of which no harm is known";
  std::string text = fmt::format(
      "Of {} {}, each of these filled the most weeks beside those before it: few kinds, enough of "
      "each.",
      counted(facts.weighed, "crop"), which);
  if (!facts.unused.empty()) {
    text += fmt::format(" Not in it, since nothing of it fits the place or helps a week: {}.",
                        listed(facts.unused));
  }
  return text;
}

// "0.8 m of gate bed": no stretch of it.
std::vector<std::string> free_ground(const Plan& plan) {
  std::vector<std::string> free;
  for (const Bed& bed : plan.beds) {
    Millimetres rest = bed.length;
    for (const Stretch& stretch : bed.stretches) rest = rest - stretch.length;
    if (whole_cm(rest) < kWorthNamingCm) continue;
    free.push_back(fmt::format("{} m of {}", number(rest.value() / 1000.0, 2), bed.name));
  }
  return free;
}

std::string ground_words(const StartFacts& facts) {
  double beds_m2 = 0;
  for (const Bed& bed : facts.plan.beds) {
    beds_m2 += bed.length.value() / 1000.0 * bed.width.value() / 1000.0;
  }
  const harvest::Span& need = facts.ground.as_wished.m2;
  std::string text = fmt::format(
      "The weeks that can be filled take about {} square metres ({} to {}), your beds have {}; "
      "they are planted for half as much again where there is room.",
      number(need.likely), number(need.low), number(need.high), number(beds_m2));
  const auto free = free_ground(facts.plan);
  if (!free.empty()) text += fmt::format(" Left free: {}.", listed(free));
  return text;
}

std::string buy_words(const StartFacts& facts) {
  if (facts.purchases.empty()) return "";
  const Date month = facts.purchases.front().month;
  std::vector<std::string> items;
  Date by = facts.purchases.front().by;
  for (const work::Purchase& item : facts.purchases) {
    if (item.month != month) continue;
    items.push_back(purchase_words(item));
    by = std::min(by, item.by);
  }
  return fmt::format(
      "Buy first, in {}: {}. The first of it is wanted by {}. trug order has the whole list.",
      month_and_year(month), listed(items), short_day(by));
}

}  // namespace

std::string start_page(const StartFacts& facts, Style style) {
  std::string text = headline(facts.plan.title, headline_words(facts), style);
  text += crops_table(facts, style) + "\n";
  for (const std::string& words :
       {weeks_words(facts), why_words(facts), ground_words(facts), buy_words(facts)}) {
    if (!words.empty()) text += indented(words, 0, style);
  }
  text += fmt::format("Next: {}\n", facts.next);
  CautionLines cautions;
  for (const ground::Weighed& weighed : facts.outcome.schedule.weighed) {
    cautions[weighed.sheet->name] = caution_lines(*weighed.sheet);
  }
  return text + caution_footer(cautions, style);
}

}  // namespace trug::show
