// SPDX-License-Identifier: MIT
#include <optional>
#include <span>
#include <string>

#include "show/pages.h"
#include "show/plan_json.h"
#include "show/refusal_words.h"
#include "show/why.h"
#include "show/why_facts.h"

namespace trug::show {
namespace {

std::string iso_day(Date day) { return iso(day); }

Json step_json(const Step& step, int succession) {
  return {{"name", step.name},
          {"start", iso(step.start)},
          {"end", maybe(step.end, iso_day)},
          {"need", step.need},
          {"reached", step.reached},
          {"unit", step.unit},
          {"succession", succession_json(succession)}};
}

// With what the weather has to do with its dates.
Json weathered_json(const Reckoned& reckoned, const ground::Sowing& sowing) {
  Json row = sowing_json(reckoned, sowing);
  row["measured_until"] = maybe(sowing.timeline.measured_until, iso_day);
  row["years"] = sowing.timeline.years;
  row["years_without"] = sowing.timeline.years_without;
  const growth::Forecast& forecast = sowing.timeline.forecast;
  row["pinched"] = maybe(sowing.pinched ? forecast.pinched : std::nullopt, iso_day);
  row["outgrows_module"] = maybe(forecast.outgrows_module, iso_day);
  row["outgrows_pot"] = maybe(forecast.outgrows_pot, iso_day);
  row["cold_days"] = sowing.cold ? Json(sowing.cold->found) : Json(nullptr);
  row["cold_days_needed"] = sowing.cold ? Json(sowing.cold->needed) : Json(nullptr);
  row["alive"] = sowing.alive;
  row["too_hot_from"] = maybe(sowing.timeline.too_hot_from, iso_day);
  return row;
}

Json constant_json(const Constant& constant) {
  return {{"name", constant.key}, {"value", constant.value}, {"source", constant.source}};
}

Json way_json(const ground::WayReport& report, const Sheet& sheet) {
  const bool refused = report.allowed == 0 && report.refusal;
  return {{"name", sheet.ways[report.way].name},
          {"group", report.group ? Json(report.group->name) : Json(nullptr)},
          {"dates", report.allowed},
          {"refused", refused ? Json(refusal_words(*report.refusal)) : Json(nullptr)}};
}

// Of the first sowing; null where nothing is grown.
void add_weather(std::span<const ground::Sowing> sowings, Json& document) {
  for (const char* key : {"measured_until", "years", "years_without"}) document[key] = nullptr;
  if (sowings.empty()) return;
  const growth::Timeline& timeline = sowings.front().timeline;
  document["measured_until"] = maybe(timeline.measured_until, iso_day);
  document["years"] = timeline.years;
  document["years_without"] = timeline.years_without;
}

Json gave_way_json(const Plan& plan, const std::optional<ask::GaveWay>& gave_way) {
  if (!gave_way) return nullptr;
  const auto day = [](Date date) { return iso(date); };
  return {{"to", plan.plantings[gave_way->to].name},
          {"lift", maybe(gave_way->lift, day)},
          {"in_ground", maybe(gave_way->in_ground, day)},
          {"stems", gave_way->stems},
          {"other_stems", gave_way->other_stems},
          {"plan_stems", gave_way->plan_stems},
          {"plan_weeks", gave_way->plan_weeks}};
}

}  // namespace

std::string why_json(const DocumentHead& head, const Reckoned& reckoned, std::size_t planting,
                     const climate::Climate& climate, const std::optional<ask::GaveWay>& gave_way) {
  const auto sowings = reckoned.schedule.of(planting);
  const ground::Weighed& weighed = reckoned.schedule.weighed[planting];
  Json document = json_of(head, reckoned);
  document["planting"] = reckoned.plan.plantings[planting].name;
  document["stages"] = Json::array();
  document["constants"] = Json::array();
  document["ways"] = Json::array();
  document["way"] = nullptr;
  if (!sowings.empty()) {
    const ground::Sowing& first = sowings.front();
    document["way"] = first.raised_by().name;
    for (const Constant& each : constants(first)) {
      document["constants"].push_back(constant_json(each));
    }
  }
  for (const ground::WayReport& report : weighed.candidates->reports) {
    document["ways"].push_back(way_json(report, *weighed.sheet));
  }
  document["plantings"] = Json::array();
  for (const ground::Sowing& sowing : sowings) {
    for (const Step& step : steps(sowing)) {
      document["stages"].push_back(step_json(step, sowing.number));
    }
    document["plantings"].push_back(weathered_json(reckoned, sowing));
  }
  add_weather(sowings, document);
  document["gave_way"] = gave_way_json(reckoned.plan, gave_way);
  document["trust"] = trust_note(climate);
  return dump(document);
}

}  // namespace trug::show
