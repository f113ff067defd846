// SPDX-License-Identifier: MIT
// A plan written is the plan that is read again.
#include "show/plan_toml.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <vector>

#include "read/plan_reader.h"

namespace trug::show {
namespace {

// Every key that a plan may have.
constexpr std::string_view kWhole = R"(flowering_year = 2027
title = "Quay \"steps\" \\ vases"
garden = "6c0d2f5a-94b1-4d6e-8f3b-2a7c5e19d840"
began = 2026-08-01
calendar = "out/quay.ics"

[place]
latitude = -41.25
last_frost = "10 October"
first_frost = "12 May"
frost_meaning = "safe"
mean_max_c = [20.1, 20.4, 18.9, 16.2, 13.5, 11.0, 10.3, 11.2, 13.0, 14.7, 16.5, 18.6]
mean_min_c = [11.3, 11.4, 10.2, 7.6, 5.4, 3.1, 2.4, 3.0, 4.7, 6.3, 8.1, 10.2]
weather = "daily.csv"
coldest_c = -3.5
snow = true
risk = 0.1

[shelter]
heated_c = 18
heated_trays = 3
frame_m2 = 1.5
nursery_m2 = 0.7

[wish]
vases_per_week = 1.5
stems_per_vase = 9
from = "10 November"
to = "5 April"
colours = ["white", "plum"]
like = ["cosmos", "zinnia"]
dislike = ["dahlia"]
safe = true
mixed = false

[work]
days = ["Sat", "Wed"]
remind_days_before = 2
remind_at = 17:30:00
remind = "all"
care = true
days_between_crops = 10

[[bed]]
name = "quay bed"
id = "q"
length_ft = 15.5
width_m = 1.05
person = "Ines"
cover = "fleece"

[[bed.stretch]]
length_m = 0.735
crops = ["daffodil", "cosmos"]

[[bed.stretch]]
length_cm = 110
[[bed.stretch.crop]]
crop = "tulip"
variety = "Orchard Dusk"
group = "mid"
plants = 40
spacing_cm = 9.5
colours = ["plum"]
keep = true
way = "bulbs in late autumn"
start_on = 2027-05-20
lift_on = 2027-12-20
[[bed.stretch.crop]]
crop = "zinnia"
id = "late zinnia"
successions = 3
gap_weeks = 2
leave = 0.25
person = "Ola"
not_before = 2027-10-20

[[bed.stretch]]
length_m = 0.9
[[bed.stretch.crop]]
crop = "sunflower"
successions = "all season"

[[bed]]
name = "empty bed"
length_m = 2.5
width_m = 0.8

[[elsewhere]]
crop = "rose"
name = "gate rose"
plants = 2
since = 2019

[[have]]
crop = "nigella"
what = "seed"
number = 150

[[happened]]
planting = "quay bed/tulip"
what = "planted"
on = 2027-05-20
note = "in rain"

[[happened]]
planting = "quay bed/late zinnia"
what = "not-done"
on = 2027-10-25
succession = 2
job = "sow"
)";

std::optional<Plan> read_text(const std::string& name, std::string text) {
  const std::map<std::string, std::string> given{{name, std::move(text)}};
  const MemoryFiles files(given);
  read::SheetLibrary library;
  Diagnostics diagnostics;
  auto plan = read::read_plan(files, name, library, diagnostics);
  EXPECT_TRUE(plan) << diagnostics.render();
  return plan;
}

std::string file(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

// What is written of what was read is the same text again, with remarks and without.
void expect_the_same(const std::string& name, const std::string& text) {
  SCOPED_TRACE(name);
  const auto plan = read_text(name, text);
  ASSERT_TRUE(plan);
  const std::string written = plan_toml(*plan);
  const auto again = read_text(name, written);
  ASSERT_TRUE(again) << written;
  EXPECT_EQ(plan_toml(*again), written);
  ASSERT_EQ(again->plantings.size(), plan->plantings.size());
  for (std::size_t i = 0; i < plan->plantings.size(); ++i) {
    const Planting &before = plan->plantings[i], &after = again->plantings[i];
    EXPECT_EQ(after.name, before.name);
    EXPECT_EQ(after.follows, before.follows);
    CropEntry entry = after.asked;
    entry.at = before.asked.at;
    EXPECT_EQ(entry, before.asked);
    ASSERT_EQ(after.happened.size(), before.happened.size());
    for (std::size_t k = 0; k < before.happened.size(); ++k) {
      EXPECT_EQ(after.happened[k].what, before.happened[k].what);
      EXPECT_EQ(after.happened[k].on, before.happened[k].on);
      EXPECT_EQ(after.happened[k].note, before.happened[k].note);
    }
    EXPECT_EQ(after.patch.has_value(), before.patch.has_value());
    if (!before.patch) continue;
    EXPECT_EQ(after.patch->offset, before.patch->offset);
    EXPECT_EQ(after.patch->length, before.patch->length);
    EXPECT_EQ(after.patch->width, before.patch->width);
  }
  const auto remarked = read_text(name, plan_toml(*plan, true));
  ASSERT_TRUE(remarked);
  EXPECT_EQ(plan_toml(*remarked), written);
}

TEST(PlanToml, OfEveryKeyIsReadAgain) { expect_the_same("whole.toml", std::string(kWhole)); }

// Nothing that is usual is said, and no heading stands without a key.
TEST(PlanToml, OfTheLeastPlanIsTheLeast) {
  const std::string least =
      "flowering_year = 2027\ntitle = \"least\"\n\n[place]\nlatitude = 52\nlast_frost = \"14 "
      "May\"\nfirst_frost = \"9 October\"\nfrost_meaning = \"garden\"\n\n[[bed]]\nname = \"b\"\n"
      "length_m = 2.5\nwidth_m = 1.1\n";
  const auto plan = read_text("least.toml", least);
  ASSERT_TRUE(plan);
  EXPECT_EQ(plan_toml(*plan), least);
}

// Each key of the text above stands in what is written, in one unit of its own.
TEST(PlanToml, LeavesNoKeyOut) {
  const auto plan = read_text("whole.toml", std::string(kWhole));
  ASSERT_TRUE(plan);
  const std::string written = "\n" + plan_toml(*plan);
  for (const read::KeyHome& key : read::plan_keys()) {
    const std::string name(key.key);
    if (std::string(kWhole).find("\n" + name + " = ") == std::string::npos) continue;
    if (name.find("length") == 0 || name.find("width") == 0) continue;
    EXPECT_NE(written.find("\n" + name + " = "), std::string::npos) << name;
  }
}

TEST(PlanToml, OfTheExamplesIsReadAgain) {
  for (const char* folder : {"examples", "tests/gardens"}) {
    const std::filesystem::path path = std::filesystem::path(TRUG_SOURCE_DIR) / folder;
    for (const auto& entry : std::filesystem::directory_iterator(path)) {
      if (entry.path().extension() != ".toml") continue;
      expect_the_same(entry.path().filename().string(), file(entry.path()));
    }
  }
}

}  // namespace
}  // namespace trug::show
