// SPDX-License-Identifier: MIT
// Every sheet of crops/: reads without a word, warns where it must, holds figures that can be true.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>

#include "crops/test_garden.h"
#include "growth/places.h"
#include "read/embedded_sheets.h"
#include "read/sheet_library.h"
#include "read/sheet_reader.h"

namespace trug {
namespace {

TEST(CropSheets, AllOfTheFolderAreInTheProgramAndReadWithoutAWord) {
  std::set<std::string> files, embedded;
  for (const auto& entry : std::filesystem::directory_iterator(TRUG_SOURCE_DIR "/crops")) {
    if (entry.path().extension() == ".toml") files.insert(entry.path().stem().string());
  }
  for (const read::EmbeddedSheet& one : read::embedded_sheets()) {
    SCOPED_TRACE(one.name);
    embedded.emplace(one.name);
    Diagnostics diagnostics;
    const auto sheet = read::read_sheet(one.text, std::string(one.name) + ".toml", diagnostics);
    EXPECT_EQ(diagnostics.render(), "");
    ASSERT_TRUE(sheet);
    std::string name = sheet->name;
    for (char& c : name) {
      if (c == ' ' || c == '-') c = '_';
    }
    EXPECT_EQ(name, one.name) << "a sheet's file is named after its crop";
  }
  EXPECT_EQ(files, embedded);
  EXPECT_GE(files.size(), 63u);
}

// Common names of several crops: who writes one is asked which is meant.
const std::set<std::string> kSharedNames = {"scabious", "scabiosa", "pincushion flower", "phlox",
                                            "aster",    "poppy",    "queen anne's lace"};

TEST(CropSheets, ANameMeansOneCropOrIsAskedAbout) {
  std::map<std::string, std::set<std::string>> named;
  for (const Sheet* one : all_sheets()) {
    std::set<std::string> own(one->aliases.begin(), one->aliases.end());
    EXPECT_EQ(own.size(), one->aliases.size()) << one->name;
    own.insert(one->name);
    for (const std::string& name : own) named[name].insert(one->name);
  }
  for (const auto& [name, crops] : named) {
    EXPECT_EQ(crops.size() > 1, kSharedNames.contains(name)) << name << " of " << *crops.begin();
    EXPECT_TRUE(crops.size() == 1 || !crops.contains(name)) << name;
  }
  read::SheetLibrary library;
  Diagnostics diagnostics;
  EXPECT_EQ(library.find("Scabious", diagnostics), nullptr);
  EXPECT_EQ(library.what_to_write("Scabious", diagnostics),
            "annual scabious and perennial scabious are so called: write the one you mean");
  for (const auto& [other, crop] :
       {std::pair("mums", "chrysanthemum"), std::pair("Bachelor's button", "cornflower"),
        std::pair("montbretia", "crocosmia")}) {
    const Sheet* found = library.find(other, diagnostics);
    ASSERT_TRUE(found) << other;
    EXPECT_EQ(found->name, crop);
  }
}

// What nurseries sell because few raise it, or as roots, divisions and cuttings: common practice.
const std::set<std::string> kBoughtAsPlants = {"alchemilla",
                                               "astrantia",
                                               "border phlox",
                                               "chrysanthemum",
                                               "helenium",
                                               "hydrangea",
                                               "lisianthus",
                                               "japanese anemone",
                                               "michaelmas daisy",
                                               "mint",
                                               "peony",
                                               "physocarpus",
                                               "rose",
                                               "sedum"};

TEST(CropSheets, PlantsAreBoughtWhereTheTradeStartsFromThemOrThePlanAsks) {
  const TestGarden garden;
  for (const Sheet* sheet : all_sheets()) {
    const auto unasked = garden.ask(sheet->name).reports;
    for (std::size_t i = 0; i < sheet->ways.size(); ++i) {
      const Way& way = sheet->ways[i];
      if (way.method != Method::BoughtPlants) continue;
      SCOPED_TRACE(sheet->name + ", " + way.name);
      const auto refused = [&](const std::vector<ground::WayReport>& reports) {
        return std::ranges::any_of(reports, [&](const ground::WayReport& report) {
          return report.way == i && report.refusal &&
                 report.refusal->rule == ground::Rule::NotUsual;
        });
      };
      EXPECT_NE(refused(unasked), kBoughtAsPlants.contains(sheet->name));
      CropEntry entry{.crop = sheet->name};
      entry.pins.way = way.name;
      EXPECT_FALSE(refused(garden.ask(sheet->name, "", entry).reports));
    }
  }
}

using CautionKind = Caution::Kind;

// Genera that must carry a caution whatever else they carry. Poisonous or irritant: University of
// California, Davis, Safe and poisonous garden plants (2012); Royal Horticultural Society,
// potentially harmful garden plants; the rest, and what is invasive, common practice.
struct Genus {
  std::string name;
  std::vector<CautionKind> kinds;
};

const Genus kGenera[] = {
    {"Achillea", {CautionKind::Irritant, CautionKind::Poisonous}},
    {"Aconitum", {CautionKind::Poisonous}},
    {"Agrostemma", {CautionKind::Poisonous}},
    {"Alchemilla", {CautionKind::Invasive}},
    {"Allium", {CautionKind::Poisonous}},
    {"Alstroemeria", {CautionKind::Irritant}},
    {"Ammi", {CautionKind::Phototoxic}},
    {"Anemone", {CautionKind::Irritant, CautionKind::Poisonous}},
    {"Anethum", {CautionKind::Phototoxic}},
    {"Briza", {CautionKind::Invasive}},
    {"Chrysanthemum", {CautionKind::Irritant, CautionKind::Poisonous}},
    {"Colchicum", {CautionKind::Poisonous}},
    {"Consolida", {CautionKind::Poisonous}},
    {"Convallaria", {CautionKind::Poisonous}},
    {"Crocosmia", {CautionKind::Invasive}},
    {"Dahlia", {CautionKind::Irritant, CautionKind::Poisonous}},
    {"Daucus", {CautionKind::Phototoxic}},
    {"Delphinium", {CautionKind::Poisonous}},
    {"Digitalis", {CautionKind::Poisonous}},
    {"Erysimum", {CautionKind::Poisonous}},
    {"Eucalyptus", {CautionKind::Poisonous}},
    {"Euphorbia", {CautionKind::Irritant, CautionKind::Poisonous}},
    {"Gladiolus", {CautionKind::Poisonous}},
    {"Helenium", {CautionKind::Poisonous, CautionKind::Irritant}},
    {"Helleborus", {CautionKind::Poisonous}},
    {"Hesperis", {CautionKind::Invasive}},
    {"Hydrangea", {CautionKind::Poisonous}},
    {"Iris", {CautionKind::Poisonous}},
    {"Lathyrus", {CautionKind::Poisonous}},
    {"Lilium", {CautionKind::Poisonous}},
    {"Lunaria", {CautionKind::Invasive}},
    {"Lupinus", {CautionKind::Poisonous}},
    {"Mentha", {CautionKind::Invasive, CautionKind::Poisonous}},
    {"Myosotis", {CautionKind::Invasive}},
    {"Narcissus", {CautionKind::Poisonous}},
    {"Nicotiana", {CautionKind::Poisonous}},
    {"Nigella", {CautionKind::Poisonous}},
    {"Orlaya", {CautionKind::Irritant}},
    {"Paeonia", {CautionKind::Poisonous}},
    {"Papaver", {CautionKind::Poisonous}},
    {"Ranunculus", {CautionKind::Poisonous, CautionKind::Irritant}},
    {"Ricinus", {CautionKind::Poisonous}},
    {"Rosa", {CautionKind::Thorny}},
    {"Symphyotrichum", {CautionKind::Invasive}},
    {"Tagetes", {CautionKind::Irritant}},
    {"Tanacetum", {CautionKind::Irritant, CautionKind::Poisonous}},
    {"Tulipa", {CautionKind::Irritant}},
    {"Verbena", {CautionKind::Invasive}},
};

TEST(CropSheets, CarryTheirCautions) {
  int met = 0;
  for (const Genus& genus : kGenera) {
    for (const Sheet* one : all_sheets()) {
      if (!one->botanical_name.starts_with(genus.name + " ") &&
          !one->botanical_name.starts_with(genus.name + ",")) {
        continue;
      }
      SCOPED_TRACE(one->name);
      ++met;
      for (const CautionKind kind : genus.kinds) {
        EXPECT_TRUE(
            std::ranges::any_of(one->cautions, [&](const auto& c) { return c.kind == kind; }))
            << "no caution of kind " << static_cast<int>(kind);
      }
      for (const auto& caution : one->cautions) {
        EXPECT_FALSE(caution.handling.empty());
      }
    }
  }
  EXPECT_GE(met, 38) << "the table no longer meets the sheets";
}

void expect_within(const std::string& what, const Range& range, double low, double high) {
  EXPECT_LE(range.low, range.high) << what;
  EXPECT_GE(range.low, low) << what;
  EXPECT_LE(range.high, high) << what;
}

// Heats or, of crops ruled by light, warm days. Early daffodils want the least of all.
void expect_growth(const Growth& growth) {
  EXPECT_LT(growth.base_c, growth.top_c);
  expect_within("heat to respond", {growth.heat_to_respond_kd, growth.heat_to_respond_kd}, 0, 2500);
  const double heat = growth.heat_to_first_flower_kd;
  if (growth.after_light) {
    EXPECT_EQ(heat, 0);
    expect_within("days of light", {growth.after_light->days, growth.after_light->days}, 20, 150);
  } else {
    EXPECT_GE(heat, growth.counts_from == CountsFrom::Season ? 30 : 100);
  }
  if (growth.pre_chilled_kd) {
    EXPECT_GT(*growth.pre_chilled_kd, heat);
  }
}

// Bounds outside which a figure must be a slip of the pen: a metre for a centimetre, days for
// weeks.
TEST(CropSheets, HoldFiguresThatCanBeTrue) {
  for (const Sheet* one : all_sheets()) {
    SCOPED_TRACE(one->name);
    expect_within("spacing", one->spacing_cm, 5, 200);
    expect_within("height", one->height_cm, 15, 400);
    expect_within("vase life", one->vase_days, 2, 30);
    expect_within("stems", one->stems_per_plant, 1, 100);
    expect_within("weeks of cutting", one->cutting_weeks, 1, 30);
    if (one->germination_days) expect_within("germination", *one->germination_days, 2, 60);
    if (one->germination_c) expect_within("germination degrees", *one->germination_c, 2, 30);
    if (one->depth_mm) expect_within("depth", {*one->depth_mm, *one->depth_mm}, 1, 250);
    EXPECT_GE(one->survives_c, -40);
    EXPECT_LE(one->survives_c, 5);
    EXPECT_GE(one->mulch_gain_c, 0);
    EXPECT_LE(one->mulch_gain_c, 7);
    EXPECT_LE(one->succession_gap_days.value_or(7), 60);
    if (one->growth) expect_growth(*one->growth);
    for (const Group& group : one->groups) {
      SCOPED_TRACE(group.name);
      if (group.growth) expect_growth(*group.growth);
    }
    for (const Way& way : one->ways) {
      SCOPED_TRACE(way.name);
      if (way.stems_per_plant) {
        expect_within("stems of the way", *way.stems_per_plant, 0, 100);
      }
      if (way.weeks_under_cover) expect_within("weeks under cover", *way.weeks_under_cover, 1, 40);
      // Those from cold storage go by the winter, not by the frosts.
      EXPECT_EQ(way.window.has_value(), way.method != Method::Established && !way.pre_chilled);
      if (way.pre_chilled) {
        EXPECT_EQ(one->life_cycle, LifeCycle::Bulb);
        EXPECT_TRUE(one->chill && one->pretreat);
      }
    }
  }
}

struct Climate {
  std::string name;
  Place place;
};

const std::vector<Climate>& climates() {
  static const std::vector<Climate> all = {{"maritime, 52 N", maritime()},
                                           {"continental, 39 N", continental()},
                                           {"southern, 38 S", southern()},
                                           {"mild winters, 34 N", six_places().at("Los Angeles")}};
  return all;
}

TEST(CropSheets, WindowsOpenBeforeTheyClose) {
  for (const Climate& climate : climates()) {
    const TestGarden garden(climate.place);
    for (const Sheet* one : all_sheets()) {
      const auto clock = garden.clock(one->name);
      for (const Way& way : one->ways) {
        SCOPED_TRACE(climate.name + ": " + one->name + ", " + way.name);
        if (way.window) {
          const DateRange window = clock.window_days(*way.window, way.flowers);
          EXPECT_LT(window.from, window.until);
        }
        if (way.first_flower) {
          const DateRange flower = clock.window_days(*way.first_flower, FlowersIn::SameYear);
          EXPECT_LT(flower.from, flower.until);
        }
      }
    }
  }
}

TEST(CropSheets, EveryWayIsPossibleSomewhere) {
  std::map<std::string, int> allowed;
  for (const Climate& climate : climates()) {
    const TestGarden garden(climate.place);
    for (const Sheet* one : all_sheets()) {
      for (std::size_t i = 0; i < one->ways.size(); ++i) {
        for (const auto& report : garden.ask(one->name, one->ways[i].name).reports) {
          if (report.way != i) continue;
          const std::string group = report.group ? ", " + report.group->name : "";
          allowed[one->name + group + ", " + one->ways[i].name] += report.allowed;
        }
      }
    }
  }
  for (const auto& [way, count] : allowed) {
    EXPECT_GT(count, 0) << way;
  }
}

}  // namespace
}  // namespace trug
