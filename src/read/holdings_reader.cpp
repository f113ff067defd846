// SPDX-License-Identifier: MIT
#include "read/holdings_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "base/text.h"
#include "read/crop_reader.h"
#include "read/units.h"

namespace trug::read {
namespace {

constexpr int kOldestSince = 1900;

// Where a happening stands in a plant's life; equal ones may come in any order. Those that end it
// come last. NotDone stands outside the order.
int step(Happening what) {
  switch (what) {
    case Happening::NotDone:
      return 0;
    case Happening::Sown:
      return 1;
    case Happening::Planted:
    case Happening::Pinched:
    case Happening::PlantedOut:
      return 2;
    case Happening::FirstCut:
      return 3;
    case Happening::Cut:
      return 4;
    case Happening::Lifted:
    case Happening::Failed:
      return 5;
  }
  return 0;
}

// Whether a start can have it twice.
bool may_repeat(Happening what) { return what == Happening::Cut || what == Happening::NotDone; }

// "Plant out" as "plant-out".
std::optional<std::string> word_of_job(std::optional<std::string> text) {
  if (!text) return text;
  std::string word = folded(*text);
  std::ranges::replace(word, ' ', '-');
  return word;
}

class HappenedReader {
 public:
  HappenedReader(Diagnostics& diagnostics, SheetLibrary& sheets, std::span<const KeyHome> homes,
                 Plan& plan)
      : diagnostics_(diagnostics), sheets_(sheets), homes_(homes), plan_(plan) {}

  void read(TomlTable& table) {
    const auto name = table.text("planting", required("planting = \"west bed/zinnia\""));
    Happened happened;
    happened.at = table.at();
    const auto what = table.choice("what", kHappenings, required("what = \"sown\""));
    const auto on = table.date("on", required("on = 2027-04-18"));
    happened.stems = table.whole_number("stems", kOptional, {0, 100'000});
    happened.job = word_of_job(table.text("job"));
    happened.note = table.text("note", kOptional, 500);
    happened.succession = table.whole_number("succession", kOptional, {1, 30}).value_or(0);
    table.finish(homes_);
    if (!name || !what || !on) return;
    happened.what = *what;
    happened.on = *on;
    if (happened.stems && happened.what != Happening::Cut) {
      table.error("stems", "'stems' belongs to what = \"cut\"");
      return;
    }
    if (happened.job && happened.what != Happening::NotDone) {
      table.error("job", "'job' belongs to what = \"not-done\"");
      return;
    }
    if (Planting* planting = find(*name, table)) add(*planting, std::move(happened), table);
  }

  // When all have been read: which start each belongs to, and whether they can all be true.
  void finish() {
    for (Planting& planting : plan_.plantings) {
      count_starts(planting);
      for (std::size_t i = 0; i < planting.happened.size(); ++i) {
        if (is_impossible(planting, i)) break;
      }
    }
  }

 private:
  Planting* find(const std::string& name, TomlTable& table) {
    const auto found = std::ranges::find(plan_.plantings, folded(name),
                                         [](const Planting& p) { return folded(p.name); });
    if (found != plan_.plantings.end()) return &*found;
    // By the bed's id, where it has a new name since.
    const auto by_id = std::ranges::find(plan_.plantings, folded(name), [&](const Planting& p) {
      const Bed* bed = bed_of(plan_, p);
      return bed == nullptr ? std::string()
                            : folded(bed_identity(*bed) + "/" + p.asked.id.value_or(p.asked.crop));
    });
    if (by_id != plan_.plantings.end()) return &*by_id;
    std::vector<std::string> names, meant;
    for (const Planting& planting : plan_.plantings) {
      names.push_back(planting.name);
      if (folded(planting.name).ends_with("/" + folded(name))) meant.push_back(planting.name);
    }
    table.error("planting", fmt::format("the plan has no planting '{}'", name),
                names.empty()   ? "it has none at all"
                : meant.empty() ? "there are " + listed(names)
                                : "write " + listed(meant, "or"));
    return nullptr;
  }

  void add(Planting& planting, Happened happened, TomlTable& table) {
    const auto sowings = planting.asked.successions;
    if (sowings != 1 && happened.succession == 0) {
      const std::string times = sowings ? fmt::format("{} times", *sowings) : "all season";
      table.error("planting", fmt::format("{} is sown {}", planting.name, times),
                  "say which: succession = 1");
      return;
    }
    if (sowings && happened.succession > *sowings) {
      table.error("succession",
                  fmt::format("{} is sown {}", planting.name, counted(*sowings, "time")));
      return;
    }
    if (sowings == 1) happened.succession = 0;
    if (year_of(happened.on) < plan_.flowering_year - 2) {
      table.error("on",
                  fmt::format("{} is of an earlier year than this plan's", plain_day(happened.on)));
      return;
    }
    planting.happened.insert(
        std::ranges::upper_bound(planting.happened, happened.on, {}, &Happened::on),
        std::move(happened));
  }

  // What comes after a failure belongs to another start.
  static void count_starts(Planting& planting) {
    std::map<int, int> repeats;  // by succession
    for (Happened& happened : planting.happened) {
      happened.repeat = repeats[happened.succession];
      if (happened.what == Happening::Failed) ++repeats[happened.succession];
    }
  }

  // Reported at the later one, naming the other's line.
  bool is_impossible(const Planting& planting, std::size_t index) {
    const Happened& happened = planting.happened[index];
    Beginning beginning;
    for (std::size_t i = 0; i <= index; ++i) {
      const Happened& other = planting.happened[i];
      if (other.succession != happened.succession || other.repeat != happened.repeat) continue;
      beginning.sown |= other.what == Happening::Sown;
      beginning.planted |= other.what == Happening::Planted;
      beginning.planted_out |= other.what == Happening::PlantedOut;
      if (i < index && contradicts(other, happened)) return true;
    }
    return began_where_it_stands(planting, happened) ||
           began_as_nothing_is(planting, happened, beginning);
  }

  bool contradicts(const Happened& other, const Happened& happened) {
    const int a = step(other.what), b = step(happened.what);
    const bool twice = other.what == happened.what && !may_repeat(happened.what);
    const bool out_of_order = a != 0 && b != 0 && a > b && other.on < happened.on;
    if (!twice && !out_of_order) return false;
    const std::string what(word_of(kHappenings, happened.what));
    diagnostics_.error(
        happened.at,
        fmt::format("{} on {}: line {} has it {} on {}", what, plain_day(happened.on),
                    other.at.line, word_of(kHappenings, other.what), plain_day(other.on)),
        twice ? "take one of the two out"
              : "a plant is sown, planted out, cut and lifted in this order");
    return true;
  }

  bool began_where_it_stands(const Planting& planting, const Happened& happened) {
    const auto& since = planting.asked.since;
    const int which = step(happened.what);
    if (!since || which < 1 || which > 2 || happened.what == Happening::Pinched) return false;
    diagnostics_.error(happened.at,
                       fmt::format("{} on {}: line {} has it stand there since {}",
                                   word_of(kHappenings, happened.what), plain_day(happened.on),
                                   planting.asked.at.line, *since),
                       "take one of the two out");
    return true;
  }

  bool began_as_nothing_is(const Planting& planting, const Happened& happened,
                           Beginning beginning) {
    const Sheet* sheet = sheets_.find(planting.asked.crop, diagnostics_);
    if (!sheet || step(happened.what) > 2 ||
        !(beginning.sown || beginning.planted || beginning.planted_out) ||
        std::ranges::any_of(sheet->ways,
                            [&](const Way& way) { return can_have(way, beginning); })) {
      return false;
    }
    std::vector<std::string> ways;
    for (const Way& way : sheet->ways) {
      if (way.method != Method::Established) ways.push_back(fmt::format("'{}'", way.name));
    }
    diagnostics_.error(
        happened.at,
        fmt::format("{} is never {} like that", sheet->name, word_of(kHappenings, happened.what)),
        "its sheet has " + listed(ways));
    return true;
  }

  Diagnostics& diagnostics_;
  SheetLibrary& sheets_;
  std::span<const KeyHome> homes_;
  Plan& plan_;
};

}  // namespace

void read_shelter(TomlTable& table, std::span<const KeyHome> homes, Plan& plan) {
  Shelter& shelter = plan.shelter;
  shelter.given = true;
  shelter.at = table.at();
  plan.place.heated_c = read_celsius(table, "heated", {0, 40}).value_or(plan.place.heated_c);
  shelter.heated_trays = table.number("heated_trays", kOptional, {0, 10'000}).value_or(0);
  shelter.frame_m2 = table.number("frame_m2", kOptional, {0, 10'000}).value_or(0);
  shelter.nursery_m2 = table.number("nursery_m2", kOptional, {0, 10'000}).value_or(0);
  table.finish(homes);
}

std::optional<int> read_since(TomlTable& table, int flowering_year) {
  const auto year = table.whole_number("since", kOptional, {kOldestSince, 2098});
  if (year && *year > flowering_year) {
    table.error("since", fmt::format("'since' is after the flowering year, {}", flowering_year),
                "leave it out, and it is planted like anything else");
  }
  return year;
}

void read_elsewhere(TomlTable& file, SheetLibrary& sheets, Diagnostics& diagnostics,
                    std::span<const KeyHome> homes, Plan& plan) {
  std::set<std::string> names;
  for (TomlTable& table : file.tables("elsewhere")) {
    CropEntry entry;
    entry.at = table.at();
    const auto crop = table.text("crop", required("crop = \"rose\""));
    entry.crop = crop.value_or("");
    const Sheet* sheet =
        crop ? resolve_crop(entry, table.at("crop"), sheets, diagnostics) : nullptr;
    entry.id = table.text("name");
    entry.plants = table.whole_number("plants", required("plants = 2"), {1, 100'000});
    entry.person = table.text("person");
    entry.since = read_since(table, plan.flowering_year);
    table.finish(homes);
    if (!sheet) continue;
    if (!names.insert(folded(entry.id.value_or(entry.crop))).second) {
      diagnostics.error(entry.at,
                        fmt::format("there is another {} elsewhere: the two could be confused",
                                    entry.id.value_or(entry.crop)),
                        fmt::format("give this one a name: name = \"front {}\"", entry.crop));
      continue;
    }
    add_elsewhere(plan, std::move(entry));
  }
}

void read_have(TomlTable& file, SheetLibrary& sheets, Diagnostics& diagnostics,
               std::span<const KeyHome> homes, Plan& plan) {
  for (TomlTable& table : file.tables("have")) {
    CropEntry entry;
    InHand held;
    held.at = table.at();
    const auto crop = table.text("crop", required("crop = \"nigella\""));
    entry.crop = crop.value_or("");
    if (crop) resolve_crop(entry, table.at("crop"), sheets, diagnostics);
    held.crop = entry.crop;
    const auto what = table.choice<Held>("what",
                                         {{"seed", Held::Seed},
                                          {"bulbs", Held::Bulbs},
                                          {"corms", Held::Bulbs},
                                          {"tubers", Held::Bulbs},
                                          {"plants", Held::Plants}},
                                         required("what = \"seed\""));
    held.what = what.value_or(Held::Seed);
    held.number =
        table.whole_number("number", required("number = 200"), {1, 1'000'000}).value_or(0);
    table.finish(homes);
    plan.have.push_back(std::move(held));
  }
}

void read_happened(TomlTable& file, SheetLibrary& sheets, Diagnostics& diagnostics,
                   std::span<const KeyHome> homes, Plan& plan) {
  HappenedReader reader(diagnostics, sheets, homes, plan);
  for (TomlTable& table : file.tables("happened")) reader.read(table);
  reader.finish();
}

}  // namespace trug::read
