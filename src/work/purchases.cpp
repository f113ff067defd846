// SPDX-License-Identifier: MIT
#include "work/purchases.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <tuple>
#include <utility>

#include "work/orders.h"
#include "work/seeds.h"

namespace trug::work {
namespace {

using ground::Sowing;

Held held_as(Goods goods) {
  if (goods == Goods::Seed) return Held::Seed;
  return goods == Goods::Plants ? Held::Plants : Held::Bulbs;
}

int held(const Plan& plan, const Purchase& purchase) {
  int number = 0;
  for (const InHand& have : plan.have) {
    const bool same = have.crop == purchase.sheet->name && have.what == held_as(purchase.goods);
    if (same) number += have.number;
  }
  return number;
}

using Item = std::tuple<std::string, std::optional<std::string>, std::optional<std::string>>;

// What a part of an order is of, nothing of it counted yet.
Purchase kind_of_purchase(const Plan& plan, const Sowing& sowing, const Job& order, Date today) {
  Purchase item;
  item.goods = *goods_of(order.key.kind);
  item.sheet = sowing.sheet;
  item.variety = plan.plantings[sowing.planting].asked.variety;
  if (sowing.group) item.group = sowing.group->name;
  const Date day = std::max(order.day, today);
  item.month = month_begin(day);
  const auto best = best_month(*item.sheet, item.goods, plan.place, day);
  if (best && *best < item.month) item.missed = best;
  return item;
}

// Whole seeds or plants, packets of them, and for what.
void conclude(const Plan& plan, double number, Purchase& item) {
  item.number = static_cast<int>(std::ceil(number - 1e-9));
  if (item.goods == Goods::Bulbs) {
    item.spare = static_cast<int>(std::lround(item.number * kSpareBulbs));
    item.number += item.spare;
  }
  const auto& packet = item.sheet->buy.packet_seeds;
  if (item.goods == Goods::Seed && packet) item.packets = (item.number + *packet - 1) / *packet;
  item.in_hand = held(plan, item);
  std::ranges::sort(item.plantings);
  item.plantings.erase(std::unique(item.plantings.begin(), item.plantings.end()),
                       item.plantings.end());
}

}  // namespace

std::vector<Purchase> items_of(const Plan& plan, const ground::Schedule& schedule, const Job& order,
                               Date today) {
  struct Sum {
    Purchase item;
    double number = 0;
  };
  std::map<Item, Sum> sums;
  for (const OrderPart& part : order.parts) {
    const Sowing& sowing = schedule.at(part.sowing);
    Purchase one = kind_of_purchase(plan, sowing, order, today);
    one.by = part.last;
    auto& [item, number] =
        sums.try_emplace(Item{one.sheet->name, one.variety, one.group}, Sum{one, 0}).first->second;
    item.by = std::min(item.by, part.last);
    item.plants += part.plants;
    item.plantings.push_back(part.planting);
    const bool seed = item.goods == Goods::Seed;
    number += part.plants * (seed ? seeds_per_plant(sowing) : begun_per_plant(sowing));
  }
  std::vector<Purchase> items;
  for (auto& [who, sum] : sums) {
    conclude(plan, sum.number, sum.item);
    items.push_back(std::move(sum.item));
  }
  return items;
}

namespace {

// Of those orders that are due, or of those that are not.
std::vector<Purchase> items_of_all(const Plan& plan, const ground::Schedule& schedule,
                                   const std::vector<Job>& orders, bool due, Date today) {
  std::vector<Purchase> result;
  for (const Job& order : orders) {
    if (order.parts.empty() || (order.state == Job::State::Due) != due) continue;
    for (Purchase& item : items_of(plan, schedule, order, due ? today : order.day)) {
      result.push_back(std::move(item));
    }
  }
  std::ranges::stable_sort(result, {},
                           [](const Purchase& item) { return std::pair(item.month, item.goods); });
  return result;
}

}  // namespace

std::vector<Purchase> purchases(const Plan& plan, const ground::Schedule& schedule,
                                const std::vector<Job>& jobs, Date today) {
  return items_of_all(plan, schedule, with_joint_orders(plan, schedule, jobs, today), true, today);
}

std::vector<Purchase> taken_as_bought(const Plan& plan, const ground::Schedule& schedule,
                                      const std::vector<Job>& jobs, Date today) {
  return items_of_all(plan, schedule, with_joint_orders(plan, schedule, jobs, today), false, today);
}

}  // namespace trug::work
