// SPDX-License-Identifier: MIT
#include "show/json.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <tuple>

#include "base/words.h"
#include "show/finding_words.h"

namespace trug::show {
namespace {

using Json = nlohmann::ordered_json;

template <class T>
Json maybe(const std::optional<T>& value) {
  return value ? Json(*value) : Json(nullptr);
}

// A name of a file need not be UTF-8: what is not becomes U+FFFD.
std::string dump(const Json& document) {
  return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

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

std::string_view to_string(growth::Basis basis) {
  switch (basis) {
    case growth::Basis::Heat:
      return "heat";
    case growth::Basis::Light:
      return "light";
    case growth::Basis::Measured:
      return "measured";
    case growth::Basis::Window:
      return "window";
  }
  return "";
}

Json head_json(const DocumentHead& head) {
  Json document;
  document["format"] = head.format;
  document["program"] = head.program;
  document["today"] = iso(head.today);
  document["plans"] = Json::array();
  document["findings"] = Json::array();
  document["errors"] = Json::array();
  return document;
}

Json finding_json(const Plan& plan, const ask::Finding& finding) {
  Json row;
  row["code"] = finding.code();
  row["rank"] = ask::to_string(finding.rank());
  row["file"] = finding.at.file;
  row["line"] = finding.at.line;
  row["column"] = finding.at.column;
  row["key"] = finding.key;
  row["planting"] = finding.planting ? Json(plan.plantings[*finding.planting].name) : Json(nullptr);
  row["message"] = message(plan, finding);
  row["numbers"] = Json::object();
  for (const auto& [name, value] : numbers(finding)) row["numbers"][name] = value;
  if (finding.remedy) {
    row["remedy"] = {{"text", remedy_text(plan, finding)},
                     {"toml", maybe(remedy_toml(plan, finding))}};
  } else {
    row["remedy"] = nullptr;
  }
  return row;
}

Json document_json(const DocumentHead& head, const Reckoned& r) {
  Json document = head_json(head);
  document["plans"].push_back(
      {{"file", r.plan.file},
       {"title", r.plan.title},
       {"garden", r.plan.garden ? Json(trug::to_string(*r.plan.garden)) : Json(nullptr)},
       {"flowering_years", {r.plan.flowering_year}}});
  for (const ask::Finding& finding : r.findings) {
    document["findings"].push_back(finding_json(r.plan, finding));
  }
  return document;
}

Json spread_json(const growth::DateSpread& spread) {
  return {{"early", iso(spread.early)}, {"likely", iso(spread.likely)}, {"late", iso(spread.late)}};
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
  row["planting"] = job.planting_name;
  row["bed"] = job.bed;
  row["stretch"] = job.stretch > 0 ? Json(job.stretch) : Json(nullptr);
  row["at_cm"] = job.at_cm;
  row["length_cm"] = job.length_cm;
  row["succession"] = job.key.succession > 0 ? Json(job.key.succession) : Json(nullptr);
  row["crop"] = job.crop;
  row["variety"] = maybe(job.variety);
  row["way"] = job.way;
  row["where"] = job.where ? Json(word_of(kWhere, *job.where)) : Json(nullptr);
  row["plants"] = maybe(job.plants);
  row["spacing_cm"] = maybe(job.spacing_cm);
  row["depth_mm"] = maybe(job.depth_mm);
  row["person"] = maybe(job.person);
  row["text"] = job.text;
  row["cautions"] = job.cautions;
  row["after"] = Json::array();
  row["reminder"] = reminder_json(plan, job);
  return row;
}

Json job_json(const Reckoned& r, std::size_t index) {
  Json row = job_json(r.plan, r.rows[index]);
  if (!r.plan.garden) return row;
  for (const std::size_t i : r.rows[index].after) row["after"].push_back(r.rows[i].uid);
  return row;
}

Json sowing_json(const Reckoned& r, const ground::Sowing& c) {
  const Planting& planting = r.plan.plantings[c.planting];
  const growth::DateSpread& cut = c.timeline.first_cut;
  // The last cut moves with the first, but never beyond the lift.
  const Date last = c.last_cut();
  const growth::DateSpread last_cut{last - (cut.likely - cut.early), last,
                                    c.timeline.cut_short ? last : last + (cut.late - cut.likely)};
  Json row;
  row["id"] = planting.name;
  const Bed* bed = bed_of(r.plan, planting);
  row["bed"] = bed ? Json(bed->name) : Json(nullptr);
  row["stretch"] = planting.patch ? Json(planting.patch->stretch) : Json(nullptr);
  row["crop"] = planting.asked.crop;
  row["way"] = c.raised_by().name;
  row["flowering_year"] = planting.flowering_year;
  row["start"] = iso(c.start);
  row["in_ground"] = iso(c.in_ground);
  row["lift"] = iso(c.lift);
  row["first_cut"] = spread_json(cut);
  row["last_cut"] = spread_json(last_cut);
  row["plants"] = c.plants;
  row["basis"] = to_string(c.timeline.basis);
  row["exact"] = r.schedule.exact;
  row["group"] = c.group ? Json(c.group->name) : Json(nullptr);
  return row;
}

std::string csv_field(const Json& value) {
  if (value.is_null()) return "";
  std::string text;
  if (value.is_array()) {
    for (const Json& item : value) {
      text += (text.empty() ? "" : " | ") + item.get<std::string>();
    }
  } else {
    text = value.is_string() ? value.get<std::string>() : value.dump();
  }
  // Spreadsheets would reckon with it.
  if (value.is_string() && !text.empty() && std::string_view("=+-@").find(text[0]) != text.npos) {
    text.insert(0, "'");
  }
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

}  // namespace

std::string jobs_json(const DocumentHead& head, const Reckoned& reckoned,
                      const std::vector<std::size_t>& shown) {
  Json document = document_json(head, reckoned);
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
  Json document = document_json(head, reckoned);
  document["exact"] = reckoned.schedule.exact;
  document["rounds"] = reckoned.schedule.rounds;
  return dump(document);
}

std::string errors_json(const DocumentHead& head, const std::vector<Diagnostic>& errors) {
  Json document = head_json(head);
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
  std::string text;
  // The header stands in an empty list too; no job need be there to name the fields.
  const Json fields = job_json(reckoned.plan, JobRow{});
  for (const auto& [name, value] : fields.items()) text += (text.empty() ? "" : ",") + name;
  text += "\r\n";
  for (const std::size_t index : shown) {
    const Json row = job_json(reckoned, index);
    std::string line;
    bool first = true;
    for (const auto& [name, value] : row.items()) {
      if (!first) line += ',';
      first = false;
      line += csv_field(value);
    }
    text += line + "\r\n";
  }
  return text;
}

}  // namespace trug::show
