// SPDX-License-Identifier: MIT
// What is still to be bought, as one buys it: each crop once, with its total over all beds, grouped
// by the month in which to buy and by where it is sold.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "garden/plan.h"
#include "garden/sheet.h"
#include "ground/schedule.h"
#include "work/goods.h"
#include "work/jobs.h"

namespace trug::work {

struct Purchase {
  Goods goods{};
  const Sheet* sheet = nullptr;
  std::optional<std::string> variety;
  std::optional<std::string> group;    // of the sheet
  Date month;                          // its first day: when to buy
  std::optional<Date> missed;          // likewise: when the best of it was to be had, gone by
  Date by;                             // the last day that leaves time to send it
  int plants = 0;                      // that are to come of it
  int number = 0;                      // seeds, bulbs, tubers or plants to buy
  int spare = 0;                       // of them, bulbs in case some do not come up
  std::optional<int> packets;          // of seed, where the sheet knows a usual one
  int in_hand = 0;                     // of the same, not to be bought
  std::vector<std::size_t> plantings;  // that it is for, in the plan's order
};

// What a joint order is for, by crop, variety and group. What is in hand is taken off.
std::vector<Purchase> items_of(const Plan& plan, const ground::Schedule& schedule, const Job& order,
                               Date today);
// Those of all orders (orders.h) that do not lie before `today`, by month, then goods. `jobs`: the
// schedule's.
std::vector<Purchase> purchases(const Plan& plan, const ground::Schedule& schedule,
                                const std::vector<Job>& jobs, Date today);
// What the orders that do lie before it are taken to have brought, likewise.
std::vector<Purchase> taken_as_bought(const Plan& plan, const ground::Schedule& schedule,
                                      const std::vector<Job>& jobs, Date today);

}  // namespace trug::work
