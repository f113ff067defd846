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
#include "growth/crop_clock.h"

namespace trug::calibrate {

// Where facts are from, and the rules of growth by which they are reckoned.
struct World {
  std::map<std::string, climate::Climate> climates;
  growth::Rules rules;

  const climate::Climate& climate_of(const Fact& fact) const;
};

// Days by which the model is late (negative: early) against the middle of a fact's window; nullopt
// where it sees no flower that season. The heat reckoning alone, without the sheet's fewest days.
std::optional<double> error_days(const Sheet& sheet, const Growth& growth, const Fact& fact,
                                 const World& world);

// Half the width of the window that the program tells for such a planting, in days.
std::optional<double> told_spread(const Sheet& sheet, const Growth& growth, const Fact& fact,
                                  const World& world);

// What of a sheet is open to the fit.
struct Freedom {
  bool respond = false;  // perennials begin with their season; the heat a biennial wants for its
                         // rosette hardly shows in its flowering: both keep what the sheet says
  bool top = false;      // only a warm place can tell where more warmth stops helping
};
Freedom freedom_of(const Sheet& sheet, const std::vector<Fact>& facts, const World& world);

// Whether its heats are for the facts to say: those of crops that are counted from their sowing and
// have facts to be fitted to. What begins with its season, from its planting or by light keeps what
// the sheet has from its sources.
bool is_fitted(const Sheet& sheet, const std::vector<Fact>& facts);

// Fitted to the facts with `fitted` alone, in steps of 5 degree-days and whole degrees. Depends on
// nothing the fit changes, so a second run gives the same.
Growth fit(const Sheet& sheet, const std::vector<Fact>& facts, const World& world);

// The error of each fitted fact of a crop by heats fitted to its others: what the fit is worth
// without a look at what was kept out. Empty with fewer than two.
std::vector<double> left_out_errors(const Sheet& sheet, const std::vector<Fact>& facts,
                                    const World& world);

}  // namespace trug::calibrate
