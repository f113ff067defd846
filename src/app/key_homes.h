// SPDX-License-Identifier: MIT
// Where a key of the glossary stands in a plan.
#pragma once

#include <string>

#include "show/glossary.h"

namespace trug::app {

// "under [[bed]] or [[bed.stretch]]", "before the first heading".
std::string homes_of(const show::GlossaryEntry& key);

}  // namespace trug::app
