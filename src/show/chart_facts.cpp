// SPDX-License-Identifier: MIT
#include "show/chart_facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>
#include <string_view>

#include "base/text.h"
#include "ground/strip_cm.h"
#include "harvest/weeks.h"
#include "show/job_phrases.h"

namespace trug::show {
namespace {

using ground::Sowing;

constexpr std::size_t kMostColours = 3;

Date first_of_month(Date day) { return make_date(year_of(day), month_of(day), 1); }
Date next_month(Date day) { return first_of_month(first_of_month(day) + Days{31}); }

std::string end_word(const Sowing& sowing) {
  return fmt::format("{}ed", leave_word(*sowing.sheet));
}

// What is cut too, or perhaps, is said.
std::string cut_words(const Sowing& sowing, const ChartBlock& block) {
  if (!sowing.is_cut()) return end_word(sowing) + " before its first cut";
  if (!sowing.gives_stems()) return "too young to be cut";
  const growth::DateSpread& first = sowing.timeline.first_cut;
  return fmt::format("first cut about {} ({} to {}), last cut {}", plain_day(first.likely),
                     short_day(first.early), short_day(first.late),
                     plain_day(block.in_flower.until - Days{1}));
}

std::string begin_words(const Sowing& sowing, const ChartBlock& block) {
  if (block.stood_before) return "";
  const std::string_view word = is_sown_in_place(sowing.raised_by()) ? "sown"
                                : block.raising                      ? "out"
                                                                     : "planted";
  return fmt::format("{} {}", word, brief_day(block.in_ground.from));
}

std::string block_words(const Sowing& sowing, const ChartBlock& block) {
  std::string text = fmt::format("{}, {}: ", block.name, sowing.raised_by().name);
  if (block.raising) {
    text += fmt::format("{} from {}; ", block.raising->place, plain_day(block.raising->days.from));
  }
  return text +
         fmt::format("{}; {}; {}; {}; {}, {} to {} cm along the bed",
                     block.stood_before ? "stands for years"
                                        : "in the ground from " + plain_day(block.in_ground.from),
                     cut_words(sowing, block),
                     block.stays ? "stays in the ground"
                                 : fmt::format("{} {}", end_word(sowing), plain_day(sowing.lift)),
                     block.colours.empty() ? "colour not known" : listed(block.colours),
                     block.plants, block.at_cm, block.at_cm + block.length_cm);
}

std::optional<Raising> raising_of(const Plan& plan, const Sowing& sowing) {
  const Way& way = sowing.raised_by();
  if (sowing.stands || sowing.young_plants || sowing.start >= sowing.in_ground) return std::nullopt;
  const DateRange days{sowing.start, sowing.in_ground};
  switch (way.raised) {
    case Raised::InPlace:
      return std::nullopt;
    case Raised::Frame:
      return Raising{days, "frame"};
    case Raised::NurseryBed:
      return Raising{days, "nursery bed"};
    case Raised::Heated:
      break;
  }
  const auto cool = grown_cool_from(*sowing.sheet, sowing.start);
  const bool moves = way.method == Method::Seed && cool && *cool < sowing.in_ground;
  return Raising{days, fmt::format("{}{}", plan.shelter.given ? "heated" : "windowsill",
                                   moves ? " then frame" : "")};
}

ChartBlock block_of(const Plan& plan, const Sowing& sowing) {
  const Sheet& sheet = *sowing.sheet;
  const Planting& planting = plan.plantings[sowing.planting];
  const CropEntry& asked = planting.asked;
  ChartBlock block;
  block.bed = planting.patch->bed;
  block.at_cm = whole_cm(sowing.offset);
  block.length_cm = ground::length_cm(sowing);
  block.in_ground = {sowing.in_ground, sowing.lift};
  block.stood_before = sowing.stands;
  block.stays = stays_in_ground(sheet.life_cycle);
  block.in_flower = {sowing.lift, sowing.lift};
  block.perhaps_from = sowing.lift;
  if (sowing.is_cut() && sowing.gives_stems()) {
    block.in_flower = {sowing.timeline.first_cut.likely, sowing.last_cut() + Days{1}};
    block.perhaps_from = std::max(sowing.timeline.first_cut.early, sowing.in_ground);
  }
  block.colours = drawn_colours(plan, asked, sheet);
  block.raising = raising_of(plan, sowing);
  block.name = sheet.name + (asked.variety ? " '" + *asked.variety + "'" : "");
  block.plants = counted(sowing.plants, "plant");
  block.begin = begin_words(sowing, block);
  if (!block.stays && block.in_flower.until < sowing.lift) {
    block.end = fmt::format("{} {}", end_word(sowing), brief_day(sowing.lift));
  }
  block.words = block_words(sowing, block);
  return block;
}

// Whole months that hold the wish, the first frost and all of the bed; of all beds without one.
DateRange days_shown(const Plan& plan, const climate::Climate& climate,
                     const std::vector<ChartBlock>& blocks, std::optional<std::size_t> bed) {
  const Date season = climate.season_start(plan.flowering_year);
  DateRange days{season, next_month(climate.frosts(plan.flowering_year).first)};
  if (const auto wish = harvest::wish_days(plan, climate)) {
    days.until = std::max(days.until, next_month(wish->until - Days{1}));
  }
  for (const ChartBlock& block : blocks) {
    if (bed && block.bed != *bed) continue;
    const Date from = block.raising ? block.raising->days.from : block.in_ground.from;
    if (!block.stood_before) days.from = std::min(days.from, first_of_month(from));
    const Date last = block.stays ? block.in_flower.until : block.in_ground.until;
    days.until = std::max(days.until, next_month(last - Days{1}));
  }
  return days;
}

// The gaps between what stands there, in order of time.
std::vector<DateRange> gaps(std::vector<DateRange> stays, DateRange within) {
  std::ranges::sort(stays, {}, &DateRange::from);
  std::vector<DateRange> result;
  Date free_from = within.from;
  stays.push_back({within.until, within.until});
  for (const DateRange& stay : stays) {
    const Date until = std::min(stay.from, within.until);
    if (days_between(free_from, until) >= kBareDays) result.push_back({free_from, until});
    free_from = std::max(free_from, stay.until);
  }
  return result;
}

// When something stands on that piece of the bed.
std::vector<DateRange> stays_on(const ChartFacts& facts, std::size_t bed, int from, int until) {
  std::vector<DateRange> stays;
  for (const ChartBlock& block : facts.blocks) {
    const bool there = block.at_cm <= from && until <= block.at_cm + block.length_cm;
    if (block.bed == bed && there) stays.push_back(block.in_ground);
  }
  return stays;
}

// Of one bed, from its start to its end; neighbours that lie bare on the same days are one.
void add_bare(const Plan& plan, std::size_t bed, DateRange summer, ChartFacts& facts) {
  std::set<int> edges{0, whole_cm(plan.beds[bed].length)};
  for (const ChartBlock& block : facts.blocks) {
    if (block.bed == bed) edges.insert({block.at_cm, block.at_cm + block.length_cm});
  }
  for (auto edge = edges.begin(); std::next(edge) != edges.end(); ++edge) {
    const int from = *edge, until = *std::next(edge);
    for (const DateRange& days : gaps(stays_on(facts, bed, from, until), summer)) {
      const auto left = std::ranges::find_if(facts.bare, [&](const BareGround& bare) {
        return bare.bed == bed && bare.at_cm + bare.length_cm == from && bare.days == days;
      });
      if (left != facts.bare.end()) {
        left->length_cm += until - from;
      } else {
        facts.bare.push_back({bed, from, until - from, days});
      }
    }
  }
}

// White and cream: the paper's own.
bool is_pale(const std::string& colour) { return colour == "white" || colour == "cream"; }

// For what the plan gives no colour.
std::vector<std::string> usual_colours(const Plan& plan, const Sheet& sheet) {
  std::vector<std::string> colours;
  for (const std::string& wished : plan.wish ? plan.wish->colours : std::vector<std::string>{}) {
    const bool has = std::ranges::find(sheet.colours, wished) != sheet.colours.end();
    if (has && !is_pale(wished)) colours.push_back(wished);
  }
  if (!colours.empty() || sheet.colours.empty()) return colours;
  const auto first = std::ranges::find_if_not(sheet.colours, is_pale);
  return {first != sheet.colours.end() ? *first : sheet.colours.front()};
}

// A block for each sowing in the beds; what found no place.
void add_blocks(const Plan& plan, const ground::Schedule& schedule, ChartFacts& facts) {
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    const Planting& planting = plan.plantings[i];
    const auto sowings = schedule.of(i);
    const auto bed = planting.patch ? std::optional(planting.patch->bed) : std::nullopt;
    if (sowings.empty()) facts.left_out.push_back({bed, planting.name});
    if (!bed) continue;  // no ground of the picture
    for (const Sowing& sowing : sowings) facts.blocks.push_back(block_of(plan, sowing));
  }
}

}  // namespace

std::vector<std::string> drawn_colours(const Plan& plan, const CropEntry& entry,
                                       const Sheet& sheet) {
  std::vector<std::string> colours =
      entry.colours.empty() ? usual_colours(plan, sheet) : entry.colours;
  if (colours.size() > kMostColours) colours.resize(kMostColours);
  return colours;
}

ChartFacts chart_facts(const Plan& plan, const ground::Schedule& schedule,
                       const climate::Climate& climate) {
  ChartFacts facts;
  add_blocks(plan, schedule, facts);
  facts.days = days_shown(plan, climate, facts.blocks, std::nullopt);
  for (std::size_t bed = 0; bed < plan.beds.size(); ++bed) {
    facts.bed_days.push_back(days_shown(plan, climate, facts.blocks, bed));
  }
  for (ChartBlock& block : facts.blocks) {
    if (block.stood_before) block.in_ground.from = facts.bed_days[block.bed].from;
    if (block.stays) block.in_ground.until = facts.bed_days[block.bed].until;
  }
  const DateRange summer{climate.frosts(plan.flowering_year).last,
                         climate.frosts(plan.flowering_year).first};
  for (std::size_t bed = 0; bed < plan.beds.size(); ++bed) add_bare(plan, bed, summer, facts);
  std::erase_if(facts.bare, [](const BareGround& bare) { return bare.length_cm < kBareCm; });
  return facts;
}

}  // namespace trug::show
