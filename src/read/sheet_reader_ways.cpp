// SPDX-License-Identifier: MIT
#include "read/sheet_reader_ways.h"

namespace trug::read {
namespace {

constexpr Bounds kWeeks{-60, 60};

FrostOffset read_offset(TomlTable& parent, std::string_view key) {
  FrostOffset offset;
  auto table = parent.table(key, required());
  if (!table) return offset;
  offset.weeks = table->number("weeks", required("weeks = -2"), kWeeks).value_or(0);
  offset.from =
      table->choice("from", kFrosts, required("from = \"last frost\"")).value_or(Frost::Last);
  table->finish();
  return offset;
}

FrostWindow read_window_ends(TomlTable& table) {
  const FrostWindow window{read_offset(table, "earliest"), read_offset(table, "latest")};
  if (window.earliest.from == window.latest.from && window.earliest.weeks > window.latest.weeks) {
    table.error("latest", "the window ends before it begins");
  }
  return window;
}

std::optional<FrostWindow> read_window(TomlTable& parent, std::string_view key,
                                       Need need = kOptional) {
  auto table = parent.table(key, need);
  if (!table) return std::nullopt;
  const FrostWindow window = read_window_ends(*table);
  table->finish();
  return window;
}

// Keys that contradict each other or leave a way without its dates.
void check_way(const Way& way, TomlTable& table) {
  if (way.method == Method::Established && way.window) {
    table.error("window", "an established planting has no window to go in");
  }
  if (way.pre_chilled && way.window) {
    table.error("window", "pre-chilled bulbs go in by the winter's cold, not by a window");
  }
  if (way.raised == Raised::InPlace && way.weeks_under_cover) {
    table.error("weeks_under_cover", "what is sown or planted in place has no weeks under cover");
  }
}

// What it asks for, and what the trade begins from.
void read_shelter(TomlTable& table, const SheetKind& kind, Way& way) {
  way.needs = needs_of(way.raised);
  if (kind.format == 1) return;
  way.needs = table.choice("needs", kNeeds).value_or(way.needs);
  way.usual = read_usual(table);
  way.pre_chilled = table.boolean("pre_chilled").value_or(false);
}

}  // namespace

Usual read_usual(TomlTable& table) { return table.choice("usual", kUsuals).value_or(Usual::Seed); }

std::optional<YearlyJob> read_yearly_job(TomlTable& parent, std::string_view key) {
  auto table = parent.table(key);
  if (!table) return std::nullopt;
  YearlyJob job;
  job.window = read_window_ends(*table);
  job.text = table->text("text", required(), kSentence).value_or("");
  job.every_years = table->whole_number("every_years", kOptional, kCount);
  table->finish();
  return job;
}

Group read_group(TomlTable& table, const SheetKind& kind) {
  Group group;
  group.name = table.text("name", required()).value_or("");
  group.first_flower = read_window(table, "first_flower");
  group.growth = read_growth(table, kind);
  group.cutting_weeks = table.range("cutting_weeks", kOptional, kPositive);
  group.stems_per_plant = table.range("stems_per_plant", kOptional, kNotNegative);
  table.finish();
  return group;
}

Way read_way(TomlTable& table, const SheetKind& kind) {
  Way way;
  way.name = table.text("name", required()).value_or("");
  way.method = table
                   .choice<Method>("method",
                                   {{"seed", Method::Seed},
                                    {"bought plants", Method::BoughtPlants},
                                    {"bulb", Method::Bulb},
                                    {"established", Method::Established}},
                                   required())
                   .value_or(way.method);
  way.raised = table.choice("raised", kRaised, required()).value_or(way.raised);
  way.flowers = table
                    .choice<FlowersIn>("flowers",
                                       {{"same year", FlowersIn::SameYear},
                                        {"next year", FlowersIn::NextYear},
                                        {"third year", FlowersIn::ThirdYear}},
                                       required())
                    .value_or(way.flowers);
  read_shelter(table, kind, way);
  const bool goes_in = way.method != Method::Established && !way.pre_chilled;
  const bool raised_from_seed = way.method == Method::Seed && way.raised != Raised::InPlace;
  way.window = read_window(table, "window", {.required = goes_in});
  way.weeks_under_cover =
      table.range("weeks_under_cover", {.required = raised_from_seed}, kPositive);
  way.first_flower = read_window(table, "first_flower");
  way.stems_per_plant = table.range("stems_per_plant", kOptional, kNotNegative);
  way.prick_out_weeks = table.whole_number("prick_out_weeks", kOptional, kCount);
  way.pot_on_weeks = table.whole_number("pot_on_weeks", kOptional, kCount);
  way.note = table.text("note", kOptional, kSentence);
  check_way(way, table);
  table.finish();
  return way;
}

}  // namespace trug::read
