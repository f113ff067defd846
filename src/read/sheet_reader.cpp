// SPDX-License-Identifier: MIT
#include "read/sheet_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>
#include <vector>

#include "base/date.h"
#include "read/sheet_reader_growth.h"
#include "read/sheet_reader_ways.h"
#include "read/toml_table.h"

namespace trug::read {
namespace {

std::vector<std::string> words_of(const std::vector<PlacedText>& placed) {
  std::vector<std::string> words;
  for (const PlacedText& entry : placed) words.push_back(entry.text);
  return words;
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

Buying read_buying(TomlTable& parent) {
  Buying buying;
  auto table = parent.table("buy");
  if (!table) return buying;
  if (const auto word = table->text("month")) {
    if (const auto month = parse_month(*word)) {
      buying.month = static_cast<unsigned>(*month);
    } else {
      table->error("month", fmt::format("'{}' is no month; write \"July\"", *word));
    }
  }
  buying.packet_seeds = table->whole_number("packet_seeds", kOptional, {1, 100000});
  buying.comes_up = table->number("comes_up", kOptional, {0.05, 1});
  table->finish();
  return buying;
}

void read_support(TomlTable& file, Sheet& sheet) {
  using enum Sheet::Support;
  sheet.support = file.choice<Sheet::Support>("support", {{"no", No},
                                                          {"light", Light},
                                                          {"net", Net},
                                                          {"stakes", Stakes},
                                                          {"frame", Frame},
                                                          {"ring", Ring},
                                                          {"yes", Net}})
                      .value_or(No);
}

// How it is worked: what its jobs and their texts need to know.
void read_work(TomlTable& file, Sheet& sheet) {
  sheet.arrangement = file.choice("arrangement", kArrangements).value_or(Arrangement::Block);
  if (sheet.arrangement == Arrangement::Rows) {
    sheet.row_cm = file.number("row_cm", required("row_cm = 30"), {1, 200});
  }
  sheet.planting = file.text("planting", kOptional, kSentence);
  sheet.dead_head = file.boolean("dead_head").value_or(false);
  sheet.lean_soil = file.boolean("lean_soil").value_or(false);
  sheet.stays_under = file.boolean("stays_under").value_or(false);
  if (auto table = file.table("disbud")) {
    sheet.disbud = Disbud{table->number("weeks_before_cut", required(), {0, 20}).value_or(0),
                          table->text("text", required(), kSentence).value_or("")};
    table->finish();
  }
  if (auto table = file.table("pods")) {
    sheet.pods = Pods{table->number("weeks_after_cut", required(), {0, 30}).value_or(0),
                      table->boolean("are_chief").value_or(false)};
    table->finish();
  }
  if (auto table = file.table("sign")) {
    for (const std::string_view job : kSignedJobs) {
      if (const auto sign = table->text(job, kOptional, kSentence)) {
        sheet.signs.emplace(job, *sign);
      }
    }
    table->finish();
  }
}

class SheetReader {
 public:
  SheetReader(TomlTable& file, Diagnostics& diagnostics) : file_(file), diagnostics_(diagnostics) {}

  Sheet read() {
    kind_.format = file_.whole_number("format", required("format = 2"), {1, 2}).value_or(2);
    sheet_.format = kind_.format;
    read_names();
    kind_.life_cycle = sheet_.life_cycle;
    read_hardiness(file_, kind_, sheet_);
    read_trade_figures();
    read_seed();
    sheet_.pinch = read_pinch(file_, kind_);
    sheet_.pretreat = read_pretreatment(file_);
    sheet_.growth = read_growth(file_, kind_);
    if (kind_.format > 1) read_format_2();
    sheet_.second_flush = read_second_flush(file_);
    sheet_.prune = read_yearly_job(file_, "prune");
    sheet_.divide = read_yearly_job(file_, "divide");
    sheet_.lift_and_store = read_yearly_job(file_, "lift_and_store");
    sheet_.cut_back = read_yearly_job(file_, "cut_back");
    sheet_.buy = read_buying(file_);
    read_work(file_, sheet_);
    read_lists();
    check_coverage();
    file_.finish();
    return std::move(sheet_);
  }

 private:
  void read_names() {
    sheet_.name = file_.text("name", required()).value_or("");
    sheet_.aliases = words_of(file_.strings("aliases"));
    sheet_.plural = file_.text("plural").value_or("");
    sheet_.botanical_name = file_.text("botanical_name", required()).value_or("");
    sheet_.family = file_.text("family", required()).value_or("");
    sheet_.life_cycle =
        file_.choice("life_cycle", kLifeCycles, required()).value_or(LifeCycle::HardyAnnual);
  }

  void read_trade_figures() {
    sheet_.spacing_cm = file_.range("spacing_cm", required(), kPositive).value_or(Range{});
    sheet_.depth_mm = file_.number("depth_mm", kOptional, kNotNegative);
    sheet_.height_cm = file_.range("height_cm", required(), kPositive).value_or(Range{});
    sheet_.colours = words_of(file_.strings("colours", required()));
    sheet_.vase_days = file_.range("vase_days", required(), kPositive).value_or(Range{});
    sheet_.cut_stage = file_.text("cut_stage", required(), kSentence).value_or("");
    sheet_.stems_per_plant =
        file_.range("stems_per_plant", required(), kNotNegative).value_or(Range{});
    sheet_.cutting_weeks = file_.range("cutting_weeks", required(), kPositive).value_or(Range{});
    sheet_.habit = file_.choice("habit", kHabits, required()).value_or(sheet_.habit);
    sheet_.stop_above_max_c = file_.number("stop_above_max_c", kOptional, kCelsius);
    read_support(file_, sheet_);
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
    if (kind_.format == 1) {
      sheet_.oldest_pot_weeks = file_.number("oldest_pot_weeks", kOptional, kPositive);
    }
  }

  // What sheets of format 1 do not say.
  void read_format_2() {
    sheet_.chill = read_chill(file_);
    sheet_.emergence = read_emergence(file_);
    sheet_.pot = read_pot(file_);
    sheet_.germination_max_soil_c = file_.number("germination_max_soil_c", kOptional, kCelsius);
    sheet_.when_hot =
        file_.choice("when_hot", kWhenHot, {.required = file_.has("stop_above_max_c")})
            .value_or(WhenHot::Ends);
    sheet_.lives_to_mean_max_c = file_.number("lives_to_mean_max_c", kOptional, kCelsius);
    sheet_.usual = read_usual(file_);
    sheet_.first_cut_year = file_.whole_number("first_cut_year", kOptional, kCount).value_or(1);
    sheet_.full_cut_year = file_.whole_number("full_cut_year", kOptional, kCount)
                               .value_or(std::max(2, sheet_.first_cut_year));
    if (sheet_.full_cut_year < sheet_.first_cut_year) {
      file_.error("full_cut_year", "it is cut in full no sooner than it is first cut");
    }
  }

  void read_lists() {
    std::set<std::string> names;
    for (TomlTable& table : file_.tables("group")) {
      sheet_.groups.push_back(read_group(table, kind_));
      if (!names.insert("group " + sheet_.groups.back().name).second) {
        table.error("name", fmt::format("there are two groups '{}'", sheet_.groups.back().name));
      }
    }
    for (TomlTable& table : file_.tables("way", required("[[way]]"))) {
      sheet_.ways.push_back(read_way(table, kind_));
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
  SheetKind kind_;
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
  sheet.figures = file->canonical({"source", "caution", "buy", "sign", "planting", "plural"});
  return sheet;
}

}  // namespace trug::read
