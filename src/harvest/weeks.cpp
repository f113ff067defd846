// SPDX-License-Identifier: MIT
#include "harvest/weeks.h"

#include <algorithm>
#include <array>

#include "harvest/share.h"

namespace trug::harvest {
namespace {

constexpr int kDaysPerWeek = 7;

// How a year may go: all early, as likely, or all late.
constexpr std::size_t kCourses = 3, kLikelyCourse = 1;

// Stems of a week on each course, at the least, the likely and the most that plants yield.
struct Courses {
  std::array<Span, kCourses> on{};

  void add(const Courses& other) {
    for (std::size_t i = 0; i < kCourses; ++i) {
      on[i].low += other.on[i].low;
      on[i].likely += other.on[i].likely;
      on[i].high += other.on[i].high;
    }
  }
  Span span() const {
    Span result{on[0].low, on[kLikelyCourse].likely, on[0].high};
    for (const Span& course : on) {
      result.low = std::min(result.low, course.low);
      result.high = std::max(result.high, course.high);
    }
    return result;
  }
  bool none() const { return span().high <= 0; }
};

}  // namespace

double share_in(const Cut& cut, Date monday, int moved) {
  const Date first = cut.first + Days{moved};
  const Date last = cut.moves_with_first ? cut.lift + Days{std::max(0, moved)} : cut.lift;
  double share = 0;
  for (Date day = std::max(monday, first); day < monday + Days{kDaysPerWeek} && day <= last;
       day += Days{1}) {
    const auto index = static_cast<std::size_t>(days_between(first, day));
    if (index < cut.shares.size()) share += cut.shares[index];
  }
  return share;
}

namespace {

Courses courses(const Cut& cut, Date monday) {
  const std::array<int, kCourses> moved{days_between(cut.first, cut.first_early), 0,
                                        days_between(cut.first, cut.first_late)};
  Courses result;
  for (std::size_t i = 0; i < kCourses; ++i) {
    const double share = share_in(cut, monday, moved[i]);
    result.on[i] = {share * cut.stems.low, share * cut.stems.likely, share * cut.stems.high};
  }
  return result;
}

// One week's stems by all that is asked of them.
class Counter {
 public:
  Counter(Week& week, const Wanted& wanted) : week_(week), wanted_(wanted) {}

  void add(const Cut& cut) {
    const Courses found = courses(cut, week_.monday);
    if (found.none()) return;
    all_.add(found);
    by_role_[cut.role].add(found);
    kinds_[cut.crop].add(found);
    parts_[cut.crop] = part_of(cut.role);
    const double colours = std::max(1.0, static_cast<double>(cut.colours.size()));
    if (cut.colours.empty()) by_colour_[std::string(kUnknownColours)].add(found);
    for (const std::string& colour : cut.colours) by_colour_[colour].add(shared(found, colours));
    add_kind(cut, found.span());
  }

  void close() {
    week_.stems = all_.span();
    for (const auto& [role, found] : by_role_) week_.by_role[role] = found.span();
    for (const auto& [colour, found] : by_colour_) week_.by_colour[colour] = found.span();
    week_.vase = vase(wanted_, kinds(kLikelyCourse, &Span::likely));
    week_.usable = {week_.vase.usable, week_.vase.usable, week_.vase.usable};
    for (std::size_t course = 0; course < kCourses; ++course) {
      const double low = vase(wanted_, kinds(course, &Span::low)).usable;
      const double high = vase(wanted_, kinds(course, &Span::high)).usable;
      week_.usable.low = std::min(week_.usable.low, low);
      week_.usable.high = std::max(week_.usable.high, high);
    }
  }

 private:
  static Courses shared(Courses found, double parts) {
    for (Span& span : found.on) span = {span.low / parts, span.likely / parts, span.high / parts};
    return found;
  }

  // Sowings of one planting together.
  void add_kind(const Cut& cut, const Span& stems) {
    if (week_.kinds.empty() || week_.kinds.back().planting != cut.planting) {
      week_.kinds.push_back({cut.crop, cut.planting, {}});
    }
    Span& sum = week_.kinds.back().stems;
    sum = {sum.low + stems.low, sum.likely + stems.likely, sum.high + stems.high};
  }

  std::vector<Kind> kinds(std::size_t course, double Span::*yield) const {
    std::vector<Kind> result;
    for (const auto& [crop, found] : kinds_) {
      result.push_back({parts_.at(crop), found.on[course].*yield});
    }
    return result;
  }

  Week& week_;
  const Wanted wanted_;
  Courses all_;
  std::map<Role, Courses> by_role_;
  std::map<std::string, Courses> by_colour_, kinds_;
  std::map<std::string, Part> parts_;
};

// How the ground is covered, on the mean of the week's days.
void cover(Week& week, const std::vector<Cut>& cuts, Millimetres ground) {
  int flower = 0, leaf = 0;  // millimetre-days
  for (const Cut& cut : cuts) {
    for (Date day = week.monday; day < week.monday + Days{kDaysPerWeek}; day += Days{1}) {
      if (day < cut.in_ground || day > cut.lift) continue;
      const Date last = cut.first + Days{static_cast<int>(cut.shares.size()) - 1};
      (day >= cut.first && day <= last ? flower : leaf) += cut.length.value();
    }
  }
  week.flower = Millimetres{flower / kDaysPerWeek};
  week.leaf = Millimetres{leaf / kDaysPerWeek};
  week.bare = std::max(Millimetres{}, ground - week.flower - week.leaf);
}

Millimetres ground_of(const Plan& plan) {
  Millimetres sum;
  for (const Bed& bed : plan.beds) sum += bed.length;
  return sum;
}

}  // namespace

Wanted wanted(const Wish& wish) { return {wish.vases_per_week * wish.stems_per_vase, wish.mixed}; }

std::optional<DateRange> wish_days(const Plan& plan, const climate::Climate& climate) {
  if (!plan.wish) return std::nullopt;
  const Date season = climate.season_start(plan.flowering_year);
  const auto in_season = [&](MonthDay day) {
    const Date date = on(day, year_of(season));
    return date < season ? on(day, year_of(season) + 1) : date;
  };
  return DateRange{in_season(plan.wish->from), in_season(plan.wish->to) + Days{1}};
}

std::vector<Week> count_weeks(const Plan& plan, const climate::Climate& climate,
                              const std::vector<Cut>& cuts) {
  const auto wish = wish_days(plan, climate);
  const DateRange days = wish.value_or(DateRange{climate.season_start(plan.flowering_year),
                                                 climate.season_start(plan.flowering_year + 1)});
  const Millimetres ground = ground_of(plan);
  std::vector<Week> weeks;
  for (Date monday = monday_of(days.from); monday < days.until; monday += Days{kDaysPerWeek}) {
    weeks.push_back({.monday = monday, .wished = wish.has_value()});
    Counter counter(weeks.back(), plan.wish ? wanted(*plan.wish) : Wanted{});
    for (const Cut& cut : cuts) counter.add(cut);
    counter.close();
    cover(weeks.back(), cuts, ground);
  }
  return weeks;
}

int count(const std::vector<Week>& weeks, WeekState state) {
  return static_cast<int>(
      std::ranges::count_if(weeks, [&](const Week& week) { return week.vase.state() == state; }));
}

}  // namespace trug::harvest
