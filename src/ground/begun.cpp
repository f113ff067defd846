// SPDX-License-Identifier: MIT
#include "ground/begun.h"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <string>
#include <utility>

#include "ground/schedule.h"
#include "ground/told.h"

namespace trug::ground {
namespace {

// Days from a job that came late until its plants can go out: roots take as long again as the
// hardening off that follows (memory).
constexpr int kRootIn = 10;

int days_until_ready(const std::string& job) {
  if (job == "prick-out" || job == "pot-on") return kRootIn + kHardenedDays;
  return job == "harden-off" ? kHardenedDays : 0;
}

// What is not done is what the job's word says; without one, what was to be done last, as far as
// that was told, else the next thing it begins with.
void take_not_done(const Happened& happened, const Planting& planting, Begun& begun) {
  if (const int days = happened.job ? days_until_ready(*happened.job) : 0; days > 0) {
    const Date ready = happened.on + Days{days};
    begun.ready_from = std::max(begun.ready_from.value_or(ready), ready);
  }
  const auto told = [&](const char* job) {
    return told_day(planting, begun.number, begun.repeat, job);
  };
  const auto told_start = told("sow") ? told("sow") : told("plant");
  const auto told_out = told("plant-out");
  const bool is_out = told_out && *told_out <= happened.on;
  const bool start = happened.job ? *happened.job == "sow" || *happened.job == "plant"
                                  : !is_out && !begun.start && !begun.in_ground;
  const bool out = happened.job ? *happened.job == "plant-out" : !start && !begun.in_ground;
  // Without a calendar it may have been chosen for that very day.
  const auto due = [&](std::optional<Date> day) {
    return due_again(happened.on, day.value_or(happened.on));
  };
  if (start) begun.start_from = due(told_start);
  if (out) begun.in_ground_from = due(told_out);
}

void take(const Happened& happened, const Planting& planting, Begun& begun, StartDays& records) {
  switch (happened.what) {
    case Happening::Sown:
      records.sown = begun.start = happened.on;
      break;
    case Happening::Planted:
      records.planted = begun.in_ground = happened.on;
      break;
    case Happening::PlantedOut:
      // What was planted before went into pots.
      if (records.planted) records.sown = begun.start = std::exchange(records.planted, {});
      records.planted_out = begun.in_ground = happened.on;
      break;
    case Happening::Pinched:
      begun.pinched = happened.on;
      break;
    case Happening::FirstCut:
    case Happening::Cut:
      if (!begun.first_cut) begun.first_cut = happened.on;
      if (happened.stems) begun.counts.push_back({happened.on, *happened.stems});
      break;
    case Happening::Lifted:
      begun.lift = happened.on;
      break;
    case Happening::Failed:
      begun.failed = happened.on;
      break;
    case Happening::NotDone:
      take_not_done(happened, planting, begun);
      break;
  }
}

// Tubers and corms that their calendar has potted up and set out later: `planted` is the job of
// that name, where its day is the nearer one.
bool is_potting(const Happened& happened, const Planting& planting, int number, int repeat) {
  if (happened.what != Happening::Planted) return false;
  const auto potted = told_day(planting, number, repeat, "plant");
  const auto out = told_day(planting, number, repeat, "plant-out");
  return potted && out &&
         std::abs(days_between(*potted, happened.on)) < std::abs(days_between(*out, happened.on));
}

// One start from its records, which are in order, and from what was told of it.
Begun start_of(const Planting& planting, const Sheet& sheet, const climate::Season& season,
               int number, int repeat) {
  Begun begun{.number = number, .repeat = repeat};
  StartDays records;
  for (const Happened& happened : planting.happened) {
    if (happened.succession != number || happened.repeat != repeat) continue;
    Happened record = happened;
    if (is_potting(happened, planting, number, repeat)) record.what = Happening::Sown;
    take(record, planting, begun, records);
  }
  take_told(planting, sheet, season, records, begun);
  if (!begun.start && !begun.in_ground) return begun;
  if (!begun.way) begun.way = way_of(planting, sheet, records, season);
  if (!begun.way) return begun;
  const bool raised = sheet.ways[*begun.way].weeks_under_cover.has_value();
  if (!raised && !begun.in_ground) begun.in_ground = begun.start;
  if (!raised && !begun.start) begun.start = begun.in_ground;
  return begun;
}

}  // namespace

std::vector<Begun> begun(const Planting& planting, const Sheet& sheet,
                         const climate::Season& season) {
  std::vector<Begun> result;
  for (int i = 1; i <= sowings_told_of(planting); ++i) {
    const int number = planting.asked.successions == 1 ? 0 : i;
    std::optional<Date> failed;
    for (int repeat = 0; repeat == 0 || failed; ++repeat) {
      Begun one = start_of(planting, sheet, season, number, repeat);
      one.again_from = failed;
      failed = one.failed;
      result.push_back(one);
    }
  }
  return result;
}

namespace {

// How many of so many young plants a start takes: none where it has begun otherwise. What was set
// out where nobody sowed was such plants, and counts as bought ones where the trade sells them.
int give(int plants, const Sheet& sheet, Begun& begun) {
  const bool set_out = begun.in_ground && !begun.start;
  if (begun.way && !set_out) return 0;
  begun.young_plants = true;
  begun.plants = plants;
  const auto sold = std::ranges::find(sheet.ways, Method::BoughtPlants, &Way::method);
  if (set_out && sold != sheet.ways.end()) {
    begun.way = static_cast<std::size_t>(sold - sheet.ways.begin());
    begun.start = begun.in_ground;
  }
  return plants;
}

// Young plants in hand go to the plantings of their crop that have not begun, in the plan's order.
void give_young_plants(const Plan& plan, const std::vector<const Sheet*>& sheets,
                       std::vector<std::vector<Begun>>& all) {
  std::map<std::string, int> there;
  for (const InHand& held : plan.have) {
    if (held.what == Held::Plants) there[held.crop] += held.number;
  }
  for (std::size_t i = 0; i < all.size() && !there.empty(); ++i) {
    const CropEntry& asked = plan.plantings[i].asked;
    const int sowings = sowings_told_of(plan.plantings[i]);
    const int plants = std::max(1, layout(plan.plantings[i], *sheets[i]).plants / sowings);
    for (int j = 1; j <= sowings; ++j) {
      const int number = asked.successions == 1 ? 0 : j;
      const auto last = std::find_if(all[i].rbegin(), all[i].rend(),
                                     [&](const Begun& one) { return one.number == number; });
      int& left = there[asked.crop];
      if (left > 0 && !asked.since) left -= give(std::min(left, plants), *sheets[i], *last);
    }
  }
}

// Where seed or bulbs are there for all of a planting; what is to be bought besides is waited for.
void mark_in_hand(const Plan& plan, const std::vector<const Sheet*>& sheets,
                  std::vector<std::vector<Begun>>& all) {
  std::map<std::string, int> there;
  for (const InHand& held : plan.have) there[held.crop] += held.number;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto held = there.find(plan.plantings[i].asked.crop);
    if (held == there.end()) continue;
    const int plants = layout(plan.plantings[i], *sheets[i]).plants;
    for (Begun& one : all[i]) one.in_hand = plants <= held->second;
    held->second -= std::min(plants, held->second);
  }
}

}  // namespace

std::vector<std::vector<Begun>> begun(const Plan& plan, const std::vector<const Sheet*>& sheets,
                                      const climate::Season& season) {
  std::vector<std::vector<Begun>> result;
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    result.push_back(begun(plan.plantings[i], *sheets[i], season));
  }
  give_young_plants(plan, sheets, result);
  mark_in_hand(plan, sheets, result);
  // From the last back: what stands before one that is gone by then is gone as well.
  for (std::size_t i = plan.plantings.size(); i-- > 0;) {
    const auto& before = plan.plantings[i].follows;
    if (!before) continue;
    const Begun& first = result[i].front();
    const auto taken = first.in_ground ? first.in_ground : first.gone_by;
    for (Begun& one : result[*before]) one.gone_by = taken;
  }
  return result;
}

const Begun* standing(const std::vector<Begun>& all, int number) {
  const Begun* last = nullptr;
  for (const Begun& one : all) {
    if (one.number == number) last = &one;
  }
  return last;
}

}  // namespace trug::ground
