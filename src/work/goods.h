// SPDX-License-Identifier: MIT
// What is bought, and when the best of it is to be had.
#pragma once

#include <optional>
#include <string_view>

#include "base/date.h"
#include "base/words.h"
#include "garden/plan.h"
#include "garden/sheet.h"
#include "work/job_kinds.h"

namespace trug::work {

// Bulbs and corms are sold together, tubers and roots at another time of the year.
enum class Goods { Seed, Bulbs, Tubers, Plants };
inline constexpr Word<Goods> kGoods[] = {{Goods::Seed, "seed"},
                                         {Goods::Bulbs, "bulbs"},
                                         {Goods::Tubers, "tubers"},
                                         {Goods::Plants, "plants"}};
static_assert(names_all(kGoods));

// The job of ordering them; likewise what a job orders, nullopt: nothing.
JobKind order_of(Goods goods);
std::optional<Goods> goods_of(JobKind kind);

// Whether a record's word means that job: tubers were ordered with bulbs before they had a word of
// their own.
bool is_word_of(std::string_view word, JobKind kind);

Date month_begin(Date day);
// The first day of the month in which the best of it is to be had, the last time that it came
// before `day`; half a year on in the south. nullopt: the sheet knows none for what the trade does
// not usually begin it from.
std::optional<Date> best_month(const Sheet& sheet, Goods goods, const Place& place, Date day);

}  // namespace trug::work
