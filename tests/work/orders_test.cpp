// SPDX-License-Identifier: MIT
#include "work/orders.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "plan_text.h"
#include "work/goods.h"
#include "work/make_jobs.h"
#include "work/planned.h"

namespace trug::work {
namespace {

const Date kToday = make_date(2026, 1, 1);

// Two beds with seed, bulbs, corms, tubers and a succession.
std::string two_beds() {
  return bed_text("long bed", "5.6", "0.9",
                  {{"1.1", "crops = [\"cosmos\"]"},
                   {"0.9", "crops = [\"tulip\", \"zinnia\"]"},
                   {"1.3", "crops = [\"dahlia\"]"},
                   {"0.7", "crops = [\"gladiolus\"]"}}) +
         bed_text("short bed", "3.4", "0.9",
                  {{"0.8", "crops = [\"cornflower\"]"},
                   {"0.7", "[[bed.stretch.crop]]\ncrop = \"tulip\"\ngroup = \"late\""},
                   {"0.9", "[[bed.stretch.crop]]\ncrop = \"sunflower\"\nsuccessions = 3"}});
}

std::vector<Job> listed(const Planned& p, Date today = kToday) {
  return with_joint_orders(p.plan, p.schedule, p.jobs, today);
}

std::vector<Job> orders(const Planned& p, Date today = kToday) {
  std::vector<Job> result;
  for (const Job& job : listed(p, today)) {
    if (!job.parts.empty()) result.push_back(job);
  }
  return result;
}

// Each sowing's own order is a part of one joint order, with its plants, and nothing else is.
TEST(JointOrders, HoldEachOrderOnce) {
  const Planned p = planned("", two_beds());
  std::map<std::size_t, int> wanted, found;
  for (const Job& job : p.jobs) {
    if (goods_of(job.key.kind)) wanted[job.sowing] += job.plants.value();
  }
  ASSERT_EQ(wanted.size(), p.schedule.sowings.size());
  int parts = 0;
  for (const Job& order : orders(p)) {
    for (const OrderPart& part : order.parts) {
      found[part.sowing] += part.plants;
      ++parts;
      EXPECT_EQ(part.key.kind, order.key.kind);
      EXPECT_LE(order.day, part.last);
    }
  }
  EXPECT_EQ(found, wanted);
  EXPECT_EQ(parts, static_cast<int>(wanted.size()));
}

// Of a kind one a month, and no identity twice.
TEST(JointOrders, AreOneAKindAndMonth) {
  const Planned p = planned("", two_beds());
  std::set<std::pair<JobKind, Date>> seen;
  std::set<JobKind> kinds;
  for (const Job& order : orders(p)) {
    EXPECT_TRUE(seen.emplace(order.key.kind, month_begin(order.day)).second) << iso(order.day);
    EXPECT_EQ(order.key.repeat, 0);
    EXPECT_EQ(order.key.succession,
              year_of(order.day) * 100 + static_cast<int>(month_of(order.day)));
    EXPECT_EQ(order.key.bed, "");
    kinds.insert(order.key.kind);
  }
  EXPECT_EQ(kinds, (std::set{JobKind::OrderSeed, JobKind::OrderBulbs, JobKind::OrderTubers}));
}

TEST(JointOrders, KeepTheLinksOfTheJobs) {
  const Planned p = planned("", two_beds());
  const auto jobs = listed(p);
  ASSERT_TRUE(std::ranges::is_sorted(jobs, {}, &Job::day));
  int ordered = 0;
  for (const Job& job : jobs) {
    for (const std::size_t link : job.after) {
      EXPECT_LE(jobs[link].day, job.day);
      const auto& parts = jobs[link].parts;
      if (parts.empty()) continue;
      ++ordered;
      EXPECT_NE(std::ranges::find(parts, job.sowing, &OrderPart::sowing), parts.end());
    }
    if (job.told_with) {
      EXPECT_EQ(jobs[*job.told_with].sowing, job.sowing);
    }
  }
  EXPECT_GE(ordered, static_cast<int>(p.schedule.sowings.size()));
}

// Seed of one crop for this year's sowings is one item, bought for the first of them.
TEST(JointOrders, BuySeedOfACropOnce) {
  const Planned p = planned("", two_beds());
  std::set<std::size_t> of_sunflower;
  for (const Job& order : orders(p)) {
    for (const OrderPart& part : order.parts) {
      if (p.schedule.at(part.sowing).sheet->name == "sunflower") {
        of_sunflower.insert(static_cast<std::size_t>(order.key.succession));
      }
    }
  }
  EXPECT_EQ(of_sunflower.size(), 1u);
}

// On the first of the gardener's days in the month.
TEST(JointOrders, FallOnTheGardenersDays) {
  Planned p = planned("", two_beds());
  p.plan.work.days = {std::chrono::Thursday};
  static_cast<ask::Outcome&>(p) = ask::reckon(p.plan, p.sheets, {}, kToday);
  for (const Job& order : orders(p)) {
    EXPECT_EQ(std::chrono::weekday{order.day}, std::chrono::Thursday) << iso(order.day);
    EXPECT_LE(day_of_month(order.day), 7u);
  }
}

// What the calendar told stays the order that it was; what is new goes into the next of the month.
TEST(JointOrders, GoOnFromWhatWasTold) {
  Planned p = planned("", two_beds());
  const auto seed = [&](Date today) {
    std::vector<Job> result;
    for (const Job& order : orders(p, today)) {
      if (order.key.kind == JobKind::OrderSeed && order.key.succession == 202701) {
        result.push_back(order);
      }
    }
    return result;
  };
  const Date first = seed(kToday).at(0).day, today = first + Days{3};
  ASSERT_GE(seed(kToday).at(0).parts.size(), 3u);
  // All but the cosmos was told, and lies behind.
  p.plan.remembers = true;
  p.plan.orders = {{"order-seed", seed(kToday).at(0).key.succession, 0, first}};
  for (std::size_t i = 0; i < p.plan.plantings.size(); ++i) {
    if (p.plan.plantings[i].asked.crop == "cosmos") continue;
    for (const ground::Sowing& sowing : p.schedule.of(i)) {
      Told told{.succession = sowing.number};
      told.jobs["order-seed"] = first;
      told.ordered = {{"order-seed", first, sowing.plants}};
      p.plan.plantings[i].told.push_back(told);
    }
  }
  p.plan.began = make_date(2025, 6, 1);
  p.jobs = make_jobs(p.plan, p.schedule, *p.climate, {today, p.plan.began});
  const auto now = seed(today);
  ASSERT_EQ(now.size(), 2u);
  EXPECT_EQ(now[0].day, first);
  EXPECT_EQ(now[0].state, Job::State::Assumed);
  EXPECT_EQ(now[0].key.repeat, 0);
  EXPECT_EQ(now[1].day, today);
  EXPECT_EQ(now[1].state, Job::State::Due);
  EXPECT_EQ(now[1].key.repeat, 1);
  ASSERT_EQ(now[1].parts.size(), 1u);
  EXPECT_EQ(p.plan.plantings[now[1].parts[0].planting].asked.crop, "cosmos");
}

// More plants than were ordered: the rest is in the next order. Fewer: nothing is.
TEST(JointOrders, OfMorePlantsOrderTheRest) {
  for (const int ordered : {100, 40, 1}) {
    Planned p =
        planned("", bed_text("lane", "2.3", "0.9",
                             {{"1.1", "[[bed.stretch.crop]]\ncrop = \"cosmos\"\nplants = 40"}}));
    const Date first = make_date(2027, 1, 1), today = make_date(2027, 2, 10);
    p.plan.remembers = true;
    p.plan.began = make_date(2025, 6, 1);
    p.plan.orders = {{"order-seed", 202701, 0, first}};
    Told told;
    told.jobs["order-seed"] = first;
    told.ordered = {{"order-seed", first, ordered}};
    p.plan.plantings[0].told = {told};
    p.jobs = make_jobs(p.plan, p.schedule, *p.climate, {today, p.plan.began});
    const auto now = orders(p, today);
    ASSERT_EQ(now.size(), ordered < 40 ? 2u : 1u) << ordered;
    EXPECT_EQ(now[0].state, Job::State::Assumed);
    EXPECT_EQ(now[0].plants, std::min(ordered, 40));
    if (ordered < 40) {
      EXPECT_EQ(now[1].state, Job::State::Due);
      EXPECT_EQ(now[1].plants, 40 - ordered);
      EXPECT_EQ(now[1].day, today);
    }
  }
}

// Calendars that told an order for one sowing alone: what lies behind stays such a job, and is
// ordered no more; tubers were told with bulbs then.
TEST(JointOrders, LeaveWhatAnEarlierCalendarToldAlone) {
  Planned p = planned("", two_beds());
  const Date first = make_date(2026, 12, 5), today = make_date(2026, 12, 8);
  p.plan.remembers = true;
  p.plan.began = make_date(2025, 6, 1);
  for (Planting& planting : p.plan.plantings) {
    if (planting.asked.crop != "dahlia") continue;
    Told told;
    told.jobs["order-tubers"] = first;
    planting.told = {told};
  }
  p.jobs = make_jobs(p.plan, p.schedule, *p.climate, {today, p.plan.began});
  int alone = 0;
  for (const Job& job : listed(p, today)) {
    if (job.key.kind != JobKind::OrderTubers) continue;
    EXPECT_TRUE(job.parts.empty());
    EXPECT_EQ(job.day, first);
    EXPECT_EQ(job.state, Job::State::Assumed);
    ++alone;
  }
  EXPECT_EQ(alone, 1);
}

}  // namespace
}  // namespace trug::work
