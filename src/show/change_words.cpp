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

std::string renamed_lines(const Renamed& bed) {
  return fmt::format(
      "  renamed?   bed \"{0}\" is gone, and \"{1}\" has its crops: paste under the name of "
      "\"{1}\",\n             so that its jobs stay those they were:\n"
      "    id = \"{0}\"\n",
      bed.before, bed.now);
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

// What changed of one planting.
struct OfPlanting {
  std::vector<std::string> buy, way;
  std::vector<const CalendarChange*> moved, fresh, gone, reworded, changed;
  std::vector<Reason> reasons;  // the first that are given

  void add(const CalendarChange& change) {
    if (change.kind == "expired") return;
    const bool is_fresh = change.kind == "new" || change.kind == "revived";
    auto& list = change.kind == "moved"      ? moved
                 : change.kind == "changed"  ? changed
                 : change.kind == "reworded" ? reworded
                 : is_fresh                  ? fresh
                                             : gone;
    list.push_back(&change);
    if (reasons.empty()) reasons = change.reasons;
  }

  // What matters first: money, then dates.
  int rank() const {
    if (!buy.empty()) return 0;
    if (!way.empty()) return 1;
    if (!moved.empty()) return 2;
    if (!fresh.empty()) return 3;
    if (!gone.empty()) return 4;
    return reworded.empty() && changed.empty() ? 6 : 5;
  }
};

constexpr const char* kHeads[] = {"buy", "way", "moved", "new", "gone", "reworded"};

std::string and_more(std::size_t jobs) {
  return jobs > 1 ? fmt::format(" and {} more", jobs - 1) : "";
}

// "Sow 12 to 22 May 2027, 10 days later, and 3 more"; the list is by day.
std::string moved_words(const std::vector<const CalendarChange*>& moved) {
  const CalendarChange& first = *moved.front();
  const int days = days_between(first.from, first.to);
  return fmt::format("{} {} to {}, {} {}{}", first.doing, short_day(first.from),
                     plain_day(first.to), counted(std::abs(days), "day"),
                     days > 0 ? "later" : "earlier", and_more(moved.size()));
}

std::string listed_words(std::string_view word, const std::vector<const CalendarChange*>& jobs) {
  return fmt::format("{}{} on {}{}", word, jobs.front()->doing, plain_day(jobs.front()->to),
                     and_more(jobs.size()));
}

std::string planting_line(const std::string& planting, const OfPlanting& of) {
  std::vector<std::string> parts = of.buy;
  parts.insert(parts.end(), of.way.begin(), of.way.end());
  if (!of.moved.empty()) parts.push_back(moved_words(of.moved));
  const bool plain = parts.empty();
  if (!of.fresh.empty()) parts.push_back(listed_words(plain ? "" : "new: ", of.fresh));
  if (!of.gone.empty()) {
    parts.push_back(listed_words(plain && of.fresh.empty() ? "" : "gone: ", of.gone));
  }
  if (parts.empty()) parts.push_back(counted(static_cast<int>(of.reworded.size()), "job"));
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : "; ") + part;
  return fmt::format("  {}{}: {}{}\n", padded(kHeads[of.rank()], 11), planting, text,
                     in_brackets(of.reasons));
}

// "  days       new: 3 March and 29 May; gone: 13 March; other jobs: 10 March and 20 more"
std::string days_line(const CalendarFile& file) {
  constexpr std::size_t kNamed = 6;
  constexpr std::pair<std::string_view, std::string_view> kWords[] = {
      {"new", "new"},      {"revived", "new"},         {"cancelled", "gone"},
      {"removed", "gone"}, {"reworded", "other jobs"}, {"changed", "other jobs"}};
  std::map<std::string_view, std::vector<std::string>> days;
  for (const CalendarChange& change : file.changes) {
    const auto* word =
        std::ranges::find(kWords, change.kind, [](const auto& one) { return one.first; });
    if (change.planting.empty() && word != std::end(kWords)) {
      days[word->second].push_back(short_day(change.to));
    }
  }
  std::string text;
  for (const std::string_view word : {"new", "gone", "other jobs"}) {
    std::vector<std::string>& named = days[word];
    if (named.empty()) continue;
    const std::size_t more = named.size() > kNamed ? named.size() - kNamed + 1 : 0;
    if (more > 0) {
      named.resize(kNamed - 1);
      named.push_back(fmt::format("{} more", more));
    }
    text += fmt::format("{}{}: {}", text.empty() ? "" : "; ", word, listed(named));
  }
  return text.empty() ? "" : fmt::format("  {}{}\n", padded("days", 11), text);
}

std::string planting_lines(const CalendarFile& file) {
  std::map<std::string, OfPlanting> all;
  std::vector<std::string> order;  // by the first day on which each changed
  for (const CalendarChange& change : file.changes) {
    if (change.planting.empty()) continue;
    if (!all.contains(change.planting)) order.push_back(change.planting);
    all[change.planting].add(change);
  }
  for (const PlantingChange& altered : file.altered) {
    if (!all.contains(altered.planting)) order.push_back(altered.planting);
    all[altered.planting].buy = altered.buy;
    all[altered.planting].way = altered.way;
  }
  std::ranges::stable_sort(order, {}, [&](const std::string& name) { return all[name].rank(); });
  std::string text;
  for (const std::string& name : order) {
    const OfPlanting& of = all[name];
    if (of.rank() < static_cast<int>(std::size(kHeads))) text += planting_line(name, of);
  }
  return text + days_line(file);
}

Json reasons_json(const std::vector<Reason>& reasons) {
  Json list = Json::array();
  for (const Reason& reason : reasons) {
    list.push_back({{"code", reason.code}, {"text", reason.text}});
  }
  return list;
}

Json change_json(const CalendarChange& change) {
  return {{"kind", change.kind},        {"uid", change.uid},
          {"summary", change.summary},  {"from", iso(change.from)},
          {"to", iso(change.to)},       {"reasons", reasons_json(change.reasons)},
          {"planting", change.planting}};
}

Json altered_json(const std::vector<PlantingChange>& altered) {
  Json list = Json::array();
  for (const PlantingChange& one : altered) {
    list.push_back({{"planting", one.planting}, {"buy", one.buy}, {"way", one.way}});
  }
  return list;
}

Json renamed_json(const std::vector<Renamed>& renamed) {
  Json list = Json::array();
  for (const Renamed& bed : renamed) list.push_back({{"bed", bed.now}, {"was", bed.before}});
  return list;
}

}  // namespace

std::string changes_page(const CalendarFile& file, bool each_job) {
  std::map<std::string, int> counts;
  for (const CalendarChange& change : file.changes) ++counts[change.kind];
  std::vector<std::string> parts;
  for (const auto& [kind, count] : counts) parts.push_back(fmt::format("{} {}", count, kind));
  const std::string_view verb = file.dry_run ? "would hold" : "holds";
  std::string text = fmt::format("{} {} {}: {}\n", file.path, verb, counted(file.events, "event"),
                                 parts.empty() ? "nothing changed" : listed(parts));
  text += what_changed_line(file);
  for (const Renamed& bed : file.renamed) text += renamed_lines(bed);
  // A first file is all new: its lines say nothing that the jobs do not.
  if (file.had_previous) text += planting_lines(file);
  for (const CalendarChange& change : file.changes) {
    if (each_job && (file.had_previous || change.kind != "new")) text += change_line(change);
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
    row["altered"] = altered_json(file.altered);
    row["renamed"] = renamed_json(file.renamed);
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
