// SPDX-License-Identifier: MIT
#include "feed/token.h"

#include <gtest/gtest.h>

#include <set>

namespace trug::feed {
namespace {

using Random = std::array<std::uint8_t, 32>;

Random counting() {
  Random bytes{};
  for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<std::uint8_t>(i);
  return bytes;
}

Random filled(std::uint8_t byte) {
  Random bytes{};
  bytes.fill(byte);
  return bytes;
}

// Expected: Python's base64.urlsafe_b64encode, padding taken off.
TEST(Token, IsBase64urlWithoutPadding) {
  EXPECT_EQ(make_token(filled(0)), "AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA");
  EXPECT_EQ(make_token(filled(0xff)), "__________________________________________8");
  EXPECT_EQ(make_token(counting()), "AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8");
  Random mixed{};
  for (std::size_t i = 0; i < mixed.size(); ++i) {
    mixed[i] = static_cast<std::uint8_t>(i * 37 + 251);
  }
  EXPECT_EQ(make_token(mixed), "-yBFao-02f4jSG2St9wBJktwlbrfBClOc5i94gcsUXY");
}

TEST(Token, EveryBitCounts) {
  std::set<std::string> tokens;
  for (std::size_t bit = 0; bit < 256; ++bit) {
    Random bytes = counting();
    bytes[bit / 8] = static_cast<std::uint8_t>(bytes[bit / 8] ^ 1U << bit % 8);
    tokens.insert(make_token(bytes));
  }
  EXPECT_EQ(tokens.size(), 256U);
  EXPECT_FALSE(tokens.contains(make_token(counting())));
}

TEST(Token, IsRecognised) {
  EXPECT_TRUE(is_token(make_token(counting())));
  EXPECT_FALSE(is_token(""));
  EXPECT_FALSE(is_token(std::string(42, 'A')));
  EXPECT_FALSE(is_token(std::string(44, 'A')));
  for (const char wrong : {'+', '/', '=', '.', '%', ' ', '\0', '\n', '\xc3'}) {
    EXPECT_FALSE(is_token(std::string(42, 'A') + wrong)) << int{wrong};
  }
}

// Expected: Python's hashlib.sha256.
TEST(Token, HashIsSha256OfItsText) {
  EXPECT_EQ(token_hash(make_token(counting())),
            "ea866a757e4c38babfa8127cbe9a409d3e1f93a00ff1488ff735fcf917afffd0");
}

const std::string kOne(64, '1');
const std::string kTwo(64, 'a');

TEST(Links, AreReadBackAsWritten) {
  const std::vector<Link> links{{kOne, LinkState::Active}, {kTwo, LinkState::Revoked}};
  const std::string text = links_text(links);
  EXPECT_EQ(text,
            "# Links to the calendar, as SHA-256 hashes: the links themselves cannot be read from "
            "here.\nactive " +
                kOne + "\nrevoked " + kTwo + "\n");
  Diagnostics diagnostics;
  EXPECT_EQ(parse_links(text, "links", diagnostics), links);
  EXPECT_TRUE(diagnostics.empty());
}

TEST(Links, EmptyLinesAndRemarksArePassedOver) {
  Diagnostics diagnostics;
  const auto links = parse_links("\n# for the neighbour\nactive " + kOne, "links", diagnostics);
  EXPECT_EQ(links, (std::vector<Link>{{kOne, LinkState::Active}}));
  EXPECT_TRUE(diagnostics.empty());
  EXPECT_TRUE(parse_links("", "links", diagnostics).empty());
  EXPECT_TRUE(diagnostics.empty());
}

TEST(Links, LineEndsOfOtherSystemsAreRead) {
  Diagnostics diagnostics;
  const auto links = parse_links("\r\nactive " + kOne + "\r\n", "links", diagnostics);
  EXPECT_EQ(links, (std::vector<Link>{{kOne, LinkState::Active}}));
  EXPECT_TRUE(diagnostics.empty());
}

TEST(Links, WhatIsNoLinkIsAnErrorAtItsLine) {
  const std::string secret = make_token(counting());
  for (const std::string& line : std::vector<std::string>{
           secret, "active " + secret, "active " + kOne + " ", "active  " + kOne, "Active " + kOne,
           "active " + std::string(64, 'A'), "active " + kOne + "1", "active", kOne}) {
    SCOPED_TRACE(line);
    Diagnostics diagnostics;
    EXPECT_TRUE(parse_links("\n" + line + "\n", "garden.links", diagnostics).empty());
    EXPECT_EQ(diagnostics.render(),
              "garden.links:2:1: error: a line must be 'active' or 'revoked', a blank and 64 "
              "hexadecimal digits\n"
              "  hint: take the line out, and make a new link for whoever used it\n");
    EXPECT_EQ(diagnostics.render().find(secret), std::string::npos);
  }
}

TEST(Links, TheSameLinkTwiceIsAnError) {
  Diagnostics diagnostics;
  const auto links =
      parse_links("active " + kOne + "\nrevoked " + kOne + "\n", "links", diagnostics);
  EXPECT_EQ(links.size(), 1U);
  ASSERT_EQ(diagnostics.sorted().size(), 1U);
  EXPECT_EQ(diagnostics.sorted()[0].position, (Position{"links", 2, 1}));
  EXPECT_EQ(diagnostics.sorted()[0].message, "this link already stands above");
}

}  // namespace
}  // namespace trug::feed
