// SPDX-License-Identifier: MIT
// What the choice by vases gives beside the choice by sums of stems that came before it, on thirty
// drawn plans without successions and the same dates: prints a table; nothing is asserted. With the
// number of a plan it prints that plan's plantings under both, to be read by eye; with "toml" and a
// number the plan, for the program itself.
#include <fmt/core.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <map>
#include <span>
#include <string>
#include <vector>

#include "by_sum_plan.h"
#include "drawn_plans.h"
#include "ground/options.h"
#include "ground/plan_choice.h"
#include "ground/starts.h"
#include "show/plan_toml.h"

namespace trug::bench {
namespace {

using ground::Candidate;
using ground::Schedule;
using ground::Sowing;

constexpr int kPlans = 30;
constexpr int kLargePlan = 20;  // beds
constexpr double kWell = 0.7;   // of a planting's potential

struct Figures {
  int plantings = 0, left_out = 0, bought = 0;
  int late = 0, late_over_fortnight = 0, late_on_free_ground = 0;
  int next_year_over_three_weeks = 0, waits_over_six_weeks = 0;
  double bare_before = 0, bare_after = 0;  // square metres x weeks
  int weeks = 0, vase = 0, half = 0, under_quarter = 0;
  double usable = 0, stems = 0;
  double potential = 0;  // sum of each planting's share
  int poor = 0;
};

// Reads a schedule as a grower would. It takes nothing from the choice but the rule's words.
class Reader {
 public:
  Reader(const Plan& plan, const climate::Climate& climate, const Schedule& schedule,
         Figures& figures)
      : plan_(plan), schedule_(schedule), count_(climate, plan.flowering_year), figures_(figures) {
    const climate::SeasonFrosts frosts = climate.frosts(plan.flowering_year);
    summer_ = {count_.number(frosts.last - Days{30}), count_.number(frosts.first - Days{30})};
  }

  void read(const std::vector<harvest::Week>& weeks) {
    figures_.plantings += static_cast<int>(plan_.plantings.size());
    for (const auto& chain : chains(plan_)) read_stretch(chain);
    for (const Sowing& sowing : schedule_.sowings) read_harvest(sowing);
    for (const harvest::Week& week : weeks) {
      ++figures_.weeks;
      figures_.vase += week.vase.usable >= week.vase.wanted;
      figures_.half += week.vase.usable >= week.vase.wanted / 2;
      figures_.under_quarter += week.stems.likely < week.vase.wanted / 4;
      figures_.usable += week.vase.usable;
    }
  }

 private:
  void read_stretch(const std::vector<std::size_t>& chain) {
    const auto& patch = *plan_.plantings[chain.front()].patch;
    const double area_m2 = patch.length.value() / 1000.0 * (patch.width.value() / 1000.0);
    int free = 0;
    for (const std::size_t planting : chain) {
      const auto sowings = schedule_.of(planting);
      if (sowings.empty()) {
        ++figures_.left_out;
        continue;
      }
      read_start(sowings.front(), free);
      const int in_ground = count_.number(sowings.front().in_ground);
      figures_.bare_before +=
          area_m2 * (summer_.weeks_before(in_ground) - summer_.weeks_before(free));
      free = count_.number(sowings.back().lift) + plan_.work.days_between_crops;
    }
    figures_.bare_after +=
        area_m2 * (summer_.weeks_before(summer_.until) - summer_.weeks_before(free));
  }

  // The first day of the start's run of allowed ones.
  int first_allowed(const Sowing& sowing) const {
    std::vector<int> days;
    for (const Candidate& c : schedule_.weighed[sowing.planting].candidates->list) {
      if (c.way != sowing.way || c.group != sowing.group) continue;
      days.push_back(count_.number(c.in_ground));
    }
    std::ranges::sort(days);
    int first = days.front();
    const int day = count_.number(sowing.in_ground);
    for (std::size_t i = 1; i < days.size() && days[i] <= day; ++i) {
      if (days[i] - days[i - 1] > ground::kLongestPause) first = days[i];
    }
    return first;
  }

  void read_start(const Sowing& sowing, int free) {
    const int late = sowing.days_late();
    const int day = count_.number(sowing.in_ground);
    const int first = first_allowed(sowing);
    const bool was_forbidden = first > day - late && day <= first + ground::kFortnight;
    figures_.late += late > 0;
    figures_.late_over_fortnight += late > 14;
    figures_.late_on_free_ground += late > 0 && day > free + ground::kFortnight && !was_forbidden;
    figures_.next_year_over_three_weeks +=
        late > 21 && sowing.raised_by().flowers != FlowersIn::SameYear;
    figures_.waits_over_six_weeks += late == 0 &&
                                     summer_.days_before(day) - summer_.days_before(free) > 42 &&
                                     day > first + ground::kFortnight;
    figures_.bought += sowing.raised_by().method == Method::BoughtPlants;
  }

  void read_harvest(const Sowing& sowing) {
    double most = 0;
    for (const Candidate& c : schedule_.weighed[sowing.planting].candidates->list) {
      most = std::max(most, c.stems_of(sowing.plants));
    }
    const double stems = ground::stems(sowing);
    figures_.stems += stems;
    if (most <= 0) return;
    figures_.potential += stems / most;
    figures_.poor += stems < kWell * most;
  }

  const Plan& plan_;
  const Schedule& schedule_;
  const ground::DayCount count_;
  ground::Summer summer_;
  Figures& figures_;
};

struct Both {
  Schedule by_sum, by_vases;
  double seconds = 0;  // of processor time, by vases
};

Both choose(DrawnPlans& drawn, const Plan& plan, const climate::Climate& climate) {
  Both both;
  const std::clock_t from = std::clock();
  both.by_vases = ground::choose_plan(plan, drawn.sheets(), climate);
  both.seconds = static_cast<double>(std::clock() - from) / CLOCKS_PER_SEC;
  both.by_sum = by_sum::choose_plan(plan, climate, both.by_vases.weighed);
  return both;
}

void print_row(const std::string& rule, const Figures& f) {
  const int grown = f.plantings - f.left_out;
  fmt::print(
      "{:<22} | late {} (over 14 days {}), on free ground {}, next year over 21 days {}, waits "
      "over 6 weeks {}\n{:24} bare m2-weeks before {:.0f}, after {:.0f}\n"
      "{:24} weeks {}: vase {}, half {}, under a quarter {}; usable stems {:.0f} of {:.0f}\n"
      "{:24} potential {:.3f} (under {} %: {}), bought {}, left out {} of {}\n",
      rule, f.late, f.late_over_fortnight, f.late_on_free_ground, f.next_year_over_three_weeks,
      f.waits_over_six_weeks, "", f.bare_before, f.bare_after, "", f.weeks, f.vase, f.half,
      f.under_quarter, f.usable, f.stems, "", f.potential / grown, static_cast<int>(100 * kWell),
      f.poor, f.bought, f.left_out, f.plantings);
}

void add(const Plan& plan, const climate::Climate& climate, const Schedule& schedule,
         Figures& figures) {
  Reader(plan, climate, schedule, figures)
      .read(harvest::count_weeks(plan, climate, ground::cuts(plan, schedule)));
}

void print_planting(const Schedule& schedule, std::size_t planting) {
  const auto sowings = schedule.of(planting);
  if (sowings.empty()) return fmt::print("    left out\n");
  const Sowing& one = sowings.front();
  fmt::print("    {:<40} window {} to {}: start {}, in ground {}{}, cut {} to {}, {:.0f} stems\n",
             one.raised_by().name, iso(one.window.from), iso(one.window.until - Days{1}),
             iso(one.start), iso(one.in_ground),
             one.days_late() > 0 ? fmt::format(" ({} late)", one.days_late()) : "",
             iso(one.timeline.first_cut.likely), iso(one.lift), ground::stems(one));
}

void print_plan(DrawnPlans& drawn, int number) {
  const Plan plan = drawn.draw(number);
  const auto climate = climate::Climate::from(plan.place);
  const Both both = choose(drawn, plan, climate);
  fmt::print("plan {}, {}, {:g} vases a week\n", number, place_name(number),
             plan.wish->vases_per_week);
  for (const auto& chain : chains(plan)) {
    const auto& patch = *plan.plantings[chain.front()].patch;
    fmt::print("stretch of {:.1f} m\n", patch.length.value() / 1000.0);
    for (const std::size_t planting : chain) {
      fmt::print("  {}\n", plan.plantings[planting].asked.crop);
      print_planting(both.by_sum, planting);
      print_planting(both.by_vases, planting);
    }
  }
  Figures by_sum, by_vases;
  add(plan, climate, both.by_sum, by_sum);
  add(plan, climate, both.by_vases, by_vases);
  print_row("by sums", by_sum);
  print_row("by vases", by_vases);
}

// To be read again: the bed has a name, and what comes twice in it too.
void print_toml(Plan plan) {
  plan.title = "drawn plan";
  plan.beds[0].name = "bed";
  std::map<std::string, int> times;
  for (Planting& planting : plan.plantings) {
    const int time = ++times[planting.asked.crop];
    if (time > 1) planting.asked.id = fmt::format("{} {}", planting.asked.crop, time);
  }
  fmt::print("{}", show::plan_toml(plan));
}

void print_all(DrawnPlans& drawn) {
  Figures by_sum, by_vases;
  for (int number = 0; number < kPlans; ++number) {
    const Plan plan = drawn.draw(number);
    const auto climate = climate::Climate::from(plan.place);
    const Both both = choose(drawn, plan, climate);
    add(plan, climate, both.by_sum, by_sum);
    add(plan, climate, both.by_vases, by_vases);
  }
  print_row("by sums", by_sum);
  print_row("by vases", by_vases);
  const Plan large = drawn.draw(1, kLargePlan);
  const Both both = choose(drawn, large, climate::Climate::from(large.place));
  fmt::print("{} stretches, {} plantings: {} calls, {:.2f} s with the candidates, one core\n",
             kLargePlan, large.plantings.size(), both.by_vases.calls, both.seconds);
}

}  // namespace
}  // namespace trug::bench

int main(int argc, char** argv) {
  trug::bench::DrawnPlans drawn;
  if (argc > 2) {
    trug::bench::print_toml(drawn.draw(std::atoi(argv[2])));
  } else if (argc > 1) {
    trug::bench::print_plan(drawn, std::atoi(argv[1]));
  } else {
    trug::bench::print_all(drawn);
  }
  return 0;
}
