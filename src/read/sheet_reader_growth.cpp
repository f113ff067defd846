// SPDX-License-Identifier: MIT
#include "read/sheet_reader_growth.h"

#include <string_view>

namespace trug::read {
namespace {

constexpr Bounds kSpreadDays{13, 60};
constexpr Bounds kHours{0, 24};
constexpr Bounds kSpan{0.1, 120};
constexpr double kFormat1FloorRising = 0.5;

DayLengthResponse read_day_length(TomlTable& table) {
  using Kind = DayLengthResponse::Kind;
  DayLengthResponse response;
  response.kind = table
                      .choice<Kind>("kind",
                                    {{"neutral", Kind::Neutral},
                                     {"long", Kind::Long},
                                     {"short", Kind::Short},
                                     {"critical short", Kind::CriticalShort}},
                                    required())
                      .value_or(response.kind);
  const DayLengthResponse standard;
  response.from_hours = table.number("from_hours", kOptional, kHours).value_or(standard.from_hours);
  response.to_hours = table.number("to_hours", kOptional, kHours).value_or(standard.to_hours);
  response.slower_per_hour =
      table.number("slower_per_hour", kOptional, kShare).value_or(standard.slower_per_hour);
  response.floor = table.number("floor", kOptional, kShare).value_or(standard.floor);
  response.sunrise_to_sunset = table.boolean("sunrise_to_sunset").value_or(false);
  if (response.kind == Kind::Long && response.from_hours >= response.to_hours) {
    table.error("from_hours", "'from_hours' must be less than 'to_hours'");
  }
  table.finish();
  return response;
}

AfterLight read_after_light(TomlTable& table) {
  AfterLight light;
  const auto number = [&](std::string_view key, Bounds bounds, double& value) {
    value = table.number(key, required(), bounds).value_or(value);
  };
  number("below_h", kHours, light.below_h);
  number("days", kSpan, light.days);
  number("cold_a_c", kCelsius, light.cold_a_c);
  number("cold_b_c", kCelsius, light.cold_b_c);
  number("hot_c_c", kCelsius, light.hot_c_c);
  number("hot_d_c", kCelsius, light.hot_d_c);
  number("low", kShare, light.low);
  if (light.cold_a_c >= light.cold_b_c) {
    table.error("cold_b_c", "'cold_b_c' must be above 'cold_a_c'");
  }
  if (light.hot_c_c >= light.hot_d_c) {
    table.error("hot_d_c", "'hot_d_c' must be above 'hot_c_c'");
  }
  table.finish();
  return light;
}

bool counts_rising_days(const SheetKind& kind, const Growth& growth) {
  const bool once = !stays_in_ground(kind.life_cycle) && !is_planted(kind.life_cycle);
  return once && growth.day_length.kind == DayLengthResponse::Kind::Long;
}

void read_format_2(TomlTable& table, const SheetKind& kind, Growth& growth) {
  growth.counts_from =
      table.choice("counts_from", kCountsFrom).value_or(counts_from(kind.life_cycle));
  growth.day_length.floor_rising = table.number("floor_rising", kOptional, kShare);
  growth.slows_under_ten_hours = table.boolean("slows_under_ten_hours").value_or(true);
  growth.spread_in_cold_winters_days =
      table.number("spread_in_cold_winters_days", kOptional, kSpreadDays);
  growth.pre_chilled_kd = table.number("pre_chilled_kd", kOptional, kPositive);
  if (auto light = table.table("after_light")) growth.after_light = read_after_light(*light);
}

}  // namespace

std::optional<Growth> read_growth(TomlTable& parent, const SheetKind& kind) {
  auto table = parent.table("growth");
  if (!table) return std::nullopt;
  Growth growth;
  const Need need{.required = kind.format == 1 || !table->has("after_light")};
  growth.base_c = table->number("base_c", need, kCelsius).value_or(0);
  growth.top_c = table->number("top_c", need, kCelsius).value_or(60);
  growth.heat_to_respond_kd = table->number("heat_to_respond_kd", need, kNotNegative).value_or(0);
  growth.heat_to_first_flower_kd =
      table->number("heat_to_first_flower_kd", need, kNotNegative).value_or(0);
  if (auto day_length = table->table("day_length")) {
    growth.day_length = read_day_length(*day_length);
  }
  growth.vernal_days = table->number("vernal_days", kOptional, kNotNegative);
  growth.spread_days =
      table->number("spread_days", kOptional, kSpreadDays).value_or(growth.spread_days);
  if (kind.format == 1) {
    growth.counts_from = counts_from(kind.life_cycle);
    if (counts_rising_days(kind, growth)) growth.day_length.floor_rising = kFormat1FloorRising;
  } else {
    read_format_2(*table, kind, growth);
  }
  if (growth.base_c >= growth.top_c) table->error("top_c", "'top_c' must be above 'base_c'");
  table->finish();
  return growth;
}

std::optional<Chill> read_chill(TomlTable& parent) {
  auto table = parent.table("chill");
  if (!table) return std::nullopt;
  Chill chill;
  chill.days = table->number("days", required(), kNotNegative).value_or(0);
  chill.full_c = table->number("full_c", required(), kCelsius).value_or(chill.full_c);
  chill.zero_c = table->number("zero_c", required(), kCelsius).value_or(chill.zero_c);
  if (chill.full_c >= chill.zero_c) table->error("zero_c", "'zero_c' must be above 'full_c'");
  table->finish();
  return chill;
}

std::optional<Emergence> read_emergence(TomlTable& parent) {
  auto table = parent.table("emergence");
  if (!table) return std::nullopt;
  Emergence emergence;
  emergence.base_c = table->number("base_c", required(), kCelsius).value_or(0);
  emergence.heat_kd = table->number("heat_kd", required(), kPositive).value_or(0);
  table->finish();
  return emergence;
}

std::optional<PotLimits> read_pot(TomlTable& parent) {
  auto table = parent.table("pot");
  if (!table) return std::nullopt;
  PotLimits pot;
  pot.module_kd = table->number("module_kd", required(), kPositive).value_or(0);
  pot.pot_kd = table->number("pot_kd", required(), kPositive).value_or(0);
  if (pot.pot_kd < pot.module_kd) {
    table->error("pot_kd", "a pot holds no less than a module: 'pot_kd' must not be under it");
  }
  table->finish();
  return pot;
}

Pinch read_pinch(TomlTable& parent, const SheetKind& kind) {
  Pinch pinch;
  auto table = parent.table("pinch");
  if (!table) return pinch;
  using Advice = Pinch::Advice;
  pinch.advice =
      table
          ->choice<Advice>(
              "advice", {{"yes", Advice::Yes}, {"optional", Advice::Optional}, {"no", Advice::No}},
              required())
          .value_or(pinch.advice);
  pinch.at_cm = table->range("at_cm", kOptional, kPositive);
  if (kind.format == 1) {
    pinch.costs_days = table->range("costs_days", kOptional, kNotNegative).value_or(Range{});
  } else {
    pinch.at_kd = table->number("at_kd", kOptional, kPositive);
    pinch.sign = table->text("sign", kOptional, kSentence).value_or("");
    pinch.cost_kd = table->number("cost_kd", kOptional, kNotNegative).value_or(0);
  }
  table->finish();
  return pinch;
}

void read_hardiness(TomlTable& file, const SheetKind& kind, Sheet& sheet) {
  if (kind.format == 1) {
    sheet.survives_c = file.number("coldest_survived_c", required(), kCelsius).value_or(0);
    const auto fleece = file.number("coldest_under_fleece_c", kOptional, kCelsius);
    sheet.mulch_gain_c = fleece ? sheet.survives_c - *fleece : 0;
    sheet.frost_class = frost_class_of(sheet.survives_c);
    return;
  }
  sheet.frost_class = file.choice("frost_class", kFrostClasses, required("frost_class = \"hardy\""))
                          .value_or(FrostClass::Hardy);
  sheet.survives_c = file.number("survives_c", required(), kCelsius).value_or(0);
  sheet.mulch_gain_c = file.number("mulch_gain_c", kOptional, kNotNegative).value_or(0);
}

}  // namespace trug::read
