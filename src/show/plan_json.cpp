// SPDX-License-Identifier: MIT
#include "show/plan_json.h"

#include <string_view>
#include <utility>
#include <variant>

#include "ground/strip_cm.h"
#include "show/caution_words.h"
#include "show/finding_words.h"
#include "show/purchase_words.h"
#include "show/remedy_words.h"

namespace trug::show {
namespace {

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
    case growth::Basis::Recorded:
      return "recorded";
  }
  return "";
}

Json remedy_json(const Plan& plan, const ask::Finding& finding) {
  if (!finding.remedy) return nullptr;
  const ask::Remedy& remedy = *finding.remedy;
  Json row;
  row["text"] = remedy_text(plan, finding);
  row["toml"] = maybe(remedy_toml(plan, finding));
  const bool reckoned = remedy.change && !std::holds_alternative<ask::Year>(*remedy.change);
  row["costs_stems"] = reckoned ? Json(remedy.costs_stems) : Json(nullptr);
  row["gives_weeks"] = reckoned ? Json(remedy.gives_weeks) : Json(nullptr);
  row["ways"] = Json::array();
  for (const ask::StillPossible& one : remedy.ways) {
    row["ways"].push_back({{"way", one.way},
                           {"stems", one.stems},
                           {"weeks", one.weeks},
                           {"toml", maybe(change_toml(plan, one.change))}});
  }
  row["crops"] = Json::array();
  for (const ask::Filler& one : remedy.fillers) {
    Json crop;
    crop["crop"] = one.crop;
    crop["in_ground"] = iso(one.in_ground);
    crop["weeks"] = one.weeks;
    crop["stems"] = one.stems;
    crop["toml"] = maybe(change_toml(plan, one.change));
    crop["cautions"] = Json::array();
    for (const Caution& caution : one.cautions) crop["cautions"].push_back(harm(caution.kind));
    row["crops"].push_back(std::move(crop));
  }
  return row;
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
  row["remedy"] = remedy_json(plan, finding);
  row["succession"] = succession_json(finding.sowing);
  return row;
}

Json spread_json(const growth::DateSpread& spread) {
  return {{"early", iso(spread.early)}, {"likely", iso(spread.likely)}, {"late", iso(spread.late)}};
}

// The last cut moves with the first, but never beyond the lift.
Json last_cut_json(const ground::Sowing& sowing) {
  if (!sowing.is_cut()) return {{"early", nullptr}, {"likely", nullptr}, {"late", nullptr}};
  const growth::DateSpread& cut = sowing.timeline.first_cut;
  const Date last = sowing.last_cut();
  const Date late = sowing.timeline.cut_short ? last : last + (cut.late - cut.likely);
  return spread_json({last - (cut.likely - cut.early), last, late});
}

}  // namespace

Json json_of(const DocumentHead& head, const Reckoned& r) {
  Json document = json_of(head);
  const auto garden = [](const Uuid& uuid) { return trug::to_string(uuid); };
  document["plans"].push_back({{"file", r.plan.file},
                               {"title", r.plan.title},
                               {"garden", maybe(r.plan.garden, garden)},
                               {"flowering_years", {r.plan.flowering_year}}});
  for (const ask::Finding& finding : r.findings) {
    document["findings"].push_back(finding_json(r.plan, finding));
  }
  return document;
}

Json sowing_json(const Reckoned& r, const ground::Sowing& sowing) {
  const Planting& planting = r.plan.plantings[sowing.planting];
  const Bed* bed = bed_of(r.plan, planting);
  Json row;
  row["id"] = planting.name;
  row["bed"] = bed ? Json(bed->name) : Json(nullptr);
  row["stretch"] = planting.patch ? Json(planting.patch->stretch) : Json(nullptr);
  row["crop"] = planting.asked.crop;
  row["way"] = sowing.raised_by().name;
  row["flowering_year"] = planting.flowering_year;
  row["start"] = iso(sowing.start);
  row["in_ground"] = iso(sowing.in_ground);
  row["lift"] = iso(sowing.lift);
  row["first_cut"] = spread_json(sowing.timeline.first_cut);
  row["last_cut"] = last_cut_json(sowing);
  row["plants"] = sowing.plants;
  row["basis"] = to_string(sowing.timeline.basis);
  row["exact"] = r.schedule.exact;
  row["group"] = sowing.group ? Json(sowing.group->name) : Json(nullptr);
  row["succession"] = succession_json(sowing.number);
  row["at_cm"] = planting.patch ? Json(whole_cm(sowing.offset)) : Json(nullptr);
  row["length_cm"] = planting.patch ? Json(ground::length_cm(sowing)) : Json(nullptr);
  return row;
}

Json purchase_json(const Plan& plan, const work::Purchase& item) {
  Json row;
  row["crop"] = item.sheet->name;
  row["variety"] = maybe(item.variety);
  row["group"] = maybe(item.group);
  row["number"] = item.goods == work::Goods::Seed ? item.plants : item.number;
  row["seeds"] = item.goods == work::Goods::Seed ? Json(item.number) : Json(nullptr);
  row["packets"] = maybe(item.packets);
  row["in_hand"] = item.in_hand;
  row["by"] = iso(item.by);
  row["plantings"] = plantings_of(plan, item);
  row["note"] = note_of(item);
  row["cautions"] = caution_lines(*item.sheet);
  return row;
}

}  // namespace trug::show
