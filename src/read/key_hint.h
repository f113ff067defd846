// SPDX-License-Identifier: MIT
// What to do about a key that is not known where it stands.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "read/toml_terms.h"

namespace trug::read {

// The keys and headings that may stand in the table `path` ("bed.stretch"; empty for the file),
// out of those its reader asked for, as a list: of a key with units one, and none that only exists
// to be refused. `homes` knows the keys of the file; empty: all are taken as they are.
std::string keys_that_may_stand(std::string_view path, std::span<const std::string> asked,
                                std::span<const KeyHome> homes);

}  // namespace trug::read
