// SPDX-License-Identifier: MIT
// The tables of a sheet that say how a crop grows. A sheet of format 1 has fewer keys: what they
// leave out is filled in here.
#pragma once

#include <optional>

#include "garden/sheet.h"
#include "read/toml_table.h"

namespace trug::read {

inline constexpr Bounds kCelsius{-60, 60};
inline constexpr Bounds kPositive{0.1, 1e6};
inline constexpr Bounds kNotNegative{0, 1e6};
inline constexpr Bounds kShare{0, 1};
inline constexpr Bounds kCount{1, 1000};
inline constexpr std::size_t kSentence = 400;  // characters of an advice or a source

// What the file says of itself before its tables are read.
struct SheetKind {
  int format = 2;
  LifeCycle life_cycle = LifeCycle::HardyAnnual;
};

// nullopt where the sheet has no such table.
std::optional<Growth> read_growth(TomlTable& parent, const SheetKind& kind);
std::optional<Chill> read_chill(TomlTable& parent);
std::optional<Emergence> read_emergence(TomlTable& parent);
std::optional<PotLimits> read_pot(TomlTable& parent);
Pinch read_pinch(TomlTable& parent, const SheetKind& kind);
// Frost class, the cold it survives and what mulch adds.
void read_hardiness(TomlTable& file, const SheetKind& kind, Sheet& sheet);

}  // namespace trug::read
