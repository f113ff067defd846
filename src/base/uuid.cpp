// SPDX-License-Identifier: MIT
#include "base/uuid.h"

#include <nettle/sha1.h>
#include <nettle/sha2.h>

#include <span>

namespace trug {
namespace {

std::optional<unsigned> hex_value(char c) {
  if (c >= '0' && c <= '9') return static_cast<unsigned>(c - '0');
  if (c >= 'a' && c <= 'f') return static_cast<unsigned>(c - 'a') + 10;
  if (c >= 'A' && c <= 'F') return static_cast<unsigned>(c - 'A') + 10;
  return std::nullopt;
}

std::string hex(std::span<const std::uint8_t> bytes) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string text;
  text.reserve(2 * bytes.size() + 4);  // and the hyphens of a UUID
  for (const std::uint8_t byte : bytes) {
    text += kDigits[byte >> 4];
    text += kDigits[byte & 0x0f];
  }
  return text;
}

// Sets the version and the variant bits (RFC 9562, 4).
Uuid stamped(Uuid uuid, std::uint8_t version) {
  uuid.bytes[6] = static_cast<std::uint8_t>((uuid.bytes[6] & 0x0f) | (version << 4));
  uuid.bytes[8] = static_cast<std::uint8_t>((uuid.bytes[8] & 0x3f) | 0x80);
  return uuid;
}

const std::uint8_t* octets(std::string_view text) {
  return reinterpret_cast<const std::uint8_t*>(text.data());
}

}  // namespace

std::optional<Uuid> parse_uuid(std::string_view text) {
  if (text.size() != 36) return std::nullopt;
  Uuid uuid;
  std::size_t nibble = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i == 8 || i == 13 || i == 18 || i == 23) {
      if (text[i] != '-') return std::nullopt;
      continue;
    }
    const auto value = hex_value(text[i]);
    if (!value) return std::nullopt;
    std::uint8_t& byte = uuid.bytes[nibble / 2];
    byte = static_cast<std::uint8_t>(unsigned{byte} << 4 | *value);
    ++nibble;
  }
  return uuid;
}

std::string to_string(const Uuid& uuid) {
  std::string text = hex(uuid.bytes);
  for (const std::size_t at : {8U, 13U, 18U, 23U}) text.insert(at, 1, '-');
  return text;
}

Uuid uuid_v5(const Uuid& space, std::string_view name) {
  sha1_ctx context;
  sha1_init(&context);
  sha1_update(&context, space.bytes.size(), space.bytes.data());
  sha1_update(&context, name.size(), octets(name));
  Uuid uuid;
  sha1_digest(&context, uuid.bytes.size(), uuid.bytes.data());
  return stamped(uuid, 5);
}

Uuid uuid_v4(std::array<std::uint8_t, 16> random) { return stamped(Uuid{random}, 4); }

std::string sha256_hex(std::string_view bytes) {
  sha256_ctx context;
  sha256_init(&context);
  sha256_update(&context, bytes.size(), octets(bytes));
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
  sha256_digest(&context, digest.size(), digest.data());
  return hex(digest);
}

}  // namespace trug
