// SPDX-License-Identifier: MIT
#include "read/bed_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/text.h"
#include "base/words.h"
#include "read/crop_reader.h"
#include "read/units.h"

namespace trug::read {
namespace {

constexpr Millimetres kLongestBed{1'000'000};
constexpr Millimetres kWidestBed{100'000};

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
    // Lengths are rounded to the millimetre, each by itself.
    const int over = (stretch.offset + stretch.length).value() - bed.length.value();
    const auto stretches = static_cast<int>(bed.stretches.size()) + 1;
    if (over > 0 && over <= stretches && over < stretch.length.value()) {
      stretch.length = Millimetres{stretch.length.value() - over};
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
      for (TomlTable& crop : table.tables("crop"))
        add(stretch, read_crop(crop, sheets_, diagnostics_, homes_, flowering_year_));
    }
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
    check_before(stretch, entry);
    crops_.emplace_back(stretch, std::move(entry));
  }

  bool stands(const CropEntry& entry) const {
    return entry.since && *entry.since < flowering_year_;
  }

  // On a stretch each crop follows the one before, and nothing new is before what stands there.
  void check_before(std::size_t stretch, const CropEntry& entry) {
    if (crops_.empty() || crops_.back().first != stretch) return;
    const CropEntry& before = crops_.back().second;
    if (!stands(entry) || stands(before)) return;
    diagnostics_.error(entry.at,
                       fmt::format("{} stands here since {}: {} cannot be grown before it",
                                   entry.crop, *entry.since, before.crop),
                       "write what stands first on its stretch: the crops follow one another");
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

void read_beds(TomlTable& file, SheetLibrary& sheets, Diagnostics& diagnostics,
               std::span<const KeyHome> homes, Plan& plan) {
  BedReader reader(sheets, diagnostics, homes, plan.flowering_year);
  for (TomlTable& table : file.tables("bed")) reader.read(table, plan);
}

}  // namespace trug::read
