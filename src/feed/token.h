// SPDX-License-Identifier: MIT
// Secret links. Who knows the token may read the calendar; the program keeps only its hash, so the
// file of links opens nothing.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostics.h"

namespace trug::feed {

inline constexpr std::size_t kTokenLength = 43;

// 32 random bytes as base64url without padding (RFC 4648, 5): 43 characters, 256 bits.
std::string make_token(const std::array<std::uint8_t, 32>& random);
// 43 characters of the base64url alphabet; says nothing about whether it opens anything.
bool is_token(std::string_view text);
// SHA-256 as 64 lower-case hexadecimal digits. With 256 random bits no salt and no slow hash is
// needed: there is no dictionary to try.
std::string token_hash(std::string_view token);

enum class LinkState { Active, Revoked };

struct Link {
  std::string hash;
  LinkState state = LinkState::Active;
  bool operator==(const Link&) const = default;
};

// The file of links: "active HASH" or "revoked HASH" a line; empty lines and those that start with
// # are passed over. Errors go to the collector and never repeat what the line holds: it might be
// a token put there by mistake. Hashes are unique.
std::vector<Link> parse_links(std::string_view text, const std::string& path,
                              Diagnostics& diagnostics);
std::string links_text(const std::vector<Link>& links);

}  // namespace trug::feed
