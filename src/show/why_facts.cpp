// SPDX-License-Identifier: MIT
#include "show/why_facts.h"

#include <optional>
#include <string_view>
#include <utility>

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
      return "first flower";
  }
  return "";
}

std::string unit_of(growth::StageName name) {
  if (name == growth::StageName::Chill) return "chilling days";
  if (name == growth::StageName::Light) return "warm days";
  return name == growth::StageName::Emerge ? "degree-days of the soil" : "degree-days";
}

// Gathers figures with their sources.
class Figures {
 public:
  explicit Figures(const Sheet& sheet) : sheet_(sheet) {}
  void add(std::string key, std::optional<double> value) {
    if (value) list_.push_back({key, *value, source_words(sheet_, key)});
  }
  std::vector<Constant> take() && { return std::move(list_); }

 private:
  const Sheet& sheet_;
  std::vector<Constant> list_;
};

void add_light(const AfterLight& light, Figures& figures) {
  figures.add("growth.after_light.below_h", light.below_h);
  figures.add("growth.after_light.days", light.days);
  figures.add("growth.after_light.cold_b_c", light.cold_b_c);
  figures.add("growth.after_light.hot_c_c", light.hot_c_c);
}

void add_growth(const Growth& growth, Figures& figures) {
  if (growth.after_light) return add_light(*growth.after_light, figures);
  figures.add("growth.base_c", growth.base_c);
  figures.add("growth.top_c", growth.top_c);
  figures.add("growth.heat_to_respond_kd", growth.heat_to_respond_kd);
  figures.add("growth.heat_to_first_flower_kd", growth.heat_to_first_flower_kd);
  figures.add("growth.vernal_days", growth.vernal_days);
  if (growth.day_length.kind == DayLengthResponse::Kind::Neutral) return;
  figures.add("growth.day_length.from_hours", growth.day_length.from_hours);
  figures.add("growth.day_length.floor_rising", growth.day_length.floor_rising);
}

// What it lives through, and until when it may wait.
void add_limits(const ground::Sowing& sowing, Figures& figures) {
  const Sheet& sheet = *sowing.sheet;
  if (sheet.chill) figures.add("chill.days", sheet.chill->days);
  if (sheet.emergence) figures.add("emergence.heat_kd", sheet.emergence->heat_kd);
  if (sheet.pot) {
    figures.add("pot.module_kd", sheet.pot->module_kd);
    figures.add("pot.pot_kd", sheet.pot->pot_kd);
  }
  if (sowing.pinched) {
    figures.add("pinch.at_kd", sheet.pinch.at_kd);
    figures.add("pinch.cost_kd", sheet.pinch.cost_kd);
  }
  if (sowing.overwinters) {
    figures.add("survives_c", sheet.survives_c);
    figures.add("mulch_gain_c", sheet.mulch_gain_c);
  }
  figures.add("stop_above_max_c", sheet.stop_above_max_c);
  figures.add("lives_to_mean_max_c", sheet.lives_to_mean_max_c);
}

}  // namespace

std::vector<Step> steps(const ground::Sowing& sowing) {
  std::vector<Step> result;
  for (const growth::Stage& stage : sowing.timeline.forecast.stages) {
    result.push_back({stage_name(stage.name), stage.start, stage.end, stage.need, stage.reached,
                      unit_of(stage.name)});
  }
  return result;
}

std::vector<Constant> constants(const ground::Sowing& sowing) {
  Figures figures(*sowing.sheet);
  if (const auto& growth = sowing.spec().growth()) add_growth(*growth, figures);
  add_limits(sowing, figures);
  figures.add("spacing_cm", sowing.sheet->spacing_cm.middle());
  figures.add("stems_per_plant", sowing.stems_per_plant);
  figures.add("cutting_weeks", sowing.spec().cutting_weeks().middle());
  return std::move(figures).take();
}

}  // namespace trug::show
