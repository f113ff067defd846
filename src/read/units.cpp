// SPDX-License-Identifier: MIT
#include "read/units.h"

#include <fmt/format.h>

#include <cmath>
#include <span>
#include <string_view>

#include "base/text.h"

namespace trug::read {
namespace {

// A unit as the end of a key, and how its numbers become those of the first unit of its list.
struct Unit {
  std::string_view ending;
  double factor = 1;
  double zero = 0;  // the unit's number for 0 of the first unit
  double to_first(double value) const { return (value - zero) * factor; }
  double from_first(double value) const { return value / factor + zero; }
};

constexpr Unit kLengths[] = {{"_m"}, {"_ft", 0.3048}, {"_cm", 0.01}, {"_in", 0.0254}};
constexpr Unit kSpacings[] = {{"_cm"}, {"_in", 2.54}};
constexpr Unit kTemperatures[] = {{"_c"}, {"_f", 5.0 / 9.0, 32}};

struct UnitKey {
  std::string key;
  Unit unit;
};

// `length = 5` has no unit: how to write it in the first two. True where that was reported.
bool report_bare(TomlTable& table, const std::string& name, std::span<const Unit> units) {
  if (!table.has(name)) return false;
  const auto value = table.number(name);
  if (!value) return true;  // its kind is wrong too, and the hint for that has a unit
  table.error(name, fmt::format("'{}' has no unit", name),
              fmt::format("write {}{} = {} or {}{} = {}", name, units[0].ending, number(*value, 3),
                          name, units[1].ending, number(units[1].from_first(*value))));
  return true;
}

std::optional<UnitKey> unit_key(TomlTable& table, const std::string& name,
                                std::span<const Unit> units, Need need) {
  std::vector<std::string> keys;
  for (const Unit& unit : units) keys.push_back(fmt::format("{}{}", name, unit.ending));
  if (report_bare(table, name, units)) need = kOptional;
  const auto key = table.one_of(keys, need);
  if (!key) return std::nullopt;
  for (const Unit& unit : units) {
    if (*key == fmt::format("{}{}", name, unit.ending)) return UnitKey{*key, unit};
  }
  return std::nullopt;
}

// The bounds in the unit the gardener wrote.
Bounds in_unit(Bounds bounds, const Unit& unit) {
  return {unit.from_first(bounds.low), unit.from_first(bounds.high), bounds.hint};
}

// What a temperature far too high for degrees Celsius may be.
std::string fahrenheit_hint(const std::string& name, const Unit& unit) {
  if (unit.ending != "_c") return {};
  return fmt::format("in degrees Fahrenheit? then write {}_f", name);
}

std::optional<double> read_number(TomlTable& table, const UnitKey& found, Bounds bounds) {
  const auto value = table.number(found.key, kOptional, in_unit(bounds, found.unit));
  if (!value) return std::nullopt;
  return found.unit.to_first(*value);
}

}  // namespace

std::optional<Millimetres> read_length(TomlTable& table, const std::string& name, Millimetres most,
                                       Need need) {
  const auto found = unit_key(table, name, kLengths, need);
  if (!found) return std::nullopt;
  const auto value = table.number(found->key);
  if (!value) return std::nullopt;
  const double millimetres = std::round(found->unit.to_first(*value) * 1000);
  if (millimetres < 1) {
    table.error(found->key, fmt::format("'{}' must be more than 0, not {}", found->key, *value));
    return std::nullopt;
  }
  if (millimetres > most.value()) {
    table.error(
        found->key,
        fmt::format("'{}' must be at most {}, not {}", found->key,
                    found->unit.from_first(most.value() / 1000.0), *value),
        found->key.ends_with("_m") ? fmt::format("in centimetres? then write {}_cm", name) : "");
    return std::nullopt;
  }
  return Millimetres{static_cast<int>(millimetres)};
}

std::optional<double> read_spacing_cm(TomlTable& table, const std::string& name, Bounds bounds) {
  const auto found = unit_key(table, name, kSpacings, kOptional);
  if (!found) return std::nullopt;
  const auto value = table.number(found->key);
  if (!value) return std::nullopt;
  if (found->unit.ending == "_cm" && *value > 0 && *value < 1) {
    table.error(found->key, fmt::format("'{}' is {}, less than a centimetre", found->key, *value),
                fmt::format("in metres? then write {} = {}", found->key, number(*value * 100)));
    return std::nullopt;
  }
  return read_number(table, *found, bounds);
}

std::optional<double> read_celsius(TomlTable& table, const std::string& name, Bounds bounds) {
  const auto found = unit_key(table, name, kTemperatures, kOptional);
  if (!found) return std::nullopt;
  const std::string hint = fahrenheit_hint(name, found->unit);
  bounds.hint = hint;
  return read_number(table, *found, bounds);
}

std::optional<std::vector<double>> read_monthly_celsius(TomlTable& table, const std::string& name,
                                                        Bounds bounds) {
  const auto found = unit_key(table, name, kTemperatures, kOptional);
  if (!found) return std::nullopt;
  const std::string hint = fahrenheit_hint(name, found->unit);
  bounds.hint = hint;
  auto values = table.numbers(found->key, 12, "January to December", in_unit(bounds, found->unit));
  if (!values) return std::nullopt;
  for (double& value : *values) value = found->unit.to_first(value);
  return values;
}

std::string in_metres(Millimetres length) { return number(length.value() / 1000.0, 3) + " m"; }

}  // namespace trug::read
