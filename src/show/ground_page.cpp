// SPDX-License-Identifier: MIT
#include "show/ground_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/text.h"
#include "show/caution_words.h"
#include "show/job_words.h"
#include "show/json_parts.h"
#include "show/pages.h"
#include "show/plan_json.h"
#include "show/table.h"
#include "show/week_words.h"

namespace trug::show {
namespace {

using ask::GroundCrop;
using ask::GroundNeeded;
using ask::Spare;
using harvest::Span;

constexpr double kUsualBedM = 1.2;      // across: reached from both sides (common practice)
constexpr double kFarMore = 2;          // times what the vases take of a kind (memory)
constexpr int kBareWorthNamingCm = 20;  // of the beds' length, in a week

double bed_width_m(const Plan& plan) {
  return plan.beds.empty() ? kUsualBedM : plan.beds.front().width.value() / 1000.0;
}

// "4.1 (3 to 6.2)".
std::string span_words(const Span& span, int digits) {
  const std::string low = number(span.low, digits), high = number(span.high, digits);
  const std::string likely = number(span.likely, digits);
  return low == high ? likely : fmt::format("{} ({} to {})", likely, low, high);
}

Span along(const Span& m2, double width_m) {
  return {m2.low / width_m, m2.likely / width_m, m2.high / width_m};
}

std::string vases_words(double vases) {
  return fmt::format("{} {}", number(vases), vases == 1 ? "vase" : "vases");
}

// What the wish takes, in sentences.
std::string need_words(const Plan& plan, const ask::WishGround& ground) {
  const GroundNeeded& need = ground.as_wished;
  const double vases = plan.wish->vases_per_week;
  if (need.crops.empty()) return "Nothing there is a sheet of fills a week of this wish.";
  const std::string shared =
      number(need.shared_m2.likely) == number(need.m2.likely)
          ? ""
          : fmt::format("; {} where one crop follows another", span_words(need.shared_m2, 1));
  return fmt::format(
      "About {} square metres, each crop on ground of its own, {} m of a bed {} m wide{}. With "
      "half "
      "the vases ({} a week) about {}, with twice ({}) about {}. The least that fills the weeks in "
      "a usual year; the spans are what the plants may yield.",
      span_words(need.m2, 1), number(need.m2.likely / bed_width_m(plan)),
      number(bed_width_m(plan), 2), shared, number(vases / 2, 2), number(ground.half.m2.likely),
      number(vases * 2, 2), number(ground.twice.m2.likely));
}

// "week of 3 May", "3 May to 14 June".
std::string weeks_words(Date first, Date last) {
  if (first == last) return weeks_of({first});
  return fmt::format("{} to {}", short_day(first), short_day(last + Days{6}));
}

std::string lacking_words(const ask::WishGround& ground) {
  std::string text;
  if (!ground.as_wished.lacking.empty()) {
    text += fmt::format("Not filled, or only by far more ground: {}.",
                        weeks_of(ground.as_wished.lacking));
  }
  if (!ground.not_grown.empty()) {
    text += fmt::format("{}Not to be grown here this year, or not in the wish's weeks: {}.",
                        text.empty() ? "" : " ", listed(ground.not_grown));
  }
  return text;
}

std::string crops_table(const Plan& plan, const GroundNeeded& need, Style style) {
  const double width_m = bed_width_m(plan);
  Table table({{"crop"},
               {"", false},
               {"plants", false},
               {"square metres", false},
               {"metres of bed", false},
               {"in cut"}},
              3);
  for (const GroundCrop& crop : need.crops) {
    table.add({crop.sheet->name, crop.sheet->cautions.empty() ? "" : "!",
               span_words(crop.plants, 0), span_words(crop.m2, 1),
               span_words(along(crop.m2, width_m), 1),
               weeks_words(crop.first_week, crop.last_week)});
  }
  return table.text(style);
}

// Weeks in a row with bare ground, and the most of it.
struct Bare {
  Date first, last;  // Mondays
  Millimetres most;
};

std::vector<Bare> bare_weeks(const std::vector<harvest::Week>& weeks) {
  std::vector<Bare> result;
  bool goes_on = false;
  for (const harvest::Week& week : weeks) {
    const bool is_bare = whole_cm(week.bare) >= kBareWorthNamingCm;
    if (is_bare && !goes_on) result.push_back({week.monday, week.monday, week.bare});
    if (is_bare) {
      result.back().last = week.monday;
      result.back().most = std::max(result.back().most, week.bare);
    }
    goes_on = is_bare;
  }
  return result;
}

double beds_m2(const Plan& plan) {
  double sum = 0;
  for (const Bed& bed : plan.beds) sum += bed.length.value() * 1e-6 * bed.width.value();
  return sum;
}

// Each that gives far more than the vases take of one kind; then the others that no week needs.
std::string spare_text(const Plan& plan, const std::vector<Spare>& spares, Style style) {
  const double most = harvest::wanted(*plan.wish).most_of_a_kind();
  std::string text;
  std::vector<std::string> others;
  for (const Spare& spare : spares) {
    const std::string& name = plan.plantings[spare.planting].name;
    if (spare.best < kFarMore * most) {
      if (spare.enough == 0) others.push_back(name);
      continue;
    }
    const std::string enough =
        spare.enough == 0
            ? "the weeks are as full without it"
            : fmt::format("{} of its {} would do", spare.enough, counted(spare.plants, "plant"));
    text += indented(fmt::format("{}: up to {} a week, where the vases take {} of a kind; {}.",
                                 name, counted(static_cast<int>(std::lround(spare.best)), "stem"),
                                 number(most, 0), enough),
                     2, style);
  }
  if (!others.empty()) {
    text += indented(
        fmt::format("{}o week needs {}.", text.empty() ? "N" : "Beside these n", listed(others)), 2,
        style);
  }
  return text;
}

std::string beds_text(const Plan& plan, const GroundFacts& facts, Style style) {
  if (plan.beds.empty()) return "";
  std::string text =
      "\n" + headline("The beds there are",
                      fmt::format(": {} square metres", number(beds_m2(plan))), style);
  text += spare_text(plan, facts.spare, style);
  for (const Bare& bare : bare_weeks(facts.weeks)) {
    text += indented(fmt::format("Bare, {}: up to {} m of bed.", weeks_words(bare.first, bare.last),
                                 number(bare.most.value() / 1000.0)),
                     2, style);
  }
  return text;
}

Json whole_json(const Span& span, double by = 1) {
  return {{"low", std::lround(span.low * by)},
          {"likely", std::lround(span.likely * by)},
          {"high", std::lround(span.high * by)}};
}

Json m2_json(const Span& span) {
  Json json;
  for (const auto& [name, value] :
       {std::pair{"low", span.low}, {"likely", span.likely}, {"high", span.high}}) {
    json[name] = std::round(value * 100) / 100;
  }
  return json;
}

Json crop_json(const Plan& plan, const GroundCrop& crop) {
  return {{"crop", crop.sheet->name},
          {"plants", whole_json(crop.plants)},
          {"length_cm", whole_json(crop.m2, 100 / bed_width_m(plan))},
          {"area_m2", m2_json(crop.m2)},
          {"ways", crop.ways},
          {"first_week", iso_week(crop.first_week)},
          {"last_week", iso_week(crop.last_week)},
          {"cautions", caution_lines(*crop.sheet)}};
}

}  // namespace

std::string ground_page(const Plan& plan, const GroundFacts& facts, Style style) {
  const GroundNeeded& need = facts.ground.as_wished;
  std::string text = headline(
      plan.title,
      fmt::format(": {} a week, {} in each, {} to {}", vases_words(plan.wish->vases_per_week),
                  counted(plan.wish->stems_per_vase, "stem"), short_day(plan.wish->from),
                  short_day(plan.wish->to)),
      style);
  text += indented(need_words(plan, facts.ground), 0, style);
  if (!need.crops.empty()) text += "\n" + crops_table(plan, need, style);
  if (const std::string words = lacking_words(facts.ground); !words.empty()) {
    text += "\n" + indented(words, 0, style);
  }
  text += beds_text(plan, facts, style);
  CautionLines cautions;
  for (const GroundCrop& crop : need.crops) {
    cautions[crop.sheet->name] = caution_lines(*crop.sheet);
  }
  return text + caution_footer(cautions, style);
}

std::string ground_json(const DocumentHead& head, const Reckoned& reckoned,
                        const GroundFacts& facts) {
  const Plan& plan = reckoned.plan;
  const GroundNeeded& need = facts.ground.as_wished;
  Json document = json_of(head, reckoned);
  document["crops"] = Json::array();
  for (const GroundCrop& crop : need.crops) document["crops"].push_back(crop_json(plan, crop));
  document["plants"] = whole_json(need.plants);
  document["length_cm"] = whole_json(need.m2, 100 / bed_width_m(plan));
  document["area_m2"] = m2_json(need.m2);
  document["shared_area_m2"] = m2_json(need.shared_m2);
  document["half_area_m2"] = m2_json(facts.ground.half.m2);
  document["twice_area_m2"] = m2_json(facts.ground.twice.m2);
  document["lacking"] = Json::array();
  for (const Date monday : need.lacking) document["lacking"].push_back(iso_week(monday));
  document["not_grown"] = facts.ground.not_grown;
  document["spare"] = Json::array();
  for (const Spare& spare : facts.spare) {
    document["spare"].push_back({{"planting", plan.plantings[spare.planting].name},
                                 {"plants", spare.plants},
                                 {"enough", spare.enough},
                                 {"best_week_stems", std::lround(spare.best)}});
  }
  document["bare"] = Json::array();
  for (const Bare& bare : bare_weeks(facts.weeks)) {
    document["bare"].push_back({{"first_week", iso_week(bare.first)},
                                {"last_week", iso_week(bare.last)},
                                {"most_cm", whole_cm(bare.most)}});
  }
  return dump(document);
}

}  // namespace trug::show
