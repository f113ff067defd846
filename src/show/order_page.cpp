// SPDX-License-Identifier: MIT
#include "show/order_page.h"

#include <fmt/format.h>

#include <string_view>

#include "base/text.h"
#include "base/words.h"
#include "show/caution_words.h"
#include "show/job_words.h"
#include "show/json_parts.h"
#include "show/pages.h"
#include "show/plan_json.h"
#include "show/table.h"

namespace trug::show {
namespace {

using work::Goods;
using work::Purchase;

constexpr Word<Goods> kHeadings[] = {{Goods::Seed, "Seed"},
                                     {Goods::Bulbs, "Bulbs and corms"},
                                     {Goods::Tubers, "Tubers and roots"},
                                     {Goods::Plants, "Young plants"}};
static_assert(names_all(kHeadings));

std::string_view unit(const Purchase& item) {
  switch (item.goods) {
    case Goods::Seed:
      return "seed";
    case Goods::Bulbs:
      return item.sheet->life_cycle == LifeCycle::Corm ? "corm" : "bulb";
    case Goods::Tubers:
      return item.sheet->life_cycle == LifeCycle::Tuber ? "tuber" : "root";
    case Goods::Plants:
      return "young plant";
  }
  return "";
}

// "zinnia 'Orchard Dusk'", "tulip (late)".
std::string name_words(const Purchase& item) {
  std::string text = item.sheet->name;
  if (item.variety) text += fmt::format(" '{}'", *item.variety);
  if (item.group) text += fmt::format(" ({})", *item.group);
  return text;
}

// "2 packets of 50 (84 seeds for 28 plants)"; "142 bulbs".
std::string amount_words(const Purchase& item) {
  std::string number = counted(item.number, unit(item));
  if (item.goods == Goods::Seed) number += " for " + counted(item.plants, "plant");
  if (!item.packets) return number;
  return fmt::format("{} of {} ({})", counted(*item.packets, "packet"),
                     *item.sheet->buy.packet_seeds, number);
}

std::vector<std::string> planting_names(const Plan& plan, const Purchase& item) {
  std::vector<std::string> names;
  for (const std::size_t i : item.plantings) names.push_back(plan.plantings[i].name);
  return names;
}

// What one should know of the time; empty: nothing. Seed is to be had until spring.
std::string note(const Purchase& item) {
  if (!item.missed || item.goods == Goods::Seed) return "";
  return fmt::format("Best bought in {}: take what there is now.", month_and_year(*item.missed));
}

Json item_json(const Plan& plan, const Purchase& item) {
  Json row;
  row["crop"] = item.sheet->name;
  row["variety"] = maybe(item.variety);
  row["group"] = maybe(item.group);
  row["number"] = item.goods == Goods::Seed ? item.plants : item.number;
  row["seeds"] = item.goods == Goods::Seed ? Json(item.number) : Json(nullptr);
  row["packets"] = maybe(item.packets);
  row["in_hand"] = item.in_hand;
  row["by"] = iso(item.by);
  row["plantings"] = planting_names(plan, item);
  row["note"] = note(item);
  row["cautions"] = caution_lines(*item.sheet);
  return row;
}

// "2027-01".
std::string month_words(Date month) { return iso(month).substr(0, 7); }

Json row_json(const Plan& plan, const Purchase& item) {
  Json row;
  row["goods"] = word_of(work::kGoods, item.goods);
  row["month"] = month_words(item.month);
  row.update(item_json(plan, item));
  return row;
}

}  // namespace

std::string purchase_words(const Purchase& item) {
  return fmt::format("{}, {}", name_words(item), amount_words(item));
}

std::string order_page(const Plan& plan, const std::vector<Purchase>& purchases, Style style) {
  std::string text = headline(
      plan.title, purchases.empty() ? ": nothing more is to be bought." : ": what is to be bought",
      style);
  Table table({{"what"}, {"", false}, {"how much"}, {"for"}, {"in hand"}, {"order by", false}});
  CautionLines cautions;
  std::string heading;
  for (const Purchase& item : purchases) {
    const std::string group =
        fmt::format("{}, {}", word_of(kHeadings, item.goods), month_and_year(item.month));
    if (group != heading) table.add_heading(group);
    heading = group;
    cautions[item.sheet->name] = caution_lines(*item.sheet);
    const std::string in_hand =
        item.in_hand > 0 ? counted(item.in_hand, unit(item)) : std::string();
    table.add({name_words(item), item.sheet->cautions.empty() ? "" : "!", amount_words(item),
               listed(planting_names(plan, item)), in_hand, brief_day(item.by)});
    if (const std::string words = note(item); !words.empty()) table.add_note(words);
  }
  return text + (purchases.empty() ? "" : table.text(style)) + caution_footer(cautions, style);
}

std::string order_json(const DocumentHead& head, const Reckoned& reckoned,
                       const std::vector<Purchase>& purchases) {
  Json document = json_of(head, reckoned);
  Json& groups = document["groups"] = Json::array();
  for (const Purchase& item : purchases) {
    const std::string_view goods = word_of(work::kGoods, item.goods);
    const std::string month = month_words(item.month);
    if (groups.empty() || groups.back()["group"] != goods || groups.back()["month"] != month) {
      groups.push_back({{"group", goods}, {"month", month}, {"items", Json::array()}});
    }
    groups.back()["items"].push_back(item_json(reckoned.plan, item));
  }
  return dump(document);
}

std::string order_csv(const Plan& plan, const std::vector<Purchase>& purchases) {
  std::vector<Json> rows;
  for (const Purchase& item : purchases) rows.push_back(row_json(plan, item));
  const Sheet none;
  Purchase empty;
  empty.sheet = &none;
  return csv(row_json(plan, empty), rows);
}

}  // namespace trug::show
