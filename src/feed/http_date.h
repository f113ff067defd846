// SPDX-License-Identifier: MIT
// Moments as HTTP writes them.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace trug::feed {

// IMF-fixdate (RFC 9110, 5.6.7): "Sun, 06 Nov 1994 08:49:37 GMT". Years 1 to 9999.
std::string http_date(std::chrono::sys_seconds moment);
// Exactly that form. The two obsolete ones read as nothing, and the client is sent the whole
// answer: no calendar client of this century writes them.
std::optional<std::chrono::sys_seconds> parse_http_date(std::string_view text);

}  // namespace trug::feed
