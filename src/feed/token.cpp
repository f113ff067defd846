// SPDX-License-Identifier: MIT
#include "feed/token.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "base/uuid.h"

namespace trug::feed {
namespace {

constexpr std::string_view kAlphabet =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
constexpr std::string_view kActive = "active ";
constexpr std::string_view kRevoked = "revoked ";

bool is_hash(std::string_view text) {
  return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

std::optional<Link> parse_link(std::string_view line) {
  const LinkState state = line.starts_with(kActive) ? LinkState::Active : LinkState::Revoked;
  const std::string_view word = state == LinkState::Active ? kActive : kRevoked;
  if (!line.starts_with(word) || !is_hash(line.substr(word.size()))) return std::nullopt;
  return Link{std::string(line.substr(word.size())), state};
}

}  // namespace

std::string make_token(const std::array<std::uint8_t, 32>& random) {
  std::string token;
  unsigned held = 0;
  int bits = 0;
  for (const std::uint8_t byte : random) {
    held = held << 8 | byte;
    for (bits += 8; bits >= 6; bits -= 6) token += kAlphabet[held >> (bits - 6) & 63];
  }
  return token += kAlphabet[held << (6 - bits) & 63];
}

bool is_token(std::string_view text) {
  return text.size() == kTokenLength && text.find_first_not_of(kAlphabet) == std::string_view::npos;
}

std::string token_hash(std::string_view token) { return sha256_hex(token); }

std::vector<Link> parse_links(std::string_view text, const std::string& path,
                              Diagnostics& diagnostics) {
  std::vector<Link> links;
  for (int number = 1; !text.empty(); ++number) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (line.ends_with('\r')) line.remove_suffix(1);
    if (line.empty() || line.front() == '#') continue;
    const auto link = parse_link(line);
    if (!link) {
      diagnostics.error({path, number, 1},
                        "a line must be 'active' or 'revoked', a blank and 64 hexadecimal digits",
                        "take the line out, and make a new link for whoever used it");
    } else if (std::ranges::find(links, link->hash, &Link::hash) != links.end()) {
      diagnostics.error({path, number, 1}, "this link already stands above",
                        "leave one line: 'revoked' if it should no longer open the calendar");
    } else {
      links.push_back(*link);
    }
  }
  return links;
}

std::string links_text(const std::vector<Link>& links) {
  std::string text =
      "# Links to the calendar, as SHA-256 hashes: the links themselves cannot be read from "
      "here.\n";
  for (const Link& link : links) {
    text += fmt::format("{}{}\n", link.state == LinkState::Active ? kActive : kRevoked, link.hash);
  }
  return text;
}

}  // namespace trug::feed
