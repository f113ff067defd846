// SPDX-License-Identifier: MIT
// The two heats of a sheet that bring its first flowers nearest to the facts.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "calibrate/facts.h"
#include "climate/climate.h"
#include "garden/sheet.h"

namespace trug::calibrate {

using Climates = std::map<std::string, climate::Climate>;

// Days by which the model is late (negative: early) against the middle of a fact's window; nullopt
// where it sees no flower that season. The heat reckoning alone, without the sheet's fewest days.
std::optional<double> error_days(const Sheet& sheet, const Growth& growth, const Fact& fact,
                                 const Climates& climates);

// What of a sheet is open to the fit.
struct Freedom {
  bool respond = false;  // perennials begin with their season; the heat a biennial wants for its
                         // rosette hardly shows in its flowering: both keep what the sheet says
  bool top = false;      // only a warm place can tell where more warmth stops helping
};
Freedom freedom_of(const Sheet& sheet, const std::vector<Fact>& facts, const Climates& climates);

// Whether its heats are for the facts to say: those of crops that are counted from their sowing and
// have facts to be fitted to. What begins with its season, from its planting or by light keeps what
// the sheet has from its sources.
bool is_fitted(const Sheet& sheet, const std::vector<Fact>& facts);

// Fitted to the facts with `fitted` alone, in steps of 5 degree-days and whole degrees. Depends on
// nothing the fit changes, so a second run gives the same.
Growth fit(const Sheet& sheet, const std::vector<Fact>& facts, const Climates& climates);

}  // namespace trug::calibrate
