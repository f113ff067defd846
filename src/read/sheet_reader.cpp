// SPDX-License-Identifier: MIT
#include "read/sheet_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>
#include <vector>

#include "read/toml_table.h"

namespace trug::read {
namespace {

constexpr std::size_t kSentence = 400;  // characters of an advice or a source
constexpr Bounds kCelsius{-60, 60};
constexpr Bounds kPositive{0.1, 1e6};
constexpr Bounds kNotNegative{0, 1e6};
constexpr Bounds kWeeks{-60, 60};
constexpr Bounds kSpreadDays{13, 60};
constexpr Bounds kHours{0, 24};
constexpr Bounds kShare{0, 1};
constexpr Bounds kCount{1, 1000};

std::vector<std::string> words_of(const std::vector<PlacedText>& placed) {
  std::vector<std::string> words;
  for (const PlacedText& entry : placed) words.push_back(entry.text);
  return words;
}

FrostOffset read_offset(TomlTable& parent, std::string_view key) {
  FrostOffset offset;
  auto table = parent.table(key, required());
  if (!table) return offset;
  offset.weeks = table->number("weeks", required("weeks = -2"), kWeeks).value_or(0);
  offset.from =
      table
          ->choice<Frost>("from", {{"last frost", Frost::Last}, {"first frost", Frost::First}},
                          required("from = \"last frost\""))
          .value_or(Frost::Last);
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

DayLengthResponse read_day_length(TomlTable& table) {
  using Kind = DayLengthResponse::Kind;
  DayLengthResponse response;
  response.kind = table
                      .choice<Kind>("kind",
                                    {{"neutral", Kind::Neutral},
                                     {"long", Kind::Long},
                                     {"short", Kind::Short},
                                     {"critical short", Kind::CriticalShort}},
                                    required())
                      .value_or(response.kind);
  const DayLengthResponse standard;
  response.from_hours = table.number("from_hours", kOptional, kHours).value_or(standard.from_hours);
  response.to_hours = table.number("to_hours", kOptional, kHours).value_or(standard.to_hours);
  response.slower_per_hour =
      table.number("slower_per_hour", kOptional, kShare).value_or(standard.slower_per_hour);
  response.floor = table.number("floor", kOptional, kShare).value_or(standard.floor);
  response.sunrise_to_sunset = table.boolean("sunrise_to_sunset").value_or(false);
  if (response.kind == Kind::Long && response.from_hours >= response.to_hours) {
    table.error("from_hours", "'from_hours' must be less than 'to_hours'");
  }
  table.finish();
  return response;
}

std::optional<Growth> read_growth(TomlTable& parent) {
  auto table = parent.table("growth");
  if (!table) return std::nullopt;
  Growth growth;
  growth.base_c = table->number("base_c", required(), kCelsius).value_or(0);
  growth.top_c = table->number("top_c", required(), kCelsius).value_or(60);
  growth.heat_to_respond_kd =
      table->number("heat_to_respond_kd", required(), kNotNegative).value_or(0);
  growth.heat_to_first_flower_kd =
      table->number("heat_to_first_flower_kd", required(), kNotNegative).value_or(0);
  if (auto day_length = table->table("day_length"))
    growth.day_length = read_day_length(*day_length);
  growth.vernal_days = table->number("vernal_days", kOptional, kNotNegative);
  growth.spread_days =
      table->number("spread_days", kOptional, kSpreadDays).value_or(growth.spread_days);
  if (growth.base_c >= growth.top_c) table->error("top_c", "'top_c' must be above 'base_c'");
  table->finish();
  return growth;
}

Pinch read_pinch(TomlTable& parent) {
  Pinch pinch;
  auto table = parent.table("pinch");
  if (!table) return pinch;
  using Advice = Pinch::Advice;
  pinch.advice =
      table
          ->choice<Advice>(
              "advice", {{"yes", Advice::Yes}, {"optional", Advice::Optional}, {"no", Advice::No}},
              required())
          .value_or(pinch.advice);
  pinch.at_cm = table->range("at_cm", kOptional, kPositive);
  pinch.costs_days = table->range("costs_days", kOptional, kNotNegative).value_or(Range{});
  table->finish();
  return pinch;
}

std::optional<Pretreatment> read_pretreatment(TomlTable& parent) {
  auto table = parent.table("pretreat");
  if (!table) return std::nullopt;
  using Kind = Pretreatment::Kind;
  Pretreatment pretreat;
  pretreat.kind = table
                      ->choice<Kind>("kind",
                                     {{"chill", Kind::Chill},
                                      {"soak", Kind::Soak},
                                      {"pre-sprout", Kind::PreSprout},
                                      {"cold storage", Kind::ColdStore}},
                                     required())
                      .value_or(pretreat.kind);
  pretreat.days = table->range("days", required(), kNotNegative).value_or(Range{});
  pretreat.text = table->text("text", required(), kSentence).value_or("");
  pretreat.needed = table->boolean("needed").value_or(false);
  table->finish();
  return pretreat;
}

std::optional<SecondFlush> read_second_flush(TomlTable& parent) {
  auto table = parent.table("second_flush");
  if (!table) return std::nullopt;
  SecondFlush flush;
  flush.weeks_after = table->number("weeks_after", required(), kPositive).value_or(0);
  flush.share = table->number("share", required(), kShare).value_or(0);
  table->finish();
  return flush;
}

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

Group read_group(TomlTable& table) {
  Group group;
  group.name = table.text("name", required()).value_or("");
  group.first_flower = read_window(table, "first_flower");
  group.growth = read_growth(table);
  group.cutting_weeks = table.range("cutting_weeks", kOptional, kPositive);
  group.stems_per_plant = table.range("stems_per_plant", kOptional, kNotNegative);
  table.finish();
  return group;
}

// Keys that contradict each other or leave a way without its dates.
void check_way(const Way& way, TomlTable& table) {
  if (way.method == Method::Established && way.window) {
    table.error("window", "an established planting has no window to go in");
  }
  if (way.raised == Raised::InPlace && way.weeks_under_cover) {
    table.error("weeks_under_cover", "what is sown or planted in place has no weeks under cover");
  }
}

Way read_way(TomlTable& table) {
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
  way.raised = table
                   .choice<Raised>("raised",
                                   {{to_string(Raised::InPlace), Raised::InPlace},
                                    {to_string(Raised::Heated), Raised::Heated},
                                    {to_string(Raised::Frame), Raised::Frame},
                                    {to_string(Raised::NurseryBed), Raised::NurseryBed}},
                                   required())
                   .value_or(way.raised);
  way.flowers = table
                    .choice<FlowersIn>("flowers",
                                       {{"same year", FlowersIn::SameYear},
                                        {"next year", FlowersIn::NextYear},
                                        {"third year", FlowersIn::ThirdYear}},
                                       required())
                    .value_or(way.flowers);
  const bool goes_in = way.method != Method::Established;
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

Caution read_caution(TomlTable& table) {
  using Kind = Caution::Kind;
  Caution caution;
  caution.kind = table
                     .choice<Kind>("kind",
                                   {{"poisonous", Kind::Poisonous},
                                    {"irritant", Kind::Irritant},
                                    {"phototoxic", Kind::Phototoxic},
                                    {"invasive", Kind::Invasive},
                                    {"thorny", Kind::Thorny}},
                                   required())
                     .value_or(caution.kind);
  caution.text = table.text("text", required(), kSentence).value_or("");
  caution.handling = table.text("handling", required(), kSentence).value_or("");
  table.finish();
  return caution;
}

class SheetReader {
 public:
  SheetReader(TomlTable& file, Diagnostics& diagnostics) : file_(file), diagnostics_(diagnostics) {}

  Sheet read() {
    file_.whole_number("format", required("format = 1"), {1, 1});
    read_names();
    read_trade_figures();
    read_seed();
    sheet_.pinch = read_pinch(file_);
    sheet_.pretreat = read_pretreatment(file_);
    sheet_.growth = read_growth(file_);
    sheet_.second_flush = read_second_flush(file_);
    sheet_.prune = read_yearly_job(file_, "prune");
    sheet_.divide = read_yearly_job(file_, "divide");
    sheet_.lift_and_store = read_yearly_job(file_, "lift_and_store");
    sheet_.cut_back = read_yearly_job(file_, "cut_back");
    read_lists();
    check_coverage();
    file_.finish();
    return std::move(sheet_);
  }

 private:
  void read_names() {
    sheet_.name = file_.text("name", required()).value_or("");
    sheet_.aliases = words_of(file_.strings("aliases"));
    sheet_.botanical_name = file_.text("botanical_name", required()).value_or("");
    sheet_.family = file_.text("family", required()).value_or("");
    sheet_.life_cycle =
        file_
            .choice<LifeCycle>("life_cycle",
                               {{to_string(LifeCycle::HardyAnnual), LifeCycle::HardyAnnual},
                                {to_string(LifeCycle::HalfHardyAnnual), LifeCycle::HalfHardyAnnual},
                                {to_string(LifeCycle::TenderAnnual), LifeCycle::TenderAnnual},
                                {to_string(LifeCycle::Biennial), LifeCycle::Biennial},
                                {to_string(LifeCycle::Perennial), LifeCycle::Perennial},
                                {to_string(LifeCycle::Bulb), LifeCycle::Bulb},
                                {to_string(LifeCycle::Corm), LifeCycle::Corm},
                                {to_string(LifeCycle::Tuber), LifeCycle::Tuber},
                                {to_string(LifeCycle::Shrub), LifeCycle::Shrub}},
                               required())
            .value_or(LifeCycle::HardyAnnual);
  }

  void read_trade_figures() {
    sheet_.coldest_survived_c =
        file_.number("coldest_survived_c", required(), kCelsius).value_or(0);
    sheet_.coldest_under_fleece_c = file_.number("coldest_under_fleece_c", kOptional, kCelsius);
    sheet_.spacing_cm = file_.range("spacing_cm", required(), kPositive).value_or(Range{});
    sheet_.depth_mm = file_.number("depth_mm", kOptional, kNotNegative);
    sheet_.height_cm = file_.range("height_cm", required(), kPositive).value_or(Range{});
    sheet_.colours = words_of(file_.strings("colours", required()));
    sheet_.vase_days = file_.range("vase_days", required(), kPositive).value_or(Range{});
    sheet_.cut_stage = file_.text("cut_stage", required(), kSentence).value_or("");
    sheet_.stems_per_plant =
        file_.range("stems_per_plant", required(), kNotNegative).value_or(Range{});
    sheet_.cutting_weeks = file_.range("cutting_weeks", required(), kPositive).value_or(Range{});
    sheet_.habit = file_
                       .choice<Habit>("habit",
                                      {{to_string(Habit::Single), Habit::Single},
                                       {to_string(Habit::Limited), Habit::Limited},
                                       {to_string(Habit::CutAndComeAgain), Habit::CutAndComeAgain}},
                                      required())
                       .value_or(sheet_.habit);
    sheet_.stop_above_max_c = file_.number("stop_above_max_c", kOptional, kCelsius);
    sheet_.support = file_
                         .choice<Sheet::Support>("support", {{"no", Sheet::Support::No},
                                                             {"light", Sheet::Support::Light},
                                                             {"yes", Sheet::Support::Yes}})
                         .value_or(Sheet::Support::No);
    sheet_.fewest_cutting_days = file_.whole_number("fewest_cutting_days", kOptional, kCount);
    sheet_.fewest_days_from_sowing =
        file_.whole_number("fewest_days_from_sowing", kOptional, kCount);
    sheet_.productive_years = file_.whole_number("productive_years", kOptional, kCount);
    sheet_.rotation_years = file_.whole_number("rotation_years", kOptional, {0, 100});
    sheet_.succession_gap_days = file_.number("succession_gap_days", kOptional, {1, 365});
    read_roles();
  }

  void read_roles() {
    const std::vector<Role> roles = {Role::Focal, Role::Secondary, Role::Line, Role::Filler,
                                     Role::Foliage};
    for (const PlacedText& word : file_.strings("roles", required("roles = [\"filler\"]"))) {
      const auto found =
          std::ranges::find_if(roles, [&](Role role) { return to_string(role) == word.text; });
      if (found != roles.end()) {
        sheet_.roles.push_back(*found);
      } else {
        diagnostics_.error(word.at, fmt::format("'{}' is no role in a vase", word.text),
                           "the roles are focal, secondary, line, filler and foliage");
      }
    }
    if (file_.has("roles") && sheet_.roles.empty()) file_.error("roles", "'roles' names no role");
  }

  void read_seed() {
    using Light = Sheet::Light;
    sheet_.light =
        file_
            .choice<Light>(
                "light", {{"light", Light::Light}, {"dark", Light::Dark}, {"cover", Light::Cover}})
            .value_or(Light::Cover);
    sheet_.germination_days = file_.range("germination_days", kOptional, kPositive);
    sheet_.germination_c = file_.range("germination_c", kOptional, kCelsius);
    sheet_.oldest_pot_weeks = file_.number("oldest_pot_weeks", kOptional, kPositive);
  }

  void read_lists() {
    std::set<std::string> names;
    for (TomlTable& table : file_.tables("group")) {
      sheet_.groups.push_back(read_group(table));
      if (!names.insert("group " + sheet_.groups.back().name).second) {
        table.error("name", fmt::format("there are two groups '{}'", sheet_.groups.back().name));
      }
    }
    for (TomlTable& table : file_.tables("way", required("[[way]]"))) {
      sheet_.ways.push_back(read_way(table));
      if (!names.insert("way " + sheet_.ways.back().name).second) {
        table.error("name", fmt::format("there are two ways '{}'", sheet_.ways.back().name));
      }
    }
    for (TomlTable& table : file_.tables("caution")) {
      sheet_.cautions.push_back(read_caution(table));
    }
    for (TomlTable& table : file_.tables("source", required("[[source]]"))) read_source(table);
  }

  void read_source(TomlTable& table) {
    using Kind = Source::Kind;
    Source source;
    const auto kind = table.choice<Kind>("kind",
                                         {{"published", Kind::Published},
                                          {"common practice", Kind::CommonPractice},
                                          {"memory", Kind::Memory}},
                                         required());
    source.kind = kind.value_or(source.kind);
    source.name = table.text("name", {.required = kind == Kind::Published}, kSentence).value_or("");
    for (PlacedText& key : table.strings("covers", required("covers = [\"*\"]"), kSentence)) {
      source.covers.push_back(key.text);
      covered_.push_back(std::move(key));
    }
    table.finish();
    sheet_.sources.push_back(std::move(source));
  }

  // Every figure has a source, and every source speaks of something that is there.
  void check_coverage() {
    const std::vector<KeyPath> paths = file_.key_paths();
    for (const KeyPath& path : paths) {
      const bool is_covered = std::ranges::any_of(
          covered_, [&](const PlacedText& entry) { return covers(entry.text, path.path); });
      if (!path.is_number || path.path == "format" || is_covered) continue;
      diagnostics_.error(path.at, fmt::format("no source covers '{}'", path.path),
                         "name it in the 'covers' of a [[source]]");
    }
    for (const PlacedText& entry : covered_) {
      const bool speaks = std::ranges::any_of(
          paths, [&](const KeyPath& path) { return covers(entry.text, path.path); });
      if (!speaks) {
        diagnostics_.error(
            entry.at, fmt::format("'covers' names '{}', which is not in this sheet", entry.text));
      }
    }
  }

  TomlTable& file_;
  Diagnostics& diagnostics_;
  Sheet sheet_;
  std::vector<PlacedText> covered_;
};

}  // namespace

std::optional<Sheet> read_sheet(std::string_view text, const std::string& path,
                                Diagnostics& diagnostics) {
  const std::size_t errors_before = diagnostics.error_count();
  auto file = TomlTable::parse(text, path, diagnostics);
  if (!file) return std::nullopt;
  Sheet sheet = SheetReader(*file, diagnostics).read();
  if (diagnostics.error_count() > errors_before) return std::nullopt;
  sheet.figures = file->canonical({"source", "caution"});
  return sheet;
}

}  // namespace trug::read
