// SPDX-License-Identifier: MIT
// Text in SVG and HTML.
#pragma once

#include <string>
#include <string_view>

namespace trug::show {

// Text as XML 1.0 and HTML allow it, in an attribute too: markup escaped, what is no character of
// XML replaced.
std::string escaped(std::string_view text);

}  // namespace trug::show
