// SPDX-License-Identifier: MIT
#include "app/feed_links.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <functional>

#include "app/output_file.h"
#include "app/owner_only.h"

namespace trug::app {
namespace {

constexpr std::size_t kMostOctets = 1024 * 1024;
constexpr std::string_view kActive = "active ";
constexpr std::string_view kRevoked = "revoked ";

std::optional<std::vector<feed::Link>> parsed(std::string_view text, const std::string& path,
                                              const Environment& environment) {
  Diagnostics diagnostics;
  std::vector<feed::Link> links = feed::parse_links(text, path, diagnostics);
  environment.err << diagnostics.render();
  if (diagnostics.has_errors()) return std::nullopt;
  return links;
}

using Edit = std::function<void(std::string& text, const std::vector<feed::Link>& links)>;

bool edit_links(const std::string& path, const Environment& environment, const Edit& edit) {
  const OwnerOnly mask;
  OutputFile file(path);
  const std::string before = file.previous().value_or("");
  const auto links = parsed(before, path, environment);
  if (!links) return false;
  std::string text = before;
  edit(text, *links);
  if (text != before) file.replace(text);
  return true;
}

// A hash stands in one line, but a remark of the gardener's may repeat it.
void withdraw(std::string& text, const std::string& hash) {
  const std::string line = fmt::format("{}{}", kActive, hash);
  std::size_t at = text.find(line);
  while (at != std::string::npos && at > 0 && text[at - 1] != '\n') at = text.find(line, at + 1);
  if (at != std::string::npos) text.replace(at, kActive.size(), kRevoked);
}

}  // namespace

std::string links_path(const std::string& feed_path) {
  constexpr std::string_view kEnding = ".ics";
  const bool usual = feed_path.ends_with(kEnding);
  return feed_path.substr(0, feed_path.size() - (usual ? kEnding.size() : 0)) + ".links";
}

std::optional<std::vector<feed::Link>> read_links(const std::string& path,
                                                  const Environment& environment) {
  const FileBytes file = environment.files.read(path, kMostOctets);
  if (file.state == FileState::Missing) return std::vector<feed::Link>();
  if (file.state != FileState::Read) throw IoError(EIO, "cannot read " + path);
  return parsed(file.bytes, path, environment);
}

std::string new_token(const Environment& environment) {
  std::array<std::uint8_t, 32> random{};
  const auto first = environment.random();
  const auto second = environment.random();
  std::ranges::copy(second, std::ranges::copy(first, random.begin()).out);
  return feed::make_token(random);
}

std::optional<std::string> token_in(std::string_view link) {
  while (!link.empty()) {
    const std::size_t slash = std::min(link.find('/'), link.size());
    if (feed::is_token(link.substr(0, slash))) return std::string(link.substr(0, slash));
    link.remove_prefix(std::min(slash + 1, link.size()));
  }
  return std::nullopt;
}

bool add_link(const std::string& path, const std::string& token, const Environment& environment) {
  return edit_links(path, environment, [&](std::string& text, const std::vector<feed::Link>&) {
    if (text.empty()) text = feed::links_text({});
    if (!text.ends_with('\n')) text += '\n';
    text += fmt::format("{}{}\n", kActive, feed::token_hash(token));
  });
}

std::optional<int> withdraw_links(const std::string& path, const std::optional<std::string>& token,
                                  const Environment& environment) {
  int found = 0;
  const std::string wanted = token ? feed::token_hash(*token) : "";
  const bool done =
      edit_links(path, environment, [&](std::string& text, const std::vector<feed::Link>& links) {
        for (const feed::Link& link : links) {
          if (token && link.hash != wanted) continue;
          ++found;
          withdraw(text, link.hash);
        }
      });
  return done ? std::optional(found) : std::nullopt;
}

}  // namespace trug::app
