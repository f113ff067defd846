// SPDX-License-Identifier: MIT
#include "work/orders.h"

#include <algorithm>
#include <chrono>
#include <compare>
#include <cstddef>
#include <map>
#include <numeric>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <utility>

#include "base/words.h"
#include "work/goods.h"

namespace trug::work {
namespace {

using ground::Schedule;

// What is bought once for all its sowings. Young plants do not keep.
using Item = std::tuple<JobKind, std::string, std::optional<std::string>, std::string>;

Item item_of(const Job& job, const Schedule& schedule) {
  const auto* group = schedule.at(job.sowing).group;
  return {job.key.kind, job.crop, job.variety, group ? group->name : ""};
}

bool is_told_alone(const Plan& plan, const Job& job) {
  if (!plan.remembers || job.state != Job::State::Assumed) return false;
  const auto& all = plan.plantings[job.planting].told;
  return std::ranges::none_of(all, [&](const Told& told) {
    return told.succession == job.key.succession && told.repeat == job.key.repeat &&
           std::ranges::find(told.ordered, job.day, &ToldPart::day) != told.ordered.end();
  });
}

int number_of(Date month) { return year_of(month) * 100 + static_cast<int>(month_of(month)); }

// The first of the gardener's days from `day` on, in its month and no later than `last`; where
// there is none, `day`.
Date work_day(const std::vector<std::chrono::weekday>& days, Date day, Date last) {
  for (Date one = day; one <= last && month_begin(one) == month_begin(day); one += Days{1}) {
    const bool works = std::ranges::find(days, std::chrono::weekday{one}) != days.end();
    if (days.empty() || works) return one;
  }
  return day;
}

class JointOrders {
 public:
  JointOrders(const Plan& plan, const Schedule& schedule, const std::vector<Job>& jobs, Date today)
      : plan_(plan), today_(today), jobs_(jobs) {
    std::map<Item, Date> first;
    const auto is_kept = [](const Job& job) { return job.key.kind != JobKind::OrderPlants; };
    for (const Job& job : jobs) {
      if (!goods_of(job.key.kind) || job.state != Job::State::Due || !is_kept(job)) continue;
      const auto [item, is_new] = first.try_emplace(item_of(job, schedule), job.day);
      item->second = std::min(item->second, job.day);
    }
    for (std::size_t i = 0; i < jobs.size(); ++i) {
      const Job& job = jobs[i];
      if (!goods_of(job.key.kind) || is_told_alone(plan, job)) continue;
      const bool due = job.state == Job::State::Due;
      const Date day = due && is_kept(job) ? first.at(item_of(job, schedule)) : job.day;
      orders_[{job.key.kind, month_begin(day), due, due ? month_begin(day) : day}].push_back(i);
    }
  }

  // By kind and day.
  std::vector<std::pair<Job, std::vector<std::size_t>>> all() {
    std::vector<std::pair<Job, std::vector<std::size_t>>> result;
    for (const auto& [who, members] : orders_) {
      result.emplace_back(joined(who, members), members);
    }
    return result;
  }

 private:
  // Kind, month, whether it is due, and of what lies behind the day.
  struct Who {
    JobKind kind;
    Date month;
    bool due;
    Date day;  // of what lies behind
    auto operator<=>(const Who&) const = default;
  };

  Job joined(const Who& who, const std::vector<std::size_t>& members) {
    Job order;
    const Job& first = jobs_[members.front()];
    order.planting = first.planting;
    order.sowing = first.sowing;
    order.state = first.state;
    order.day = first.day;
    order.last = first.last;
    order.plants = 0;
    for (const std::size_t i : members) {
      const Job& job = jobs_[i];
      const int plants = job.plants.value_or(0);
      order.parts.push_back({job.key, job.planting, job.sowing, plants, job.last});
      *order.plants += plants;
      order.last = std::min(order.last, job.last);
      order.reminder |= job.reminder;
    }
    if (who.due) order.day = day_of(members, who.month, order.last);
    order.first = std::min(order.day, who.month);
    order.last = std::max(order.last, order.day);
    order.key = key_of(who, order);
    return order;
  }

  // Of what is bought together in a month: the latest of its days there that is in time for all.
  Date day_of(const std::vector<std::size_t>& members, Date month, Date last) const {
    Date day = month;
    for (const std::size_t i : members) {
      if (month_begin(jobs_[i].day) == month) day = std::max(day, jobs_[i].day);
    }
    day = std::max(std::min(day, last), today_);
    return work_day(plan_.work.days, day, last);
  }

  JobKey key_of(const Who& who, const Job& order) {
    JobKey key;
    key.flowering_year = plan_.plantings[order.planting].flowering_year;
    key.crop = word_of(kGoods, *goods_of(who.kind));
    key.kind = who.kind;
    key.succession = number_of(who.month);
    key.repeat = repeat_of(key, who.due, order.day);
    return key;
  }

  // As it was told; else the next of its kind in the month.
  int repeat_of(const JobKey& key, bool due, Date day) {
    std::set<int>& taken = taken_[{key.kind, key.succession}];
    int next = taken.empty() ? 0 : *taken.rbegin() + 1;
    for (const ToldOrder& told : plan_.orders) {
      if (told.job != to_string(key.kind) || told.month != key.succession) continue;
      const bool same = due ? told.day >= today_ : told.day == day;
      if (same && taken.insert(told.repeat).second) return told.repeat;
      next = std::max(next, told.repeat + 1);
    }
    taken.insert(next);
    return next;
  }

  const Plan& plan_;
  Date today_;
  const std::vector<Job>& jobs_;
  std::map<Who, std::vector<std::size_t>> orders_;
  std::map<std::pair<JobKind, int>, std::set<int>> taken_;
};

// By day, orders first; the links between jobs follow. `place`: of the earlier list's jobs.
std::vector<Job> sorted(std::vector<Job> jobs, std::vector<std::size_t> place) {
  std::vector<std::size_t> order(jobs.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(
      order, {}, [&](std::size_t i) { return std::pair(jobs[i].day, jobs[i].parts.empty()); });
  std::vector<std::size_t> now(jobs.size());
  for (std::size_t i = 0; i < order.size(); ++i) now[order[i]] = i;
  for (std::size_t& one : place) one = now[one];
  std::vector<Job> result;
  for (const std::size_t i : order) {
    Job& job = result.emplace_back(std::move(jobs[i]));
    for (std::size_t& link : job.after) link = place[link];
    if (job.told_with) job.told_with = place[*job.told_with];
  }
  return result;
}

}  // namespace

std::vector<Job> with_joint_orders(const Plan& plan, const Schedule& schedule,
                                   const std::vector<Job>& jobs, Date today) {
  std::vector<Job> result;
  std::vector<std::optional<std::size_t>> place(jobs.size());
  for (auto& [order, members] : JointOrders(plan, schedule, jobs, today).all()) {
    for (const std::size_t i : members) place[i] = result.size();
    result.push_back(std::move(order));
  }
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    places.push_back(place[i].value_or(result.size()));
    if (!place[i]) result.push_back(jobs[i]);
  }
  return sorted(std::move(result), std::move(places));
}

}  // namespace trug::work
