// SPDX-License-Identifier: MIT
// Lengths and temperatures of a plan: the unit stands in the key, exactly one of each.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity.h"
#include "read/toml_table.h"

namespace trug::read {

// `name`_m, _cm, _ft or _in: more than nothing, at most `most`.
std::optional<Millimetres> read_length(TomlTable& table, const std::string& name, Millimetres most,
                                       Need need);
// `name`_cm or _in, in centimetres, within `bounds` centimetres.
std::optional<double> read_spacing_cm(TomlTable& table, const std::string& name, Bounds bounds);
// `name`_c or _f, in degrees Celsius, within `bounds` degrees Celsius.
std::optional<double> read_celsius(TomlTable& table, const std::string& name, Bounds bounds);
// The same for twelve months.
std::optional<std::vector<double>> read_monthly_celsius(TomlTable& table, const std::string& name,
                                                        Bounds bounds);
// "0.8 m", "5 m": for reports.
std::string in_metres(Millimetres length);

}  // namespace trug::read
