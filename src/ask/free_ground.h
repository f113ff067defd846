// SPDX-License-Identifier: MIT
// What could grow on the ground that the findings speak of.
#pragma once

#include <functional>
#include <vector>

#include "ask/findings.h"
#include "ask/garden.h"
#include "ask/reckon.h"
#include "ground/schedule.h"

namespace trug::ask {

// Every sheet there is; called where ground is to be filled, and then once.
using AllSheets = std::function<ground::Sheets()>;

// Names crops in the remedies: for weeks that go short what mend() would add first; then on the
// three largest grounds that no crop of the plan can use, or that lie bare, those worth most there.
// Of one stretch all findings say the same.
void fill_free_ground(const Garden& garden, const Outcome& now, const AllSheets& all_sheets,
                      std::vector<Finding>& findings);

}  // namespace trug::ask
