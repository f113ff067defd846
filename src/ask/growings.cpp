// SPDX-License-Identifier: MIT
#include "ask/growings.h"

#include <algorithm>
#include <cstddef>
#include <cstdlib>
#include <map>
#include <tuple>
#include <utility>

#include "climate/climate.h"
#include "garden/crop_spec.h"
#include "ground/candidates.h"
#include "ground/options.h"
#include "ground/schedule.h"
#include "harvest/weeks.h"

namespace trug::ask {
namespace {

using ground::Candidate;

constexpr Days kSummerBeforeFrost{30};  // either frost
constexpr double kLeastYield = 0.25;    // of the middle, where a sheet's least is nearer to nothing

bool is_sure(const Candidate& c) {
  return c.days_late() == 0 && c.days_early() == 0 && !c.too_early && !c.small_rosette &&
         !c.under_fleece && c.alive >= growth::kUsuallyAlive && !c.cold_soil && !c.without_flower;
}

bool has_colour(const Sheet& sheet, const std::vector<std::string>& wished) {
  if (wished.empty() || sheet.roles.front() == Role::Foliage) return true;
  return std::ranges::any_of(sheet.colours, [&](const std::string& colour) {
    return std::ranges::find(wished, colour) != wished.end();
  });
}

// Of one plant, in its own square.
Growing growing(const Sheet& sheet, const Candidate& c, const std::vector<Date>& mondays,
                DateRange summer) {
  ground::Sowing one{c};
  one.sheet = &sheet;
  one.lift = std::min(c.lift_to, c.timeline.last_cut());
  Growing result{.sheet = &sheet, .way = one.raised_by().name, .stems = {}};
  result.ground = {c.in_ground, one.lift + Days{1}};
  const double side_m = sheet.spacing_cm.middle() / 100;
  result.m2 = side_m * side_m;
  const Date from = std::max(c.in_ground, summer.from), until = std::min(one.lift, summer.until);
  result.summer_weeks = std::max(1.0, days_between(from, until) / 7.0);
  const Range yield = one.spec().stems_per_plant(one.raised_by());
  if (yield.middle() > 0) {
    result.least = std::max(kLeastYield, yield.low / yield.middle());
    result.most = yield.high / yield.middle();
  }
  result.stems.resize(mondays.size());
  const auto by_day = ground::stems_by_day(one);
  for (std::size_t day = 0; day < by_day.size(); ++day) {
    const int week =
        days_between(mondays.front(), c.timeline.first_cut.likely) + static_cast<int>(day);
    if (week < 0 || week / 7 >= static_cast<int>(mondays.size())) continue;
    result.stems[static_cast<std::size_t>(week / 7)] += by_day[day];
  }
  return result;
}

}  // namespace

double Growing::best_week() const { return stems.empty() ? 0 : *std::ranges::max_element(stems); }

std::vector<Growing> growings(const Garden& garden, const Sheet& sheet,
                              const std::vector<Date>& mondays) {
  const Plan& plan = garden.plan;
  const ground::Setting setting{.climate = garden.climate,
                                .place = plan.place,
                                .work = plan.work,
                                .shelter = plan.shelter,
                                .flowering_year = plan.flowering_year,
                                .first_day = garden.first_day(),
                                .today = garden.today};
  const CropEntry entry{.crop = sheet.name};
  const auto all = ground::candidates(setting, sheet, entry);
  const auto options =
      ground::options_of(all, entry, sheet, ground::DayCount(garden.climate, plan.flowering_year));
  const DateRange summer = summer_of(garden);
  // The one nearest the middle of its window stands for its week.
  std::map<std::tuple<std::size_t, const Group*, Date>, const Candidate*> nearest;
  const auto off = [](const Candidate* c) {
    return std::abs(days_between(c->window_middle(), c->in_ground));
  };
  for (const Candidate& c : all.list) {
    if (!is_sure(c)) continue;
    const Candidate*& best = nearest[{c.way, c.group, monday_of(c.timeline.first_cut.likely)}];
    if (best == nullptr || off(&c) < off(best)) best = &c;
  }
  std::vector<Growing> result;
  for (std::size_t i = 0; i < all.list.size(); ++i) {
    const Candidate& c = all.list[i];
    Growing one = growing(sheet, c, mondays, summer);
    if (one.best_week() <= 0) continue;
    one.free = options.list[i].free;
    const auto found = nearest.find({c.way, c.group, monday_of(c.timeline.first_cut.likely)});
    one.usual = found != nearest.end() && found->second == &c;
    result.push_back(std::move(one));
  }
  return result;
}

std::vector<const Sheet*> wished_sheets(const Garden& garden) {
  const Wish& wish = *garden.plan.wish;
  const auto among = [](const std::vector<std::string>& crops, const std::string& name) {
    return std::ranges::find(crops, name) != crops.end();
  };
  std::vector<const Sheet*> result;
  for (const auto& [name, sheet] : garden.sheets) {
    if (among(wish.dislike, name) || (wish.safe && !is_harmless(*sheet))) continue;
    const bool liked = among(wish.like, name);
    if (wish.like.empty() ? has_colour(*sheet, wish.colours) : liked) result.push_back(sheet);
  }
  return result;
}

DateRange summer_of(const Garden& garden) {
  const climate::SeasonFrosts frosts = garden.climate.frosts(garden.plan.flowering_year);
  return {frosts.last - kSummerBeforeFrost, frosts.first - kSummerBeforeFrost};
}

std::vector<Date> wish_mondays(const Garden& garden) {
  const DateRange wish = *harvest::wish_days(garden.plan, garden.climate);
  std::vector<Date> mondays;
  for (Date day = monday_of(wish.from); day < wish.until; day += Days{7}) mondays.push_back(day);
  return mondays;
}

}  // namespace trug::ask
