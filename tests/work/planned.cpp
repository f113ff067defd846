// SPDX-License-Identifier: MIT
#include "work/planned.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <utility>

#include "read/plan_reader.h"

namespace trug {
namespace {

constexpr std::string_view kPlace = R"(
[place]
latitude = 52
last_frost = "15 May"
first_frost = "15 October"
frost_meaning = "garden"
mean_c = [4.5, 4.8, 6.8, 9.0, 12.2, 15.2, 17.0, 16.8, 14.3, 10.9, 7.2, 4.9]

[shelter]
heated_trays = 100
frame_m2 = 100
nursery_m2 = 100
)";

}  // namespace

const ask::Finding* Planned::finding(std::string_view code) const {
  const auto found = std::ranges::find(findings, code, &ask::Finding::code);
  return found == findings.end() ? nullptr : &*found;
}

std::vector<const work::Job*> Planned::of_kind(work::JobKind kind) const {
  std::vector<const work::Job*> result;
  for (const work::Job& job : jobs) {
    if (job.key.kind == kind) result.push_back(&job);
  }
  return result;
}

Planned planned(const std::string& head, const std::string& beds,
                std::optional<MeasuredWeather> weather) {
  Planned result;
  const std::string years =
      head.find("flowering_year") == std::string::npos ? "flowering_year = 2027\n" + head : head;
  const MemoryFiles files({{"plan.toml", years + std::string(kPlace) + beds}});
  Diagnostics diagnostics;
  auto plan = read::read_plan(files, "plan.toml", *result.all_sheets, diagnostics);
  EXPECT_EQ(diagnostics.render(), "");
  if (!plan) return result;
  result.plan = std::move(*plan);
  for (const Planting& planting : result.plan.plantings) {
    const std::string& crop = planting.asked.crop;
    result.sheets[crop] = result.all_sheets->find(crop, diagnostics);
  }
  result.weather = std::move(weather);
  const ask::Reckoned reckoned =
      ask::reckon(result.plan, result.sheets, result.weather, make_date(2026, 1, 1));
  result.climate = reckoned.climate;
  static_cast<ask::Outcome&>(result) = reckoned;
  return result;
}

}  // namespace trug
