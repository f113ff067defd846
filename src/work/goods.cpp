// SPDX-License-Identifier: MIT
#include "work/goods.h"

namespace trug::work {

JobKind order_of(Goods goods) {
  switch (goods) {
    case Goods::Seed:
      return JobKind::OrderSeed;
    case Goods::Bulbs:
      return JobKind::OrderBulbs;
    case Goods::Tubers:
      return JobKind::OrderTubers;
    case Goods::Plants:
      break;
  }
  return JobKind::OrderPlants;
}

std::optional<Goods> goods_of(JobKind kind) {
  for (const auto& [goods, word] : kGoods) {
    if (order_of(goods) == kind) return goods;
  }
  return std::nullopt;
}

bool is_word_of(std::string_view word, JobKind kind) {
  return word == to_string(kind) ||
         (kind == JobKind::OrderTubers && word == to_string(JobKind::OrderBulbs));
}

Date month_begin(Date day) { return make_date(year_of(day), month_of(day), 1); }

std::optional<Date> best_month(const Sheet& sheet, Goods goods, const Place& place, Date day) {
  const bool usual = (goods == Goods::Plants) == (sheet.usual == Usual::Plants);
  if (!sheet.buy.month || !usual) return std::nullopt;
  const unsigned month = is_southern(place) ? (*sheet.buy.month + 5) % 12 + 1 : *sheet.buy.month;
  const Date this_year = make_date(year_of(day), month, 1);
  return this_year <= day ? this_year : make_date(year_of(day) - 1, month, 1);
}

}  // namespace trug::work
