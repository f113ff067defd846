// SPDX-License-Identifier: MIT
#include "show/why_facts.h"

#include <string_view>

namespace trug::show {
namespace {

std::string source_words(const Sheet& sheet, std::string_view key) {
  const Source* source = source_of(sheet, key);
  if (!source) return "no source";
  switch (source->kind) {
    case Source::Kind::Published:
      return source->name;
    case Source::Kind::CommonPractice:
      return "common practice";
    case Source::Kind::Memory:
      return "memory";
  }
  return "";
}

std::string stage_name(growth::StageName name) {
  switch (name) {
    case growth::StageName::Emerge:
      return "shoots show";
    case growth::StageName::Respond:
      return "able to respond";
    case growth::StageName::Chill:
      return "chilled";
    case growth::StageName::Flower:
      return "first flower";
    case growth::StageName::Light:
      return "days shorten";
  }
  return "";
}

}  // namespace

std::vector<Step> steps(const ground::Sowing& sowing) {
  std::vector<Step> result;
  for (const growth::Stage& stage : sowing.timeline.forecast.stages) {
    const bool chill = stage.name == growth::StageName::Chill;
    result.push_back({stage_name(stage.name), stage.start, stage.end, stage.need, stage.reached,
                      chill ? "chilling days" : "degree-days"});
  }
  return result;
}

std::vector<Constant> constants(const ground::Sowing& sowing) {
  const Sheet& sheet = *sowing.sheet;
  std::vector<Constant> result;
  const auto add = [&](std::string key, double value) {
    result.push_back({key, value, source_words(sheet, key)});
  };
  if (const auto& growth = sowing.spec().growth()) {
    add("growth.base_c", growth->base_c);
    add("growth.top_c", growth->top_c);
    add("growth.heat_to_respond_kd", growth->heat_to_respond_kd);
    add("growth.heat_to_first_flower_kd", growth->heat_to_first_flower_kd);
    if (growth->vernal_days) add("growth.vernal_days", *growth->vernal_days);
    if (growth->day_length.kind != DayLengthResponse::Kind::Neutral) {
      add("growth.day_length.from_hours", growth->day_length.from_hours);
    }
  }
  add("spacing_cm", sheet.spacing_cm.middle());
  add("stems_per_plant", sowing.stems_per_plant);
  add("cutting_weeks", sowing.spec().cutting_weeks().middle());
  return result;
}

}  // namespace trug::show
