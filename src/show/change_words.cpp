// SPDX-License-Identifier: MIT
#include "show/change_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <string_view>
#include <utility>

#include "base/text.h"
#include "show/plan_json.h"

namespace trug::show {
namespace {

std::string texts(const std::vector<Reason>& reasons) {
  std::string text;
  for (const Reason& reason : reasons) text += (text.empty() ? "" : "; ") + reason.text;
  return text;
}

std::string in_brackets(const std::vector<Reason>& reasons) {
  return reasons.empty() ? "" : fmt::format(" ({})", texts(reasons));
}

std::string change_line(const CalendarChange& change) {
  if (change.kind == "moved") {
    const int days = days_between(change.from, change.to);
    return fmt::format("  moved      {}: {} to {}, {} {}{}\n", change.summary,
                       plain_day(change.from), plain_day(change.to), counted(std::abs(days), "day"),
                       days > 0 ? "later" : "earlier", in_brackets(change.reasons));
  }
  return fmt::format("  {}{}: {}\n", padded(change.kind, 11), change.summary, plain_day(change.to));
}

// A past event whose day the plan would now set later.
std::string overtaken_message(const CalendarChange& change) {
  return fmt::format("{} stays on {}; the plan now wants it on {}", change.summary,
                     plain_day(change.from), plain_day(change.to));
}

// What the days hang on and is another; where that is not known, said so where it is missed.
std::string what_changed_line(const CalendarFile& file) {
  const auto moved = [](const CalendarChange& change) { return change.kind == "moved"; };
  const bool asked = std::ranges::any_of(file.changes, moved) || !file.overtaken.empty();
  if (!file.what_changed && asked) {
    return "  why is not known: the earlier file does not say what its days hung on\n";
  }
  const bool said = file.what_changed && !file.what_changed->empty();
  if (!said || (file.changes.empty() && file.overtaken.empty())) return "";
  return fmt::format("  since then: {}\n", texts(*file.what_changed));
}

Json reasons_json(const std::vector<Reason>& reasons) {
  Json list = Json::array();
  for (const Reason& reason : reasons) {
    list.push_back({{"code", reason.code}, {"text", reason.text}});
  }
  return list;
}

Json change_json(const CalendarChange& change) {
  return {{"kind", change.kind},       {"uid", change.uid},
          {"summary", change.summary}, {"from", iso(change.from)},
          {"to", iso(change.to)},      {"reasons", reasons_json(change.reasons)}};
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
  text += what_changed_line(file);
  // A first file is all new: its lines say nothing that the jobs do not.
  for (const CalendarChange& change : file.changes) {
    if (file.had_previous || change.kind != "new") text += change_line(change);
  }
  for (const CalendarChange& change : file.overtaken) {
    text +=
        fmt::format("  past       {}{}\n", overtaken_message(change), in_brackets(change.reasons));
  }
  return text;
}

std::string changes_json(const DocumentHead& head, const Reckoned& reckoned,
                         const std::vector<CalendarFile>& files) {
  Json document = json_of(head, reckoned);
  document["files"] = Json::array();
  for (const CalendarFile& file : files) {
    Json row{{"path", file.path}, {"events", file.events}, {"dry_run", file.dry_run}};
    row["what_changed"] = file.what_changed ? reasons_json(*file.what_changed) : Json(nullptr);
    row["changes"] = Json::array();
    for (const CalendarChange& change : file.changes) row["changes"].push_back(change_json(change));
    row["overtaken"] = Json::array();
    for (const CalendarChange& change : file.overtaken) {
      Json past = change_json(change);
      past["message"] = overtaken_message(change);
      row["overtaken"].push_back(std::move(past));
    }
    document["files"].push_back(std::move(row));
  }
  return dump(document);
}

}  // namespace trug::show
