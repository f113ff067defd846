// SPDX-License-Identifier: MIT
#include "show/change_words.h"

#include <fmt/format.h>

#include <cstdlib>
#include <map>
#include <nlohmann/json.hpp>

#include "base/text.h"

namespace trug::show {
namespace {

using Json = nlohmann::ordered_json;

std::string change_line(const CalendarChange& change) {
  if (change.kind == "moved") {
    const int days = days_between(change.from, change.to);
    return fmt::format("  moved      {}: {} to {}, {} {}\n", change.summary, plain_day(change.from),
                       plain_day(change.to), counted(std::abs(days), "day"),
                       days > 0 ? "later" : "earlier");
  }
  return fmt::format("  {}{}: {}\n", padded(change.kind, 11), change.summary, plain_day(change.to));
}

Json change_json(const CalendarChange& change) {
  return {{"kind", change.kind},
          {"uid", change.uid},
          {"summary", change.summary},
          {"from", iso(change.from)},
          {"to", iso(change.to)}};
}

}  // namespace

std::string changes_page(const CalendarFile& file) {
  std::map<std::string, int> counts;
  for (const CalendarChange& change : file.changes) ++counts[change.kind];
  std::vector<std::string> parts;
  for (const auto& [kind, count] : counts) parts.push_back(fmt::format("{} {}", count, kind));
  const std::string_view verb = file.dry_run ? "would hold" : "holds";
  std::string text = fmt::format("{} {} {}: {}\n", file.path, verb, counted(file.events, "event"),
                                 parts.empty() ? "nothing changed" : listed(parts));
  // A first file is all new: its lines say nothing that the jobs do not.
  for (const CalendarChange& change : file.changes) {
    if (file.had_previous || change.kind != "new") text += change_line(change);
  }
  for (const CalendarChange& change : file.overtaken) {
    text += fmt::format("  past       {}: {} stays; the plan now says {}\n", change.summary,
                        plain_day(change.from), plain_day(change.to));
  }
  return text;
}

std::string changes_json(const DocumentHead& head, const std::vector<CalendarFile>& files) {
  Json document;
  document["format"] = head.format;
  document["program"] = head.program;
  document["today"] = iso(head.today);
  document["files"] = Json::array();
  for (const CalendarFile& file : files) {
    Json row{{"path", file.path}, {"events", file.events}, {"dry_run", file.dry_run}};
    row["changes"] = Json::array();
    for (const CalendarChange& change : file.changes) row["changes"].push_back(change_json(change));
    row["overtaken"] = Json::array();
    for (const CalendarChange& change : file.overtaken) {
      row["overtaken"].push_back(change_json(change));
    }
    document["files"].push_back(std::move(row));
  }
  return document.dump(2) + "\n";
}

}  // namespace trug::show
