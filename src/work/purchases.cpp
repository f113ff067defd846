// SPDX-License-Identifier: MIT
#include "work/purchases.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "work/seeds.h"

namespace trug::work {
namespace {

using ground::Sowing;

std::optional<Goods> goods_of(JobKind kind, const Sheet& sheet) {
  if (kind == JobKind::OrderSeed) return Goods::Seed;
  if (kind == JobKind::OrderPlants) return Goods::Plants;
  if (kind != JobKind::OrderBulbs) return std::nullopt;
  const bool like_bulbs =
      sheet.life_cycle == LifeCycle::Bulb || sheet.life_cycle == LifeCycle::Corm;
  return like_bulbs ? Goods::Bulbs : Goods::Tubers;
}

Held held_as(Goods goods) {
  if (goods == Goods::Seed) return Held::Seed;
  return goods == Goods::Plants ? Held::Plants : Held::Bulbs;
}

Date month_begin(Date day) { return make_date(year_of(day), month_of(day), 1); }

// The last time before `day` that this month of the year began.
Date last_begin(unsigned month, Date day) {
  const Date this_year = make_date(year_of(day), month, 1);
  return this_year <= day ? this_year : make_date(year_of(day) - 1, month, 1);
}

// The sheet's month of what the trade begins it from; half a year on in the south.
std::optional<unsigned> month_of(const Sheet& sheet, Goods goods, const Place& place) {
  const bool usual = (goods == Goods::Plants) == (sheet.usual == Usual::Plants);
  if (!sheet.buy.month || !usual) return std::nullopt;
  return is_southern(place) ? (*sheet.buy.month + 5) % 12 + 1 : *sheet.buy.month;
}

// When to buy what is ordered on `day` at the usual time before it is needed.
std::pair<Date, std::optional<Date>> month_of_buying(std::optional<unsigned> month, Date day,
                                                     Date today) {
  const Date now = month_begin(today);
  if (!month) return {std::max(month_begin(day), now), std::nullopt};
  const Date usual = last_begin(*month, day);
  if (usual >= now) return {usual, std::nullopt};
  return {now, usual};
}

// One kind of goods. Young plants do not keep: what is set out in another month is bought anew.
using Item = std::tuple<Goods, std::string, std::optional<std::string>, std::optional<std::string>,
                        std::optional<Date>>;

int held(const Plan& plan, const Purchase& purchase) {
  int number = 0;
  for (const InHand& have : plan.have) {
    const bool same = have.crop == purchase.sheet->name && have.what == held_as(purchase.goods);
    if (same) number += have.number;
  }
  return number;
}

// The order of one sowing, to be joined with others of its kind.
Purchase purchase_of(const Job& job, const Sowing& sowing, Goods goods, const Place& place,
                     Date today) {
  const Sheet& sheet = *sowing.sheet;
  const auto [month, missed] = month_of_buying(month_of(sheet, goods, place), job.day, today);
  return {.goods = goods,
          .sheet = &sheet,
          .variety = job.variety,
          .group = sowing.group ? std::optional(sowing.group->name) : std::nullopt,
          .month = month,
          .missed = missed,
          .by = job.last,
          .plants = 0,
          .number = 0,
          .packets = {},
          .in_hand = 0,
          .plantings = {}};
}

// Seed and bulbs are bought once, for the first that wants them.
void take_earlier(Purchase& all, const Purchase& one) {
  if (one.month < all.month) std::tie(all.month, all.missed) = std::tie(one.month, one.missed);
  all.by = std::min(all.by, one.by);
}

}  // namespace

std::vector<Purchase> purchases(const Plan& plan, const ground::Schedule& schedule,
                                const std::vector<Job>& jobs, Date today) {
  struct Sum {
    Purchase purchase;
    double number = 0;
  };
  std::map<Item, Sum> items;
  for (const Job& job : jobs) {
    const Sowing& sowing = schedule.at(job.sowing);
    const auto goods = goods_of(job.key.kind, *sowing.sheet);
    if (!goods || job.state != Job::State::Due) continue;
    const Purchase one = purchase_of(job, sowing, *goods, plan.place, today);
    const auto month = *goods == Goods::Plants ? std::optional(one.month) : std::nullopt;
    const Item item{*goods, one.sheet->name, one.variety, one.group, month};
    auto& [all, number] = items.try_emplace(item, Sum{one, 0}).first->second;
    take_earlier(all, one);
    const int plants = job.plants.value_or(sowing.plants);
    all.plants += plants;
    number += plants * (*goods == Goods::Seed ? seeds_per_plant(sowing) : begun_per_plant(sowing));
    all.plantings.push_back(job.planting);
  }
  std::vector<Purchase> result;
  for (auto& [item, sum] : items) {
    Purchase& all = sum.purchase;
    all.number = static_cast<int>(std::ceil(sum.number - 1e-9));
    const auto& packet = all.sheet->buy.packet_seeds;
    if (all.goods == Goods::Seed && packet) all.packets = (all.number + *packet - 1) / *packet;
    all.in_hand = held(plan, all);
    std::ranges::sort(all.plantings);
    all.plantings.erase(std::unique(all.plantings.begin(), all.plantings.end()),
                        all.plantings.end());
    result.push_back(std::move(all));
  }
  std::ranges::stable_sort(result, {}, &Purchase::month);
  return result;
}

}  // namespace trug::work
