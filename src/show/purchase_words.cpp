// SPDX-License-Identifier: MIT
#include "show/purchase_words.h"

#include <fmt/format.h>

#include "base/text.h"

namespace trug::show {

using work::Goods;
using work::Purchase;

std::string_view goods_unit(const Purchase& item) {
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

std::string what_is_bought(const Purchase& item) {
  std::string text = item.sheet->name;
  if (item.variety) text += fmt::format(" '{}'", *item.variety);
  if (item.group) text += fmt::format(" ({})", *item.group);
  return text;
}

std::string how_much(const Purchase& item) {
  std::string number = counted(item.number, goods_unit(item));
  if (item.goods == Goods::Seed) number += " for " + counted(item.plants, "plant");
  if (item.spare > 0) number += fmt::format(", {} of them spare", item.spare);
  if (!item.packets) return number;
  return fmt::format("{} of {} ({})", counted(*item.packets, "packet"),
                     *item.sheet->buy.packet_seeds, number);
}

std::vector<std::string> plantings_of(const Plan& plan, const Purchase& item) {
  std::vector<std::string> names;
  for (const std::size_t i : item.plantings) names.push_back(plan.plantings[i].name);
  return names;
}

std::string note_of(const Purchase& item) {
  if (!item.missed || item.goods == Goods::Seed) return "";
  return fmt::format("Best bought in {}: take what there is now.", month_and_year(*item.missed));
}

std::string purchase_words(const Purchase& item) {
  return fmt::format("{}, {}", what_is_bought(item), how_much(item));
}

}  // namespace trug::show
