// SPDX-License-Identifier: MIT
#include "show/weeks_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <utility>

#include "base/text.h"
#include "base/words.h"
#include "show/pages.h"
#include "show/plan_json.h"
#include "show/table.h"
#include "show/week_words.h"

namespace trug::show {
namespace {

using harvest::Span;
using harvest::Week;

constexpr double kWorthNaming = 0.5;  // stems of a kind in a week

double tenths(double value) { return std::round(value * 10) / 10; }

Span scaled(const Span& span, double by) {
  return {span.low * by, span.likely * by, span.high * by};
}

// "7 (4 to 12)"; "7" where they are the same.
std::string span_words(const Span& span, int digits) {
  const std::string low = number(span.low, digits), high = number(span.high, digits);
  const std::string likely = number(span.likely, digits);
  return low == high ? likely : fmt::format("{} ({} to {})", likely, low, high);
}

// "zinnia 9, dill 4": each crop once, most stems first.
std::vector<std::string> kinds_words(const Week& week) {
  std::map<std::string, double> by_crop;
  for (const harvest::KindInWeek& kind : week.kinds) by_crop[kind.crop] += kind.stems.likely;
  std::vector<std::pair<double, std::string>> order;
  for (const auto& [crop, stems] : by_crop) {
    if (stems >= kWorthNaming) order.emplace_back(-stems, crop);
  }
  std::ranges::sort(order);
  std::vector<std::string> words;
  for (const auto& [stems, crop] : order) words.push_back(crop + " " + number(-stems, 0));
  return words;
}

// "zinnia 9, dill 4, +2": as many as have room, one at least.
std::string in_room(const std::vector<std::string>& kinds, int room) {
  std::string text;
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    const std::string with = text + (i > 0 ? ", " : "") + kinds[i];
    const std::size_t rest = kinds.size() - i - 1;
    const std::string more = rest > 0 ? fmt::format(", +{}", rest) : "";
    if (i > 0 && display_width(with + more) > room) return fmt::format("{}, +{}", text, rest + 1);
    text = with;
  }
  return text;
}

std::string metres(Millimetres length) { return number(length.value() / 1000.0); }

// "1.2/2.4/0": in flower, in leaf, bare.
std::string ground_words(const Week& week) {
  if (week.flower + week.leaf + week.bare == Millimetres{}) return "";
  return metres(week.flower) + "/" + metres(week.leaf) + "/" + metres(week.bare);
}

Json span_json(const Span& span) {
  return {{"low", tenths(span.low)}, {"likely", tenths(span.likely)}, {"high", tenths(span.high)}};
}

template <class Key, class Name>
Json spans_json(const std::map<Key, Span>& spans, const Name& name) {
  Json result = Json::object();
  for (const auto& [key, span] : spans) result[std::string(name(key))] = span_json(span);
  return result;
}

int stems_per_vase(const Plan& plan) { return plan.wish ? plan.wish->stems_per_vase : 1; }

int centimetres(Millimetres length) { return (length.value() + 5) / 10; }

Json week_json(const Plan& plan, const Week& week) {
  Json row;
  row["week"] = iso_week(week.monday);
  row["monday"] = iso(week.monday);
  row["wanted_stems"] = tenths(week.vase.wanted);
  row["stems"] = span_json(week.stems);
  row["vases"] = plan.wish ? span_json(scaled(week.usable, 1.0 / stems_per_vase(plan))) : nullptr;
  row["by_role"] = spans_json(week.by_role, [](Role role) { return to_string(role); });
  row["by_colour"] = spans_json(week.by_colour, [](const std::string& colour) { return colour; });
  row["kinds"] = Json::array();
  for (const harvest::KindInWeek& kind : week.kinds) {
    row["kinds"].push_back({{"crop", kind.crop},
                            {"planting", plan.plantings[kind.planting].name},
                            {"stems", span_json(kind.stems)}});
  }
  row["flower_cm"] = centimetres(week.flower);
  row["leaf_cm"] = centimetres(week.leaf);
  row["bare_cm"] = centimetres(week.bare);
  row["state"] = plan.wish ? Json(harvest::to_string(week.vase.state())) : Json(nullptr);
  row["lacks"] = Json::array();
  for (const harvest::Lack lack : week.vase.lacks) row["lacks"].push_back(harvest::to_string(lack));
  return row;
}

double thousandths(double share) { return std::round(share * 1000) / 1000; }

Json years_json(const std::optional<ask::Chances>& chances) {
  if (!chances) return nullptr;
  return {{"recorded", chances->recorded},
          {"first", chances->first_year},
          {"last", chances->last_year},
          {"drawn", chances->drawn},
          {"seed", chances->seed}};
}

// Shares of the years drawn in which the week has its vases, or half of them, and its stems then.
Json with_chance(Json week, const std::optional<ask::Chances>& chances, std::size_t index) {
  week["chance_full"] = nullptr;
  week["chance_half"] = nullptr;
  week["usable"] = {{"low", nullptr}, {"likely", nullptr}, {"high", nullptr}};
  if (!chances) return week;
  const ask::WeekChance& chance = chances->weeks[index];
  week["chance_full"] = thousandths(chance.full);
  week["chance_half"] = thousandths(chance.half);
  week["usable"] = span_json(chance.usable);
  return week;
}

Json span_texts(const Json& spans) {
  Json texts = Json::array();
  for (const auto& [key, span] : spans.items()) {
    texts.push_back(key + " " + span["likely"].dump());
  }
  return texts;
}

Json kind_texts(const Json& kinds) {
  Json texts = Json::array();
  for (const Json& kind : kinds) {
    texts.push_back(kind["planting"].get<std::string>() + " " + kind["stems"]["likely"].dump());
  }
  return texts;
}

// A span as three fields, a table of spans and the kinds as text with what is likely.
Json flat(const Json& week) {
  Json row;
  for (const auto& [name, value] : week.items()) {
    if (name == "stems" || name == "vases" || name == "usable") {
      for (const char* part : {"low", "likely", "high"}) {
        row[name + "_" + part] = value.is_null() ? Json(nullptr) : value[part];
      }
    } else if (value.is_object()) {
      row[name] = span_texts(value);
    } else if (name == "kinds") {
      row[name] = kind_texts(value);
    } else {
      row[name] = value;
    }
  }
  return row;
}

// One span a line: that of the vases, where there are any.
std::vector<std::string> cells(const Plan& plan, const Week& week) {
  return {short_day(week.monday),
          plan.wish ? span_words(scaled(week.usable, 1.0 / stems_per_vase(plan)), 1) : "",
          plan.wish ? number(week.stems.likely, 0) : span_words(week.stems, 0),
          "",
          ground_words(week),
          plan.wish ? lacks_words(week.vase.lacks) : ""};
}

// The kinds take the room that the other columns leave of a line.
Table weeks_table(const Plan& plan, const std::vector<Week>& weeks, Style style) {
  constexpr std::size_t kKinds = 3;
  std::vector<std::vector<std::string>> rows;
  std::vector<int> widths{7, 5, 5, 0, 6, 7};  // of the headings
  for (const Week& week : weeks) {
    rows.push_back(cells(plan, week));
    for (std::size_t i = 0; i < widths.size(); ++i) {
      widths[i] = std::max(widths[i], display_width(rows.back()[i]));
    }
  }
  const int gaps = 2 + static_cast<int>(widths.size()) - 1;
  const int room = style.width - gaps - std::accumulate(widths.begin(), widths.end(), 0);
  Table table({{"week of", false},
               {"vases", false},
               {"stems", false},
               {"in cut"},
               {"metres"},
               {"lacking"}});
  for (std::size_t i = 0; i < weeks.size(); ++i) {
    rows[i][kKinds] = in_room(kinds_words(weeks[i]), room);
    table.add(std::move(rows[i]));
  }
  return table;
}

}  // namespace

std::string weeks_page(const Plan& plan, const std::vector<Week>& weeks,
                       const climate::Climate& climate, Style style) {
  std::string wish;
  if (plan.wish) {
    wish = fmt::format(": {} {} a week, {} in each{}", number(plan.wish->vases_per_week),
                       plan.wish->vases_per_week == 1 ? "vase" : "vases",
                       counted(plan.wish->stems_per_vase, "stem"),
                       plan.wish->mixed ? "" : ", of one kind");
  }
  std::string text = headline(plan.title, wish, style);
  if (const std::string note = trust_note(climate); !note.empty()) text += indented(note, 0, style);
  text += "\n" + weeks_table(plan, weeks, style).text(style);
  if (!plan.beds.empty()) text += "\nMetres of ground: in flower/in leaf/bare.\n";
  if (plan.wish) text += "\n" + indented(weeks_paragraph(weeks), 0, style);
  return text;
}

std::string weeks_json(const DocumentHead& head, const Reckoned& reckoned,
                       const std::vector<Week>& weeks, const std::optional<ask::Chances>& chances) {
  Json document = json_of(head, reckoned);
  document["stems_per_vase"] =
      reckoned.plan.wish ? Json(reckoned.plan.wish->stems_per_vase) : Json(nullptr);
  document["years"] = years_json(chances);
  document["weeks"] = Json::array();
  for (std::size_t i = 0; i < weeks.size(); ++i) {
    document["weeks"].push_back(with_chance(week_json(reckoned.plan, weeks[i]), chances, i));
  }
  return dump(document);
}

std::string weeks_csv(const Plan& plan, const std::vector<Week>& weeks,
                      const std::optional<ask::Chances>& chances) {
  std::vector<Json> rows;
  for (std::size_t i = 0; i < weeks.size(); ++i) {
    rows.push_back(flat(with_chance(week_json(plan, weeks[i]), chances, i)));
  }
  return csv(flat(with_chance(week_json(plan, Week{}), std::nullopt, 0)), rows);
}

}  // namespace trug::show
