// SPDX-License-Identifier: MIT
#include "show/pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <sstream>

#include "base/text.h"
#include "show/finding_words.h"
#include "show/table.h"

namespace trug::show {
namespace {

// "Sat  5", as a column.
std::string weekday_and_number(Date day) {
  return fmt::format("{} {:>2}", short_weekday(day), day_of_month(day));
}

std::string amount(const work::Job& job) {
  const bool told = job.key.kind == work::JobKind::OrderSeed || work::trait(job.key.kind).counted;
  return job.plants && told ? fmt::format("{}", *job.plants) : "";
}

std::string where_words(const work::Job& job) {
  if (!job.where || *job.where == Raised::InPlace) return "";
  if (*job.where == Raised::Heated) return "in warmth";
  return *job.where == Raised::NurseryBed ? "nursery" : std::string(to_string(*job.where));
}

// The cautions of the crops among the jobs, each crop once.
std::string caution_footer(const std::vector<JobRow>& jobs, const std::vector<std::size_t>& shown,
                           Style style) {
  std::map<std::string, std::vector<std::string>> by_crop;
  for (const std::size_t i : shown) {
    if (!jobs[i].cautions.empty()) by_crop[jobs[i].crop] = jobs[i].cautions;
  }
  if (by_crop.empty()) return "";
  std::string text = "\n" + bold("Cautions", style) + " (crops marked !)\n";
  for (const auto& [crop, lines] : by_crop) {
    for (const std::string& line : lines) text += indented(crop + ": " + line, 2, style);
  }
  return text + indented(
                    "No list of harmful plants is complete; local rules and qualified advice "
                    "stand above it.",
                    2, style);
}

std::string name_words(const JobRow& job) {
  const std::string sowing = job.key.succession > 0 ? fmt::format(" {}", job.key.succession) : "";
  return job.planting_name + sowing;
}

std::string window_words(const JobRow& job) {
  if (job.state == work::Job::State::Assumed) return "taken as done";
  if (job.first == job.last) return "";
  return fmt::format("{} to {}", brief_day(job.first), brief_day(job.last));
}

std::string range_words(Range range) {
  if (range.low == range.high) return number(range.low);
  return fmt::format("{} to {}", number(range.low), number(range.high));
}

std::string offset_words(const FrostOffset& offset) {
  const std::string_view frost = to_string(offset.from);
  if (offset.weeks == 0) return fmt::format("at the {}", frost);
  const double weeks = std::abs(offset.weeks);
  return fmt::format("{} {} {} the {}", number(weeks), weeks == 1 ? "week" : "weeks",
                     offset.weeks < 0 ? "before" : "after", frost);
}

std::string frost_window_words(const FrostWindow& window) {
  return fmt::format("{} to {}", offset_words(window.earliest), offset_words(window.latest));
}

constexpr int kFactColumn = 24;

std::string fact(std::string_view label, std::string_view value, Style style) {
  std::string text = indented(value, kFactColumn, style);
  return "  " + padded(label, kFactColumn - 2) + text.substr(kFactColumn);
}

// "16 a square metre": on a square grid, as the trade counts it; a stretch counts whole rows.
std::string spacing_words(Range spacing_cm) {
  const auto per_square_metre = [](double cm) { return 10000 / (cm * cm); };
  return fmt::format(
      "{} cm ({} plants a square metre)", range_words(spacing_cm),
      range_words({per_square_metre(spacing_cm.high), per_square_metre(spacing_cm.low)}));
}

// Nothing for what is neither sown nor planted as a bulb.
std::string depth_words(const Sheet& sheet) {
  if (sheet.depth_mm) {
    return *sheet.depth_mm < 50 ? number(*sheet.depth_mm, 0) + " mm"
                                : number(*sheet.depth_mm / 10, 0) + " cm";
  }
  if (is_planted(sheet.life_cycle)) return "just under the surface";
  const bool sown =
      std::ranges::any_of(sheet.ways, [](const Way& way) { return way.method == Method::Seed; });
  return sown ? "on the surface" : "";
}

std::string germination_words(const Sheet& sheet) {
  std::string text = range_words(*sheet.germination_days) + " days";
  if (sheet.germination_c) text += fmt::format(" at {} degC", range_words(*sheet.germination_c));
  if (sheet.light == Sheet::Light::Light) text += ", in the light";
  if (sheet.light == Sheet::Light::Dark) text += ", in the dark";
  return text;
}

std::string pinch_words(const Pinch& pinch) {
  std::string text = pinch.advice == Pinch::Advice::Yes        ? "yes"
                     : pinch.advice == Pinch::Advice::Optional ? "if you like"
                                                               : "no";
  if (pinch.at_cm) text += fmt::format(", at {} cm", range_words(*pinch.at_cm));
  if (pinch.costs_days.high > 0) {
    text += fmt::format("; flowers {} days later", range_words(pinch.costs_days));
  }
  return text;
}

std::string way_text(const Way& way, Style style) {
  std::string text = fmt::format("  {}\n", way.name);
  const auto line = [&](std::string_view label, const std::string& value) {
    text += fmt::format("    {} {}\n", padded(label, 22), value);
  };
  if (way.window) {
    line(way.raised == Raised::InPlace && way.method == Method::Seed ? "sow" : "into the bed",
         frost_window_words(*way.window));
  }
  if (way.weeks_under_cover) {
    line("raised " + std::string(way.raised == Raised::Heated       ? "in warmth"
                                 : way.raised == Raised::Frame      ? "in a frame"
                                 : way.raised == Raised::NurseryBed ? "in nursery bed"
                                                                    : "in place"),
         range_words(*way.weeks_under_cover) + " weeks");
  }
  if (way.first_flower) line("first flower", frost_window_words(*way.first_flower));
  if (way.stems_per_plant) line("stems a plant", range_words(*way.stems_per_plant));
  if (way.note) text += indented(*way.note, 4, style);
  return text;
}

std::string source_text(const Source& source, Style style) {
  const std::string name = source.kind == Source::Kind::Published        ? source.name
                           : source.kind == Source::Kind::CommonPractice ? "common practice"
                                                                         : "memory";
  const bool rest = source.covers.size() == 1 && source.covers.front() == "*";
  return indented(fmt::format("{}: {}", name, rest ? "all the rest" : listed(source.covers)), 2,
                  style);
}

std::string day_length_words(const DayLengthResponse& response) {
  const auto hours = [](double h) { return number(h) + " hours"; };
  switch (response.kind) {
    case DayLengthResponse::Kind::Neutral:
      return "no matter";
    case DayLengthResponse::Kind::Long:
      return fmt::format("faster with longer days, {} to {}", number(response.from_hours),
                         hours(response.to_hours));
    case DayLengthResponse::Kind::Short:
      return "a little slower beyond " + hours(response.from_hours);
    case DayLengthResponse::Kind::CriticalShort:
      return "only on days shorter than " + hours(response.from_hours);
  }
  return "";
}

std::string growth_text(const Growth& growth, Style style) {
  std::string text;
  text +=
      fact("counted above", number(growth.base_c) + " degC, up to " + number(growth.top_c), style);
  text += fact("to respond", number(growth.heat_to_respond_kd, 0), style);
  if (growth.vernal_days) text += fact("chilling", number(*growth.vernal_days, 0) + " days", style);
  text += fact("to first flower", number(growth.heat_to_first_flower_kd, 0), style);
  text += fact("good to", number(growth.spread_days, 0) + " days either side, 8 in 10", style);
  text += fact("day length", day_length_words(growth.day_length), style);
  return text;
}

std::string finding_text(const Plan& plan, const ask::Finding& finding, Style style) {
  std::string text =
      hanging(fmt::format("{}:{}:{}: {}: {}", finding.at.file, finding.at.line, finding.at.column,
                          ask::to_string(finding.rank()), message(plan, finding)),
              0, 2, style);
  if (const std::string remedy = remedy_text(plan, finding); !remedy.empty()) {
    text += hanging("remedy: " + remedy, 2, 4, style);
  }
  if (const auto toml = remedy_toml(plan, finding)) {
    text += "  paste:\n";
    std::istringstream lines(*toml);
    for (std::string line; std::getline(lines, line);) text += "    " + line + "\n";
  }
  return text;
}

}  // namespace

std::string trust_note(const climate::Climate& climate) {
  if (climate.has_temperatures()) return "";
  return "No temperatures are given: first cuts come from frost dates alone and are good to three "
         "weeks either side, heat lovers to five.";
}

std::string jobs_page(const Plan& plan, const std::vector<JobRow>& jobs,
                      const std::vector<std::size_t>& shown, const climate::Climate& climate,
                      Style style, bool full) {
  std::string text = headline(plan.title,
                              fmt::format(", flowering {}: {}", plan.flowering_year,
                                          counted(static_cast<int>(shown.size()), "job")),
                              style);
  if (const std::string note = trust_note(climate); !note.empty()) text += indented(note, 0, style);
  Table table(
      {{"day", false}, {"job"}, {"planting"}, {"", false}, {"plants"}, {"where"}, {"still right"}},
      3);
  std::string month;
  for (const std::size_t i : shown) {
    const JobRow& job = jobs[i];
    const std::string heading = month_and_year(job.day);
    if (heading != month) table.add_heading(heading);
    month = heading;
    const std::string kind(work::trait(job.key.kind).words);
    table.add({weekday_and_number(job.day), kind, name_words(job), job.cautions.empty() ? "" : "!",
               amount(job), where_words(job), window_words(job)},
              job.state == work::Job::State::Assumed);
    if (full) table.add_note(job.text);
  }
  text += table.text(style);
  return text + caution_footer(jobs, shown, style);
}

std::string check_page(const Plan& plan, const ground::Schedule& schedule,
                       const std::vector<harvest::Week>& weeks,
                       const std::vector<ask::Finding>& findings, const climate::Climate& climate,
                       Style style) {
  std::string text;
  for (const ask::Finding& finding : findings) text += finding_text(plan, finding, style);
  int grown = 0;
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) grown += schedule.of(i).empty() ? 0 : 1;
  std::string held = fmt::format(": {} of {} plantings fit", grown, plan.plantings.size());
  if (plan.wish) {
    const auto filled = std::ranges::count_if(
        weeks, [](const harvest::Week& week) { return week.stems >= week.wanted; });
    held += fmt::format(", {} of {} weeks have their stems", filled, weeks.size());
  }
  text += headline(plan.title, held + ".", style);
  if (!schedule.exact) {
    text +=
        indented(fmt::format("Best for each stretch given the others ({} gone), not proved best "
                             "for the whole plan.",
                             counted(schedule.rounds, "round")),
                 0, style);
  }
  if (const std::string note = trust_note(climate); !note.empty()) text += indented(note, 0, style);
  return text;
}

std::string findings_line(const std::vector<ask::Finding>& findings, const std::string& file) {
  std::map<ask::Rank, int> counts;
  for (const ask::Finding& finding : findings) ++counts[finding.rank()];
  if (counts.empty()) return "";
  std::vector<std::string> parts;
  for (const auto& [rank, count] : counts) {
    parts.push_back(fmt::format("{} {}", count, ask::to_string(rank)));
  }
  return fmt::format("{} {}: trug check {}\n", listed(parts),
                     findings.size() == 1 ? "finding" : "findings", file);
}

std::string crop_list(const std::vector<const Sheet*>& sheets, Style style) {
  Table table({{"crop"}, {"life"}, {"in the vase"}, {"caution"}});
  for (const Sheet* sheet : sheets) {
    std::string roles;
    for (const Role role : sheet->roles) {
      roles += (roles.empty() ? "" : ", ") + std::string(to_string(role));
    }
    table.add({sheet->name, std::string(to_string(sheet->life_cycle)), roles,
               sheet->cautions.empty() ? "" : "!"});
  }
  return bold(counted(static_cast<int>(sheets.size()), "crop"), style) + "\n" + table.text(style) +
         "\n! has a caution: trug crop NAME shows it.\n";
}

std::string crop_page(const Sheet& sheet, Style style) {
  std::string text = headline(
      sheet.name,
      fmt::format(" ({}, {}), {}", sheet.botanical_name, sheet.family, to_string(sheet.life_cycle)),
      style);
  for (const Caution& caution : sheet.cautions) {
    text += indented(fmt::format("! {}. To do: {}.", caution.text, caution.handling), 2, style);
  }
  text += fact("survives",
               number(sheet.coldest_survived_c) + " degC (" +
                   std::string(to_string(frost_class(sheet))) + ")",
               style);
  text += fact("spacing", spacing_words(sheet.spacing_cm), style);
  if (const std::string depth = depth_words(sheet); !depth.empty()) {
    text += fact("depth", depth, style);
  }
  if (sheet.germination_days) text += fact("comes up", germination_words(sheet), style);
  text += fact("pinch", pinch_words(sheet.pinch), style);
  text += fact("support",
               sheet.support == Sheet::Support::Yes     ? "yes"
               : sheet.support == Sheet::Support::Light ? "light"
                                                        : "no",
               style);
  text += fact("height", range_words(sheet.height_cm) + " cm", style);
  text += fact("colours", listed(sheet.colours), style);
  text += fact("cut when", sheet.cut_stage, style);
  text += fact("stems a plant", range_words(sheet.stems_per_plant), style);
  text += fact("cutting",
               range_words(sheet.cutting_weeks) +
                   (sheet.cutting_weeks.high == 1 ? " week, " : " weeks, ") +
                   std::string(to_string(sheet.habit)),
               style);
  text += fact("in the vase", range_words(sheet.vase_days) + " days", style);
  if (sheet.stop_above_max_c) {
    text += fact("cutting stops above", number(*sheet.stop_above_max_c) + " degC by day", style);
  }
  if (sheet.rotation_years) {
    text += fact("same ground again", "after " + counted(*sheet.rotation_years, "year"), style);
  }
  if (sheet.pretreat) {
    text += indented(
        fmt::format("Before {}{}: {}", is_planted(sheet.life_cycle) ? "planting" : "sowing",
                    sheet.pretreat->needed ? ", without fail" : "", sheet.pretreat->text),
        2, style);
  }
  text += "\nWays to raise it\n";
  for (const Way& way : sheet.ways) text += way_text(way, style);
  for (const Group& group : sheet.groups) {
    if (!group.first_flower) continue;
    text += fact("group " + group.name, "first flower " + frost_window_words(*group.first_flower),
                 style);
  }
  if (sheet.growth) text += "\nHeat (degree-days)\n" + growth_text(*sheet.growth, style);
  for (const Group& group : sheet.groups) {
    if (group.growth) {
      text += "\nHeat of the " + group.name + " group\n" + growth_text(*group.growth, style);
    }
  }
  if (!sheet.growth) {
    text += "\nNo heat constants: first cuts come from windows, three weeks either side.\n";
  }
  text += "\nSources\n";
  for (const Source& source : sheet.sources) text += source_text(source, style);
  return text;
}

}  // namespace trug::show
