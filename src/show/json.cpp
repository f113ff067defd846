// SPDX-License-Identifier: MIT
#include "show/json.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <tuple>
#include <utility>

#include "base/words.h"
#include "show/json_parts.h"
#include "show/plan_json.h"

namespace trug::show {
namespace {

std::string_view to_string(work::Job::State state) {
  switch (state) {
    case work::Job::State::Due:
      return "due";
    case work::Job::State::Recorded:
      return "recorded";
    case work::Job::State::Assumed:
      return "assumed";
  }
  return "";
}

// When the job's reminder rings, "2027-04-01T18:00" of the gardener's own clock; null: never.
Json reminder_json(const Plan& plan, const work::Job& job) {
  if (!job.reminder) return nullptr;
  const int minutes = plan.work.remind_at_minutes;
  return fmt::format("{}T{:02}:{:02}", iso(job.day - Days{plan.work.remind_days_before}),
                     minutes / 60, minutes % 60);
}

Json uid_json(const std::string& uid) { return uid.empty() ? Json(nullptr) : Json(uid); }

constexpr Word<Raised> kWhere[] = {{Raised::InPlace, "bed"},
                                   {Raised::Heated, "heated"},
                                   {Raised::Frame, "frame"},
                                   {Raised::NurseryBed, "nursery"}};
static_assert(names_all(kWhere));

// All fields but the links to other jobs.
Json job_json(const Plan& plan, const JobRow& job) {
  Json row;
  row["uid"] = uid_json(job.uid);
  row["kind"] = work::to_string(job.key.kind);
  row["date"] = iso(job.day);
  row["first"] = iso(job.first);
  row["last"] = iso(job.last);
  row["state"] = to_string(job.state);
  // A joint order is no one planting's.
  const auto its = [&](Json value) { return job.parts.empty() ? std::move(value) : Json(nullptr); };
  row["planting"] = its(job.planting_name);
  row["bed"] = its(job.bed);
  row["stretch"] = job.stretch > 0 ? Json(job.stretch) : Json(nullptr);
  row["at_cm"] = its(job.at_cm);
  row["length_cm"] = its(job.length_cm);
  row["succession"] = its(succession_json(job.key.succession));
  row["crop"] = its(job.crop);
  row["variety"] = maybe(job.variety);
  row["way"] = its(job.way);
  row["where"] = job.where ? Json(word_of(kWhere, *job.where)) : Json(nullptr);
  row["plants"] = maybe(job.plants);
  row["spacing_cm"] = maybe(job.spacing_cm);
  row["depth_mm"] = maybe(job.depth_mm);
  row["person"] = maybe(job.person);
  row["text"] = job.text;
  row["cautions"] = caution_lines(job);
  row["after"] = Json::array();
  row["title"] = job.title;
  row["minutes"] = std::lround(job.minutes);
  row["reminder"] = reminder_json(plan, job);
  row["event"] = uid_json(job.event);
  row["told_with"] = nullptr;
  row["items"] = job.parts.empty() ? Json(nullptr) : Json::array();
  for (const work::Purchase& item : job.items) row["items"].push_back(purchase_json(plan, item));
  return row;
}

Json job_json(const Reckoned& r, std::size_t index) {
  Json row = job_json(r.plan, r.rows[index]);
  if (!r.plan.garden) return row;
  for (const std::size_t i : r.rows[index].after) row["after"].push_back(r.rows[i].uid);
  if (const auto& carrier = r.rows[index].told_with) row["told_with"] = r.rows[*carrier].uid;
  return row;
}

}  // namespace

std::string jobs_json(const DocumentHead& head, const Reckoned& reckoned,
                      const std::vector<std::size_t>& shown) {
  Json document = json_of(head, reckoned);
  std::vector<std::size_t> order = shown;
  std::ranges::stable_sort(order, {}, [&](std::size_t i) {
    return std::tie(reckoned.rows[i].day, reckoned.rows[i].uid);
  });
  document["jobs"] = Json::array();
  for (const std::size_t index : order) document["jobs"].push_back(job_json(reckoned, index));
  document["plantings"] = Json::array();
  for (const ground::Sowing& sowing : reckoned.schedule.sowings) {
    document["plantings"].push_back(sowing_json(reckoned, sowing));
  }
  return dump(document);
}

std::string check_json(const DocumentHead& head, const Reckoned& reckoned) {
  Json document = json_of(head, reckoned);
  document["exact"] = reckoned.schedule.exact;
  document["rounds"] = reckoned.schedule.rounds;
  document["calls"] = reckoned.schedule.calls;
  const auto& bound = reckoned.schedule.bound;
  document["value"] = bound ? Json(bound->value) : Json(nullptr);
  document["bound"] = bound ? Json(bound->most) : Json(nullptr);
  return dump(document);
}

std::string errors_json(const DocumentHead& head, const std::vector<Diagnostic>& errors) {
  Json document = json_of(head);
  for (const Diagnostic& error : errors) {
    document["errors"].push_back({{"file", error.position.file},
                                  {"line", error.position.line},
                                  {"column", error.position.column},
                                  {"message", error.message},
                                  {"hint", error.hint}});
  }
  return dump(document);
}

std::string jobs_csv(const Reckoned& reckoned, const std::vector<std::size_t>& shown) {
  std::vector<Json> rows;
  // No field holds a list of a list: a joint order's text says what its items do.
  const auto flat = [](Json row) {
    row.erase("items");
    return row;
  };
  for (const std::size_t index : shown) rows.push_back(flat(job_json(reckoned, index)));
  // The header stands in an empty list too; no job need be there to name the fields.
  return csv(flat(job_json(reckoned.plan, JobRow{})), rows);
}

}  // namespace trug::show
