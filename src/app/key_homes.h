// SPDX-License-Identifier: MIT
// Where the keys of the glossary stand in a plan.
#pragma once

#include <string>

#include "show/glossary.h"

namespace trug::app {

// "under [[bed]] or [[bed.stretch]]", "before the first heading".
std::string homes_of(const show::GlossaryEntry& key);
// What stands under a heading: "length_m and crops"; of a key with units one.
std::string keys_under(const show::GlossaryEntry& heading);
// What the entry says, with the keys of a heading.
std::string told(const show::GlossaryEntry& entry);

}  // namespace trug::app
