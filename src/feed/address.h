// SPDX-License-Identifier: MIT
// Where a server listens, and where people reach it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace trug::feed {

struct Address {
  std::string host = "127.0.0.1";  // IPv4 or IPv6, as numbers
  int port = 0;                    // 0: any free one
  bool operator==(const Address&) const = default;
};

// "192.168.1.20:8080", "[::1]:8080", "localhost:8080"; port 0 to 65535. Nothing else, no look-ups.
std::optional<Address> parse_address(std::string_view text);
// "192.168.1.20:8080", "[::1]:8080".
std::string to_string(const Address& address);
// True where only this machine can reach it.
bool is_loopback(const Address& address);
// Whether a base URL names this machine to itself, so that no other can follow it.
bool is_only_here(std::string_view base_url);
// "http://" or "https://" and a host, perhaps a port and a path: letters, digits and "-._~:/[]%".
bool is_base_url(std::string_view text);

}  // namespace trug::feed
