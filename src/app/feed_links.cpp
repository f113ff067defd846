// SPDX-License-Identifier: MIT
#include "app/feed_links.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdint>
#include <ios>
#include <set>
#include <sstream>

#include "app/output_file.h"

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

// The text with each line the diagnostics complain of made a remark.
std::string with_remarks(const std::string& text, const Diagnostics& diagnostics) {
  std::set<int> wrong;
  for (const Diagnostic& complaint : diagnostics.sorted()) wrong.insert(complaint.position.line);
  std::string result;
  std::istringstream lines(text);
  lines.exceptions(std::ios::badbit);  // memory refused is no end of the file
  int number = 0;
  for (std::string line; std::getline(lines, line);) {
    result += fmt::format("{}{}\n", wrong.contains(++number) ? "# " : "", line);
  }
  return result;
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

bool has_links(const std::string& path, const Environment& environment) {
  Diagnostics diagnostics;
  return !feed::parse_links(environment.files.read(path, kMostOctets).bytes, path, diagnostics)
              .empty();
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
  OutputFile file(path, Access::OwnerAlways);
  std::string text = file.previous().value_or("");
  if (!parsed(text, path, environment)) return false;
  if (text.empty()) text = feed::links_text({});
  if (!text.ends_with('\n')) text += '\n';
  file.replace(text + fmt::format("{}{}\n", kActive, feed::token_hash(token)));
  return true;
}

int withdraw_links(const std::string& path, const std::optional<std::string>& token,
                   const Environment& environment) {
  OutputFile file(path, Access::OwnerAlways);
  const std::string before = file.previous().value_or("");
  Diagnostics diagnostics;
  const std::vector<feed::Link> links = feed::parse_links(before, path, diagnostics);
  const auto wrong = static_cast<int>(diagnostics.error_count());
  std::string text = wrong > 0 ? with_remarks(before, diagnostics) : before;
  const std::string wanted = token ? feed::token_hash(*token) : "";
  int found = token ? 0 : wrong;
  for (const feed::Link& link : links) {
    if (token && link.hash != wanted) continue;
    ++found;
    withdraw(text, link.hash);
  }
  if (text != before) file.replace(text);
  if (wrong > 0) {
    environment.err << diagnostics.render()
                    << fmt::format("note: what is wrong in {} is a remark now\n", path);
  }
  return found;
}

}  // namespace trug::app
