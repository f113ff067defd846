// SPDX-License-Identifier: MIT
// A plan's text reckoned, with what would help.
#pragma once

#include <string>
#include <utility>

#include "ask/advise.h"
#include "work/planned.h"

namespace trug::ask {

// Ground is filled from these crops' sheets alone.
inline Planned advised_plan(const std::string& head, const std::string& beds,
                            const std::vector<std::string>& crops = {},
                            std::optional<MeasuredWeather> weather = {}) {
  Planned p = planned(head, beds, std::move(weather));
  ground::Sheets sheets = p.sheets;
  Diagnostics diagnostics;
  for (const std::string& crop : crops) sheets[crop] = p.all_sheets->find(crop, diagnostics);
  p.findings = advised(p.garden(), p, [&] { return sheets; });
  return p;
}

}  // namespace trug::ask
