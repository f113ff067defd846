// SPDX-License-Identifier: MIT
#include "show/order_page.h"

#include <fmt/format.h>

#include <set>
#include <string_view>

#include "base/text.h"
#include "base/words.h"
#include "show/caution_words.h"
#include "show/job_words.h"
#include "show/json_parts.h"
#include "show/pages.h"
#include "show/plan_json.h"
#include "show/purchase_words.h"
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

// "2027-01".
std::string month_words(Date month) { return iso(month).substr(0, 7); }

// Their day lies behind; nobody asked.
std::string bought_words(const std::vector<Purchase>& bought, Style style) {
  if (bought.empty()) return "";
  std::set<std::string> names;
  for (const Purchase& item : bought) names.insert(what_is_bought(item));
  return "\n" +
         indented(fmt::format("Taken as ordered, since the day for it lies behind: {}. Of what "
                              "was not, [[happened]] says so: what = \"not-done\".",
                              listed(std::vector<std::string>(names.begin(), names.end()))),
                  0, style);
}

Json row_json(const Plan& plan, const Purchase& item) {
  Json row;
  row["goods"] = word_of(work::kGoods, item.goods);
  row["month"] = month_words(item.month);
  row.update(purchase_json(plan, item));
  return row;
}

}  // namespace

std::string order_page(const Plan& plan, const std::vector<Purchase>& purchases,
                       const std::vector<Purchase>& bought, Style style) {
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
        item.in_hand > 0 ? counted(item.in_hand, goods_unit(item)) : std::string();
    table.add({what_is_bought(item), item.sheet->cautions.empty() ? "" : "!", how_much(item),
               listed(plantings_of(plan, item)), in_hand, brief_day(item.by)});
    if (const std::string words = note_of(item); !words.empty()) table.add_note(words);
  }
  return text + (purchases.empty() ? "" : table.text(style)) + bought_words(bought, style) +
         caution_footer(cautions, style);
}

std::string order_json(const DocumentHead& head, const Reckoned& reckoned,
                       const std::vector<Purchase>& purchases,
                       const std::vector<Purchase>& bought) {
  Json document = json_of(head, reckoned);
  Json& groups = document["groups"] = Json::array();
  for (const Purchase& item : purchases) {
    const std::string_view goods = word_of(work::kGoods, item.goods);
    const std::string month = month_words(item.month);
    if (groups.empty() || groups.back()["group"] != goods || groups.back()["month"] != month) {
      groups.push_back({{"group", goods}, {"month", month}, {"items", Json::array()}});
    }
    groups.back()["items"].push_back(purchase_json(reckoned.plan, item));
  }
  document["taken_as_bought"] = Json::array();
  for (const Purchase& item : bought) {
    document["taken_as_bought"].push_back(row_json(reckoned.plan, item));
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
