// SPDX-License-Identifier: MIT
#include "ground/begun.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <string>

#include "ground/schedule.h"

namespace trug::ground {
namespace {

// The records of one start.
struct Records {
  std::optional<Date> sown, planted, planted_out;
};

bool agrees(const Way& way, const Records& records) {
  return can_have(way, {records.sown.has_value(), records.planted.has_value(),
                        records.planted_out.has_value()});
}

int days_outside(Date day, const DateRange& window) {
  if (day < window.from) return days_between(day, window.from);
  return std::max(0, days_between(window.until, day) + 1);
}

// Days by which the records miss the way's usual weeks.
int days_off(const Way& way, const Records& records, const climate::Season& season) {
  const DateRange window = *season.usual_days(way);
  const auto out = records.planted_out ? records.planted_out : records.planted;
  if (!way.weeks_under_cover) return days_outside(out ? *out : *records.sown, window);
  const int low = static_cast<int>(std::lround(7 * way.weeks_under_cover->low));
  const int high = static_cast<int>(std::lround(7 * way.weeks_under_cover->high));
  const int late = out ? days_outside(*out, window) : 0;
  if (!records.sown) return late;
  const DateRange starts = out ? DateRange{*out - Days{high}, *out - Days{low} + Days{1}}
                               : DateRange{window.from - Days{high}, window.until - Days{low}};
  return late + days_outside(*records.sown, starts);
}

// The way that the plan pins, where the records agree with it; else the one whose usual weeks they
// miss least, the first of the sheet among equals.
std::optional<std::size_t> way_of(const Planting& planting, const Sheet& sheet,
                                  const Records& records, const climate::Season& season) {
  std::optional<std::size_t> best;
  int least = std::numeric_limits<int>::max();
  for (std::size_t i = 0; i < sheet.ways.size(); ++i) {
    const Way& way = sheet.ways[i];
    if (!season.usual_days(way) || !agrees(way, records)) continue;
    const bool pinned = planting.asked.pins.way == way.name;
    const int off = pinned ? -1 : days_off(way, records, season);
    if (off >= least) continue;
    least = off;
    best = i;
  }
  return best;
}

// What is not done is what the job's word says; without one, the next thing it begins with.
void take_not_done(const Happened& happened, Begun& begun) {
  const bool start = happened.job ? *happened.job == "sow" || *happened.job == "plant"
                                  : !begun.start && !begun.in_ground;
  const bool out = happened.job ? *happened.job == "plant-out" : !start && !begun.in_ground;
  if (start) begun.start_from = happened.on;
  if (out) begun.in_ground_from = happened.on;
}

void take(const Happened& happened, Begun& begun, Records& records) {
  switch (happened.what) {
    case Happening::Sown:
      records.sown = begun.start = happened.on;
      break;
    case Happening::Planted:
      records.planted = begun.in_ground = happened.on;
      break;
    case Happening::PlantedOut:
      records.planted_out = begun.in_ground = happened.on;
      break;
    case Happening::Pinched:
      break;
    case Happening::FirstCut:
    case Happening::Cut:
      if (!begun.first_cut) begun.first_cut = happened.on;
      if (happened.stems) {
        begun.counted_until = happened.on;
        begun.stems += *happened.stems;
      }
      break;
    case Happening::Lifted:
      begun.lift = happened.on;
      break;
    case Happening::Failed:
      begun.failed = happened.on;
      break;
    case Happening::NotDone:
      take_not_done(happened, begun);
      break;
  }
}

// One start from its records, which are in order.
Begun start_of(const Planting& planting, const Sheet& sheet, const climate::Season& season,
               int number, int repeat) {
  Begun begun{.number = number, .repeat = repeat};
  Records records;
  for (const Happened& happened : planting.happened) {
    if (happened.succession == number && happened.repeat == repeat) {
      take(happened, begun, records);
    }
  }
  if (!begun.start && !begun.in_ground) return begun;
  begun.way = way_of(planting, sheet, records, season);
  if (!begun.way) return begun;
  const bool raised = sheet.ways[*begun.way].weeks_under_cover.has_value();
  if (!raised && !begun.in_ground) begun.in_ground = begun.start;
  if (!raised && !begun.start) begun.start = begun.in_ground;
  return begun;
}

// Sowings that are asked for; where as many are as are useful, those that are recorded.
int sowings_told_of(const Planting& planting) {
  if (planting.asked.successions) return *planting.asked.successions;
  int last = 1;
  for (const Happened& happened : planting.happened) last = std::max(last, happened.succession);
  return last;
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
      if (left <= 0 || last->way || asked.since) continue;
      last->young_plants = true;
      left -= plants;
    }
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
