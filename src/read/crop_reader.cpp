// SPDX-License-Identifier: MIT
#include "read/crop_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/text.h"
#include "read/holdings_reader.h"
#include "read/units.h"

namespace trug::read {
namespace {

void read_successions(CropEntry& entry, TomlTable& table) {
  if (!table.has_text("successions")) {
    entry.successions = table.whole_number("successions", kOptional, {1, 30}).value_or(1);
  } else if (table.choice<bool>("successions", {{"all season", true}})) {
    entry.successions.reset();
  }
}

void read_pins(Pins& pins, TomlTable& table) {
  pins.way = table.text("way");
  pins.start_on = table.date("start_on");
  pins.plant_on = table.date("plant_on");
  pins.lift_on = table.date("lift_on");
  pins.not_before = table.date("not_before");
  const std::pair<const char*, std::optional<Date>> in_order[] = {
      {"start_on", pins.start_on}, {"plant_on", pins.plant_on}, {"lift_on", pins.lift_on}};
  std::pair<const char*, std::optional<Date>> before{"", std::nullopt};
  for (const auto& pin : in_order) {
    if (before.second && pin.second && *pin.second < *before.second) {
      table.error(pin.first, fmt::format("'{}' is before '{}'", pin.first, before.first));
    }
    if (pin.second) before = pin;
  }
}

void check_word(TomlTable& table, std::string_view key, const std::string& word,
                const std::vector<std::string>& known, const std::string& crop) {
  if (std::ranges::find(known, word) != known.end()) return;
  std::vector<std::string> quoted;
  for (const std::string& name : known) quoted.push_back(fmt::format("'{}'", name));
  const std::string hint = known.empty()
                               ? fmt::format("its sheet has no {}s: leave the key out", key)
                               : "its sheet has " + listed(quoted);
  table.error(key, fmt::format("{} has no {} '{}'", crop, key, word), hint);
}

// What stands already is said with its year, never taken for granted.
void check_established(const CropEntry& entry, const Sheet& sheet, TomlTable& table,
                       int flowering_year) {
  const auto way = std::ranges::find(sheet.ways, Method::Established, &Way::method);
  const bool can_stand = way != sheet.ways.end();
  if (entry.pins.way && can_stand && *entry.pins.way == way->name && !entry.since) {
    table.error("way", fmt::format("since when does {} stand there?", sheet.name),
                fmt::format("write since = {} beside it, or leave the way out and it is planted",
                            flowering_year - 3));
  }
  if (entry.since && !can_stand && !is_planted(sheet.life_cycle)) {
    table.error("since", fmt::format("{} does not stand for years", sheet.name),
                "'since' is for perennials, shrubs, bulbs, corms and tubers");
  }
}

// What is sown in its place is not planted on another day.
void check_planting_day(const Pins& pins, const Sheet& sheet, TomlTable& table) {
  if (!pins.way || !pins.plant_on || pins.plant_on == pins.start_on) return;
  const auto way = std::ranges::find(sheet.ways, *pins.way, &Way::name);
  if (way == sheet.ways.end() || !is_sown_in_place(*way)) return;
  table.error(
      "plant_on",
      fmt::format("{}, {}, is not planted: it stays where it is sown", sheet.name, way->name),
      "write start_on for the day of sowing");
}

void check_against_sheet(const CropEntry& entry, const Sheet& sheet, TomlTable& table,
                         int flowering_year) {
  std::vector<std::string> groups, ways;
  for (const Group& group : sheet.groups) groups.push_back(group.name);
  for (const Way& way : sheet.ways) ways.push_back(way.name);
  if (entry.group) check_word(table, "group", *entry.group, groups, sheet.name);
  if (entry.pins.way) check_word(table, "way", *entry.pins.way, ways, sheet.name);
  check_established(entry, sheet, table, flowering_year);
  check_planting_day(entry.pins, sheet, table);
  if (entry.pinch.value_or(false) && sheet.pinch.advice == Pinch::Advice::No) {
    table.error("pinch", fmt::format("{} is never pinched", sheet.name), "leave the key out");
  }
  if (entry.pods && !sheet.pods) {
    table.error("pods", fmt::format("{} has no pods to wait for", sheet.name));
  }
  if (entry.keep && !is_planted(sheet.life_cycle)) {
    table.error("keep",
                fmt::format("'keep' is for bulbs, corms and tubers; {} is none", sheet.name));
  }
}

}  // namespace

void refuse_for_now(TomlTable& table, std::string_view key, std::string_view instead) {
  if (!table.has(key)) return;
  table.error(key, fmt::format("'{}' cannot be used yet", key), std::string(instead));
}

const Sheet* resolve_crop(CropEntry& entry, const Position& at, SheetLibrary& sheets,
                          Diagnostics& diagnostics) {
  const Sheet* sheet = sheets.find(entry.crop, diagnostics);
  if (sheet) {
    entry.crop = sheet->name;
  } else if (!sheets.has(entry.crop)) {
    const std::string better = sheets.what_to_write(entry.crop, diagnostics);
    diagnostics.error(at, fmt::format("there is no sheet for '{}'", entry.crop),
                      better.empty() ? "'trug crop' lists the crops by their English names; "
                                       "botanical names do too, and a sheet of your own goes "
                                       "into a folder crops/ beside the plan"
                                     : better);
  }
  return sheet;
}

CropEntry read_crop(TomlTable& table, SheetLibrary& sheets, Diagnostics& diagnostics,
                    std::span<const KeyHome> homes, int flowering_year) {
  CropEntry entry;
  entry.at = table.at();
  const auto crop = table.text("crop", required("crop = \"zinnia\""));
  entry.crop = crop.value_or("");
  const Sheet* sheet = crop ? resolve_crop(entry, table.at("crop"), sheets, diagnostics) : nullptr;
  entry.variety = table.text("variety");
  entry.group = table.text("group");
  entry.id = table.text("id");
  entry.plants = table.whole_number("plants", kOptional, {1, 100'000});
  entry.spacing_cm = read_spacing_cm(table, "spacing", {1, 500});
  for (const PlacedText& colour : table.strings("colours")) entry.colours.push_back(colour.text);
  entry.keep = table.boolean("keep").value_or(false);
  entry.pods = table.boolean("pods");
  entry.pinch = table.boolean("pinch");
  read_successions(entry, table);
  entry.leave = table.number("leave", kOptional, {0, 0.9}).value_or(0);
  if (const auto weeks = table.number("gap_weeks", kOptional, {0.5, 26})) {
    entry.gap_days = static_cast<int>(std::lround(*weeks * 7));
  }
  entry.person = table.text("person");
  entry.since = read_since(table, flowering_year);
  read_pins(entry.pins, table);
  refuse_for_now(table, "share", "give the crop a stretch of its own");
  if (sheet) check_against_sheet(entry, *sheet, table, flowering_year);
  if (entry.id && entry.id->find('/') != std::string::npos) {
    table.error("id", "an id may not hold '/'", "'/' stands between a bed and its planting");
  }
  table.finish(homes);
  return entry;
}

}  // namespace trug::read
