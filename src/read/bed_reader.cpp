// SPDX-License-Identifier: MIT
#include "read/bed_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/text.h"
#include "base/words.h"
#include "read/holdings_reader.h"
#include "read/units.h"

namespace trug::read {
namespace {

constexpr Millimetres kLongestBed{1'000'000};
constexpr Millimetres kWidestBed{100'000};

constexpr Word<Cover> kCovers[] = {
    {Cover::None, "none"}, {Cover::Fleece, "fleece"}, {Cover::Tunnel, "tunnel"}};
static_assert(names_all(kCovers));

// Sizes beyond which a slip of the unit is likelier than such a bed. Written in centimetres they
// are taken as meant.
struct Doubt {
  std::string_view name;  // "length"
  std::string_view word;  // "long"
  Millimetres under;
  Millimetres over;
};
constexpr Doubt kLengthDoubt{"length", "long", Millimetres{200}, Millimetres{150'000}};
constexpr Doubt kWidthDoubt{"width", "wide", Millimetres{200}, Millimetres{10'000}};
constexpr Millimetres kLongStretch{10'000};  // longer ones may be centimetres
constexpr Millimetres kNoBed{100};           // shorter or narrower than this there is none

// Metres that were meant as centimetres, and the other way round.
void check_unit(const Doubt& doubt, Millimetres size, TomlTable& table, Diagnostics& diagnostics) {
  const std::string metres = fmt::format("{}_m", doubt.name);
  const std::string centimetres = fmt::format("{}_cm", doubt.name);
  const double cm = size.value() / 10.0;
  if (table.has(centimetres) && size < kNoBed) {
    table.error(centimetres, fmt::format("no bed is {} cm {}", number(cm), doubt.word),
                fmt::format("in metres? then write {} = {}", metres, number(cm, 3)));
  } else if (table.has(metres) && (size < doubt.under || size > doubt.over)) {
    const std::string meant =
        fmt::format("if that is so, {} = {} says it without this warning", centimetres, number(cm));
    diagnostics.warning(table.at(metres),
                        fmt::format("this bed is {} {}", in_metres(size), doubt.word),
                        size > doubt.over ? fmt::format("in centimetres? then write {} = {}; {}",
                                                        centimetres, number(cm / 100), meant)
                                          : meant);
  }
}

// Where a stretch's figure is short enough for its bed if it is taken for centimetres.
std::string centimetres_hint(std::string_view key, Millimetres stretch, Millimetres bed) {
  const bool fits = stretch.value() / 100 <= bed.value();
  if (key != "length_m" || stretch < kLongStretch || !fits) return {};
  return fmt::format("in centimetres? then write length_cm = {}", number(stretch.value() / 1000.0));
}

// The pins of a crop, which come in their order.
Pins read_pins(TomlTable& table) {
  Pins pins;
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
  return pins;
}

// Which names a bed's plantings have used.
struct PlantingNames {
  std::set<std::string> shown;                             // as the planting is named
  std::set<std::pair<std::string, std::string>> identity;  // crop, id or "1"
};

class BedReader {
 public:
  BedReader(SheetLibrary& sheets, Diagnostics& diagnostics, std::span<const KeyHome> homes,
            int flowering_year)
      : sheets_(sheets),
        diagnostics_(diagnostics),
        homes_(homes),
        flowering_year_(flowering_year) {}

  void read(TomlTable& table, Plan& plan) {
    Bed bed;
    crops_.clear();
    bed.at = table.at();
    bed.name = table.text("name", required("name = \"west bed\"")).value_or("");
    bed.id = table.text("id");
    check_bed_name(bed, table);
    const auto length =
        read_length(table, "length", kLongestBed, required("length_m = 5 or length_ft = 16.4"));
    const auto width =
        read_length(table, "width", kWidestBed, required("width_m = 1.2 or width_ft = 4"));
    bed.length = length.value_or(kLongestBed);
    bed.width = width.value_or(kWidestBed);
    if (length) check_unit(kLengthDoubt, *length, table, diagnostics_);
    if (width) check_unit(kWidthDoubt, *width, table, diagnostics_);
    bed.person = table.text("person");
    bed.cover = table.choice("cover", kCovers).value_or(Cover::None);
    names_ = {};
    for (TomlTable& stretch : table.tables("stretch")) read_stretch(bed, stretch);
    table.finish(homes_);
    plan.beds.push_back(std::move(bed));
    for (auto& [stretch, crop] : crops_) {
      add_planting(plan, plan.beds.size() - 1, stretch, std::move(crop));
    }
  }

 private:
  void check_bed_name(const Bed& bed, TomlTable& table) {
    for (const char* key : {"name", "id"}) {
      const auto& word = key == std::string_view("id") ? bed.id.value_or("") : bed.name;
      if (word.empty()) continue;
      const bool same_bed =
          bed.id && key == std::string_view("id") && folded(*bed.id) == folded(bed.name);
      if (!same_bed && !bed_names_.insert(folded(word)).second) {
        table.error(key, fmt::format("there is another bed '{}'", word),
                    "give each bed a name of its own");
      }
    }
  }

  void read_stretch(Bed& bed, TomlTable& table) {
    Stretch stretch;
    stretch.at = table.at();
    const auto length = read_length(table, "length", kLongestBed, required("length_m = 0.8"));
    stretch.length = length.value_or(Millimetres{});
    if (!bed.stretches.empty()) {
      stretch.offset = bed.stretches.back().offset + bed.stretches.back().length;
    }
    check_length(bed, stretch, table);
    read_crops(bed.stretches.size(), table);
    table.finish(homes_);
    bed.stretches.push_back(std::move(stretch));
  }

  // Reported once a bed: at the stretch that is too long, or at the first that reaches over the
  // end.
  void check_length(const Bed& bed, const Stretch& stretch, TomlTable& table) {
    const Millimetres end = stretch.offset + stretch.length;
    if (end <= bed.length || stretch.offset > bed.length) return;
    const auto keys = {"length_m", "length_cm", "length_ft", "length_in"};
    const auto key = std::ranges::find_if(keys, [&](const char* k) { return table.has(k); });
    if (stretch.length > bed.length) {
      table.error(*key,
                  fmt::format("this stretch is {} long, its bed '{}' only {}",
                              in_metres(stretch.length), bed.name, in_metres(bed.length)),
                  centimetres_hint(*key, stretch.length, bed.length));
    } else {
      table.error(*key,
                  fmt::format("the stretches of '{}' reach {} here, {} beyond its {}", bed.name,
                              in_metres(end), in_metres(end - bed.length), in_metres(bed.length)),
                  "stretches lie end to end from the bed's start");
    }
  }

  void read_crops(std::size_t stretch, TomlTable& table) {
    const bool has_list = table.has("crops");
    const bool has_long_form = table.has("crop");
    if (has_list && has_long_form) {
      table.error("crop", "a stretch has either 'crops' or [[bed.stretch.crop]], not both",
                  "move the names of 'crops' into [[bed.stretch.crop]] entries of their own");
    }
    if (has_list) {
      for (const PlacedText& word : table.strings("crops")) {
        CropEntry entry;
        entry.at = word.at;
        entry.crop = word.text;
        resolve_crop(entry, word.at, sheets_, diagnostics_);
        add(stretch, std::move(entry));
      }
    }
    if (has_long_form) {
      for (TomlTable& crop : table.tables("crop")) add(stretch, read_crop(crop));
    }
  }

  CropEntry read_crop(TomlTable& table) {
    CropEntry entry;
    entry.at = table.at();
    const auto crop = table.text("crop", required("crop = \"zinnia\""));
    entry.crop = crop.value_or("");
    const Sheet* sheet = crop ? resolve_crop(entry, table.at("crop"), sheets_, diagnostics_) : nullptr;
    entry.variety = table.text("variety");
    entry.group = table.text("group");
    entry.id = table.text("id");
    entry.plants = table.whole_number("plants", kOptional, {1, 100'000});
    entry.spacing_cm = read_spacing_cm(table, "spacing", {1, 500});
    for (const PlacedText& colour : table.strings("colours")) entry.colours.push_back(colour.text);
    entry.keep = table.boolean("keep").value_or(false);
    entry.successions = table.whole_number("successions", kOptional, {1, 30}).value_or(1);
    if (const auto weeks = table.number("gap_weeks", kOptional, {0.5, 26})) {
      entry.gap_days = static_cast<int>(std::lround(*weeks * 7));
    }
    entry.person = table.text("person");
    entry.since = read_since(table, flowering_year_);
    entry.pins = read_pins(table);
    refuse_for_now(table, "share", "give the crop a stretch of its own");
    if (sheet) check_against_sheet(entry, *sheet, table);
    if (entry.id && entry.id->find('/') != std::string::npos) {
      table.error("id", "an id may not hold '/'", "'/' stands between a bed and its planting");
    }
    table.finish(homes_);
    return entry;
  }

  void check_against_sheet(const CropEntry& entry, const Sheet& sheet, TomlTable& table) {
    std::vector<std::string> groups, ways;
    for (const Group& group : sheet.groups) groups.push_back(group.name);
    for (const Way& way : sheet.ways) ways.push_back(way.name);
    if (entry.group) check_word(table, "group", *entry.group, groups, sheet.name);
    if (entry.pins.way) check_word(table, "way", *entry.pins.way, ways, sheet.name);
    check_established(entry, sheet, table);
    if (entry.keep && !is_planted(sheet.life_cycle)) {
      table.error("keep",
                  fmt::format("'keep' is for bulbs, corms and tubers; {} is none", sheet.name));
    }
  }

  // What stands already is said with its year, never taken for granted.
  void check_established(const CropEntry& entry, const Sheet& sheet, TomlTable& table) {
    const auto way = std::ranges::find(sheet.ways, Method::Established, &Way::method);
    const bool can_stand = way != sheet.ways.end();
    if (entry.pins.way && can_stand && *entry.pins.way == way->name && !entry.since) {
      table.error("way", fmt::format("since when does {} stand there?", sheet.name),
                  fmt::format("write since = {} beside it, or leave the way out and it is planted",
                              flowering_year_ - 3));
    }
    if (entry.since && !can_stand && !is_planted(sheet.life_cycle)) {
      table.error("since", fmt::format("{} does not stand for years", sheet.name),
                  "'since' is for perennials, shrubs, bulbs, corms and tubers");
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

  // Two plantings whose names or identities are the same cannot be told apart from year to year.
  void add(std::size_t stretch, CropEntry entry) {
    const std::string shown = folded(entry.id.value_or(entry.crop));
    const bool is_new_identity = names_.identity.emplace(entry.crop, entry.id.value_or("1")).second;
    const bool is_new_name = names_.shown.insert(shown).second;
    if (!entry.crop.empty() && (!is_new_identity || !is_new_name)) {
      if (entry.id) {
        diagnostics_.error(entry.at, fmt::format("this bed has another planting '{}'", *entry.id),
                           "give it an id of its own");
      } else {
        diagnostics_.error(
            entry.at, fmt::format("this bed has {} already: the two could be confused", entry.crop),
            fmt::format("give this one an id in [[bed.stretch.crop]]: id = \"late {}\"",
                        entry.crop));
      }
    }
    crops_.emplace_back(stretch, std::move(entry));
  }

  SheetLibrary& sheets_;
  Diagnostics& diagnostics_;
  std::span<const KeyHome> homes_;
  int flowering_year_;
  std::set<std::string> bed_names_;
  PlantingNames names_;
  std::vector<std::pair<std::size_t, CropEntry>> crops_;  // of the bed, by stretch
};

}  // namespace

const Sheet* resolve_crop(CropEntry& entry, const Position& at, SheetLibrary& sheets,
                          Diagnostics& diagnostics) {
  const Sheet* sheet = sheets.find(entry.crop, diagnostics);
  if (sheet) {
    entry.crop = sheet->name;
  } else if (!sheets.has(entry.crop)) {
    const std::string near = sheets.nearest_name(entry.crop, diagnostics);
    diagnostics.error(at, fmt::format("there is no sheet for '{}'", entry.crop),
                      near.empty() ? "'trug crop' lists the crops by their English names; "
                                     "botanical names do too, and a sheet of your own goes "
                                     "into a folder crops/ beside the plan"
                                   : fmt::format("did you mean '{}'?", near));
  }
  return sheet;
}

void refuse_for_now(TomlTable& table, std::string_view key, std::string_view instead) {
  if (!table.has(key)) return;
  table.error(key, fmt::format("'{}' cannot be used yet", key), std::string(instead));
}

void read_beds(TomlTable& file, SheetLibrary& sheets, Diagnostics& diagnostics,
               std::span<const KeyHome> homes, Plan& plan) {
  BedReader reader(sheets, diagnostics, homes, plan.flowering_year);
  for (TomlTable& table : file.tables("bed")) reader.read(table, plan);
}

}  // namespace trug::read
