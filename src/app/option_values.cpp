// SPDX-License-Identifier: MIT
#include "app/option_values.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <string_view>

#include "app/command_facts.h"
#include "base/date.h"
#include "base/text.h"
#include "garden/sheet.h"
#include "work/job_kinds.h"

namespace trug::app {
namespace {

// The kinds of job a word stands for: "sow" itself; "raising" for its group; "order" and "cut" for
// all that have it as a part of their word; "harden" for the only one that begins so. Empty: none,
// or no telling which.
std::vector<work::JobKind> kinds_of(const std::string& text) {
  if (const auto kind = work::parse_job_kind(text)) return {*kind};
  if (auto group = work::kinds_in_group(text); !group.empty()) return group;
  std::vector<work::JobKind> parts, beginnings;
  for (const work::JobTrait& kind : work::kTraits) {
    const std::string word(kind.word);
    const bool is_part = ("-" + word + "-").find("-" + text + "-") != std::string::npos;
    if (is_part) parts.push_back(kind.kind);
    if (word.starts_with(text)) beginnings.push_back(kind.kind);
  }
  if (!parts.empty()) return parts;
  return beginnings.size() == 1 ? beginnings : std::vector<work::JobKind>{};
}

}  // namespace

feed::Address parse_listen_option(const std::string& text) {
  const auto address = feed::parse_address(text);
  if (!address) {
    throw CLI::ValidationError(
        "--listen",
        fmt::format("'{}' is no address with a port; write it as 192.168.1.20:8017", text));
  }
  return *address;
}

std::string parse_url_option(const std::string& text) {
  if (!feed::is_base_url(text)) {
    throw CLI::ValidationError("--url",
                               fmt::format("'{}' must be like https://example.org/garden", text));
  }
  return text;
}

std::vector<work::JobKind> parse_kinds_option(const std::string& text) {
  const std::vector<work::JobKind> kinds = kinds_of(text);
  if (!kinds.empty()) return kinds;
  const std::vector<std::string> known = value_words("KIND");
  const std::string near = nearest(text, known);
  throw CLI::ValidationError(
      "--only", near.empty()
                    ? fmt::format("'{}' is no kind of job; there are {}", text, listed(known))
                    : fmt::format("'{}' is no kind of job; did you mean '{}'?", text, near));
}

std::chrono::month parse_month_option(const std::string& text) {
  const auto month = parse_month(text);
  if (!month) {
    throw CLI::ValidationError("--month", fmt::format("'{}' is no month; write it as May", text));
  }
  return *month;
}

std::string parse_life(const std::string& text) {
  std::vector<std::string> known;
  for (const auto& life : kLifeCycles) {
    if (life.word.find(text) != std::string_view::npos) return "";
    known.emplace_back(life.word);
  }
  return fmt::format("'{}' is no life cycle; there are {}", text, listed(known));
}

Role role_of(const std::string& word) {
  return std::ranges::find(kRoles, word, &Word<Role>::word)->value;
}

read::DegreeUnit unit_of(const std::string& word) {
  if (word == "c") return read::DegreeUnit::Celsius;
  return word == "f" ? read::DegreeUnit::Fahrenheit : read::DegreeUnit::TenthsCelsius;
}

}  // namespace trug::app
