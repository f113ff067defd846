// SPDX-License-Identifier: MIT
// UUIDs (RFC 9562) as lower-case text, and SHA-256.
#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace trug {

struct Uuid {
  std::array<std::uint8_t, 16> bytes{};
  auto operator<=>(const Uuid&) const = default;
};

// "6f1c2a0e-....", 36 characters, any case; nothing else.
std::optional<Uuid> parse_uuid(std::string_view text);
std::string to_string(const Uuid& uuid);
// Version 5: the same name in the same namespace is the same UUID (RFC 9562, 5.5).
Uuid uuid_v5(const Uuid& space, std::string_view name);
// Version 4 from 16 random bytes (RFC 9562, 5.4).
Uuid uuid_v4(std::array<std::uint8_t, 16> random);
// SHA-256 (FIPS 180-4) as 64 lower-case hexadecimal digits.
std::string sha256_hex(std::string_view bytes);

}  // namespace trug
