// SPDX-License-Identifier: MIT
// A small plan without a fault, to spoil in one place.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/diagnostics.h"
#include "base/files.h"
#include "plan_text.h"
#include "read/plan_reader.h"

namespace trug::read {

inline const std::string kSmallPlan =
    "flowering_year = 2027\ntitle = \"Porch vases\"\n\n" + std::string(kPlaceText) +
    bed_text("long bed", "5", "1.2",
             {{"2", R"(crops = ["cornflower", "zinnia"])"},
              {"1.5", "[[bed.stretch.crop]]\ncrop = \"sunflower\"\ngroup = \"short-day\""}});

// A made-up sheet, so that the messages that list its ways do not change with the real one.
inline constexpr std::string_view kSunflower = R"(format = 1
name = "sunflower"
botanical_name = "Helianthus annuus"
family = "Asteraceae"
life_cycle = "half-hardy annual"
coldest_survived_c = -2
spacing_cm = 15
height_cm = [100, 150]
colours = ["yellow"]
roles = ["focal"]
vase_days = 7
cut_stage = "first petals lift"
stems_per_plant = 1
cutting_weeks = 2
habit = "single"

[[group]]
name = "short-day"

[[way]]
name = "sown in place"
method = "seed"
raised = "in place"
flowers = "same year"
[way.window]
earliest = { weeks = 0, from = "last frost" }
latest = { weeks = 10, from = "last frost" }

[[way]]
name = "bought plants"
method = "bought plants"
raised = "in place"
flowers = "same year"
[way.window]
earliest = { weeks = 0, from = "last frost" }
latest = { weeks = 8, from = "last frost" }

[[source]]
kind = "memory"
covers = ["*"]
)";

// The plan with the first `what` replaced.
inline std::string spoilt(std::string_view what, std::string_view with) {
  std::string text = kSmallPlan;
  const std::size_t at = text.find(what);
  if (at == std::string::npos) return "the plan does not hold: " + std::string(what);
  return text.replace(at, what.size(), with);
}

struct Reading {
  std::optional<Plan> plan;
  Diagnostics diagnostics;
};

inline Reading read_text(std::string text) {
  Reading reading;
  SheetLibrary sheets;
  const MemoryFiles files(
      {{"plan.toml", std::move(text)}, {"crops/sunflower.toml", std::string(kSunflower)}});
  sheets.add_folder(files, "crops", reading.diagnostics);
  reading.plan = read_plan(files, "plan.toml", sheets, reading.diagnostics);
  return reading;
}

}  // namespace trug::read
