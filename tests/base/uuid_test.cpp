// SPDX-License-Identifier: MIT
#include "base/uuid.h"

#include <gtest/gtest.h>

namespace trug {
namespace {

// The DNS namespace (RFC 9562, 6.6) and the test vectors of its appendices A.3 and A.4.
TEST(Uuid, VersionFiveIsThatOfRfc9562AppendixA4) {
  const auto dns = parse_uuid("6ba7b810-9dad-11d1-80b4-00c04fd430c8");
  ASSERT_TRUE(dns);
  EXPECT_EQ(to_string(uuid_v5(*dns, "www.example.com")), "2ed6657d-e927-568b-95e1-2665a8aea6a2");
}

TEST(Uuid, VersionFourIsThatOfRfc9562AppendixA3) {
  const auto expected = parse_uuid("919108f7-52d1-4320-9bac-f847db4148a8");
  ASSERT_TRUE(expected);
  std::array<std::uint8_t, 16> random = expected->bytes;
  random[6] = static_cast<std::uint8_t>(random[6] | 0xf0);  // the bits that the version replaces
  random[8] = static_cast<std::uint8_t>(random[8] | 0xc0);
  EXPECT_EQ(to_string(uuid_v4(random)), "919108f7-52d1-4320-9bac-f847db4148a8");
}

TEST(Uuid, IsReadInAnyCaseAndWrittenSmall) {
  const auto uuid = parse_uuid("6BA7B810-9DAD-11D1-80B4-00C04FD430C8");
  ASSERT_TRUE(uuid);
  EXPECT_EQ(to_string(*uuid), "6ba7b810-9dad-11d1-80b4-00c04fd430c8");
}

TEST(Uuid, RefusesEverythingElse) {
  for (const char* text :
       {"", "6ba7b810-9dad-11d1-80b4-00c04fd430c", "6ba7b8109dad11d180b400c04fd430c8",
        "{6ba7b810-9dad-11d1-80b4-00c04fd430c8}", "6ba7b810-9dad-11d1-80b4-00c04fd430cg",
        "6ba7b810-9dad-11d1-80b400-c04fd430c8", "6ba7b81-09dad-11d1-80b4-00c04fd430c8"}) {
    SCOPED_TRACE(text);
    EXPECT_FALSE(parse_uuid(text));
  }
}

// FIPS 180-4 example values as NIST publishes them: "abc", the two-block message, the empty one.
TEST(Sha256, IsThatOfNist) {
  EXPECT_EQ(sha256_hex("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256_hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(sha256_hex(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

}  // namespace
}  // namespace trug
