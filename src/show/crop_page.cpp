// SPDX-License-Identifier: MIT
#include "show/crop_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <string_view>

#include "base/text.h"
#include "show/table.h"

namespace trug::show {
namespace {

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
std::string spacing_words(const Sheet& sheet) {
  const Range spacing_cm = sheet.spacing_cm;
  if (sheet.row_cm) {
    return fmt::format("{} cm in rows {} cm apart", range_words(spacing_cm), number(*sheet.row_cm));
  }
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
  if (!pinch.sign.empty()) text += "; its sign: " + pinch.sign;
  if (pinch.cost_kd > 0)
    text += fmt::format("; flowers {} degree-days later", number(pinch.cost_kd, 0));
  if (pinch.costs_days.high > 0) {
    text += fmt::format("; flowers {} days later", range_words(pinch.costs_days));
  }
  return text;
}

std::string_view raised_words(Raised raised) {
  switch (raised) {
    case Raised::Heated:
      return "in warmth";
    case Raised::Frame:
      return "in a frame";
    case Raised::NurseryBed:
      return "in nursery bed";
    case Raised::InPlace:
      return "in place";
  }
  return "";
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
    line(fmt::format("raised {}", raised_words(way.raised)),
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

std::string light_text(const AfterLight& light, Style style) {
  std::string text =
      fact("days count from",
           light.below_h >= 24 ? std::string("the longest day")
                               : fmt::format("when they are under {} hours", number(light.below_h)),
           style);
  text += fact("to first flower", number(light.days, 0) + " warm days", style);
  text += fact("warm days",
               fmt::format("from {} degC, whole from {} to {} degC", number(light.cold_a_c),
                           number(light.cold_b_c), number(light.hot_c_c)),
               style);
  return text;
}

std::string growth_text(const Growth& growth, Style style) {
  std::string text;
  if (growth.after_light) {
    text = light_text(*growth.after_light, style);
    return text +
           fact("good to", number(growth.spread_days, 0) + " days either side, 8 in 10", style);
  }
  text +=
      fact("counted from", fmt::format("its {}", word_of(kCountsFrom, growth.counts_from)), style);
  text +=
      fact("counted above", number(growth.base_c) + " degC, up to " + number(growth.top_c), style);
  text += fact("to respond", number(growth.heat_to_respond_kd, 0), style);
  if (growth.vernal_days) text += fact("chilling", number(*growth.vernal_days, 0) + " days", style);
  text += fact("to first flower", number(growth.heat_to_first_flower_kd, 0), style);
  text += fact("good to", number(growth.spread_days, 0) + " days either side, 8 in 10", style);
  text += fact("day length", day_length_words(growth.day_length), style);
  return text;
}

std::string_view support_words(Sheet::Support support) {
  switch (support) {
    case Sheet::Support::Net:
      return "netting";
    case Sheet::Support::Stakes:
      return "stakes";
    case Sheet::Support::Frame:
      return "a frame";
    case Sheet::Support::Ring:
      return "a ring";
    case Sheet::Support::Light:
      return "light";
    case Sheet::Support::No:
      return "no";
  }
  return "";
}

std::string cutting_words(const Sheet& sheet) {
  return fmt::format("{} {}, {}", range_words(sheet.cutting_weeks),
                     sheet.cutting_weeks.high == 1 ? "week" : "weeks", to_string(sheet.habit));
}

// How it is sold; empty: the sheet does not say.
std::string buying_words(const Buying& buy) {
  std::vector<std::string> words;
  if (buy.month)
    words.push_back(fmt::format("best in {}", month_name(std::chrono::month{*buy.month})));
  if (buy.packet_seeds) words.push_back(fmt::format("about {} seeds a packet", *buy.packet_seeds));
  if (buy.comes_up) words.push_back(number(*buy.comes_up * 100, 0) + " in 100 come up");
  return listed(words);
}

// The winter and the summer it lives through, and the cold it wants.
std::string living_text(const Sheet& sheet, Style style) {
  std::string winter =
      fmt::format("{} degC ({})", number(sheet.survives_c), to_string(frost_class(sheet)));
  if (sheet.mulch_gain_c > 0) {
    winter += fmt::format(", covered {} degC", number(sheet.survives_c - sheet.mulch_gain_c));
  }
  std::string text = fact("survives", winter, style);
  if (const auto& summer = sheet.lives_to_mean_max_c) {
    text += fact("lives through", fmt::format("a hottest month of {} degC by day", number(*summer)),
                 style);
  }
  if (const auto& chill = sheet.chill) {
    text += fact("needs cold",
                 fmt::format("{} days, whole ones at {} degC and under, none over {} degC",
                             number(chill->days, 0), number(chill->full_c), number(chill->zero_c)),
                 style);
  }
  return text;
}

// How long it may stay in its pot, and the soil it wants.
std::string early_text(const Sheet& sheet, Style style) {
  std::string text;
  if (const auto& most = sheet.germination_max_soil_c) {
    text += fact("not into soil over", number(*most) + " degC", style);
  }
  if (const auto& shoots = sheet.emergence) {
    text += fact("shoots show after",
                 fmt::format("{} degree-days of the soil above {} degC", number(shoots->heat_kd, 0),
                             number(shoots->base_c)),
                 style);
  }
  if (const auto& pot = sheet.pot) {
    text += fact("in its pot",
                 fmt::format("module {}, 9 cm pot {} degree-days above 4 degC",
                             number(pot->module_kd, 0), number(pot->pot_kd, 0)),
                 style);
  }
  return text;
}

// How it is sown, planted and kept up.
std::string raising_text(const Sheet& sheet, Style style) {
  std::string text = living_text(sheet, style);
  text += fact("spacing", spacing_words(sheet), style);
  if (const std::string depth = depth_words(sheet); !depth.empty()) {
    text += fact("depth", depth, style);
  }
  if (sheet.germination_days) text += fact("comes up", germination_words(sheet), style);
  text += early_text(sheet, style);
  text += fact("pinch", pinch_words(sheet.pinch), style);
  text += fact("support", support_words(sheet.support), style);
  if (const std::string sold = buying_words(sheet.buy); !sold.empty()) {
    text += fact("sold", sold, style);
  }
  return text + fact("height", range_words(sheet.height_cm) + " cm", style);
}

// What is cut, how much and for how long.
std::string cut_text(const Sheet& sheet, Style style) {
  std::string text = fact("colours", listed(sheet.colours), style);
  text += fact("cut when", sheet.cut_stage, style);
  text += fact("stems a plant", range_words(sheet.stems_per_plant), style);
  text += fact("cutting", cutting_words(sheet), style);
  text += fact("in the vase", range_words(sheet.vase_days) + " days", style);
  if (sheet.stop_above_max_c) {
    const std::string_view label = sheet.when_hot == WhenHot::Pauses  ? "cutting pauses above"
                                   : sheet.when_hot == WhenHot::Slows ? "fewer to cut above"
                                                                      : "cutting stops above";
    text += fact(label, number(*sheet.stop_above_max_c) + " degC by day", style);
  }
  if (sheet.rotation_years) {
    text += fact("same ground again", "after " + counted(*sheet.rotation_years, "year"), style);
  }
  return text;
}

std::string pretreat_text(const Sheet& sheet, Style style) {
  if (!sheet.pretreat) return "";
  return indented(
      fmt::format("Before {}{}: {}", is_planted(sheet.life_cycle) ? "planting" : "sowing",
                  sheet.pretreat->needed ? ", without fail" : "", sheet.pretreat->text),
      2, style);
}

std::string groups_text(const Sheet& sheet, Style style) {
  std::string text;
  for (const Group& group : sheet.groups) {
    if (!group.first_flower) continue;
    text += fact("group " + group.name, "first flower " + frost_window_words(*group.first_flower),
                 style);
  }
  return text;
}

std::string heats_text(const Sheet& sheet, Style style) {
  std::string text;
  if (sheet.growth) text += "\nHeat (degree-days)\n" + growth_text(*sheet.growth, style);
  for (const Group& group : sheet.groups) {
    if (!group.growth) continue;
    text += "\nHeat of the " + group.name + " group\n" + growth_text(*group.growth, style);
  }
  return !text.empty()
             ? text
             : "\nNo heat constants: first cuts come from windows, three weeks either side.\n";
}

}  // namespace

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
  if (sheets.empty()) return "No crop is such.\n";
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
  text += raising_text(sheet, style) + cut_text(sheet, style) + pretreat_text(sheet, style);
  text += "\nWays to raise it\n";
  for (const Way& way : sheet.ways) text += way_text(way, style);
  text += groups_text(sheet, style) + heats_text(sheet, style);
  text += "\nSources\n";
  for (const Source& source : sheet.sources) text += source_text(source, style);
  return text;
}

}  // namespace trug::show
