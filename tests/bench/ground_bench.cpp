// SPDX-License-Identifier: MIT
// How long the choice takes: 1,000 stretches of three crops with a candidate on every day of their
// windows, found by heat; and how long the choice by sums of stems took that came before it. Prints
// seconds of processor time on one core, and how the cost of a stretch grows with their number;
// nothing is asserted.
#include <fmt/core.h>

#include <cmath>
#include <ctime>
#include <set>
#include <string>
#include <thread>
#include <vector>

#include "by_sum_plan.h"
#include "ground/made_up_garden.h"
#include "ground/plan_choice.h"

namespace trug::ground {
namespace {

constexpr int kStretches = 1000;

// Forty varieties of the made-up crops, each with a little other heat, so that nothing is found
// once for all.
std::vector<Sheet> varieties() {
  std::vector<Sheet> sheets;
  for (int i = 0; i < 40; ++i) {
    const std::vector<Sheet> kinds = {cornflower(), zinnia(), cosmos(), snapdragon()};
    Sheet sheet = kinds[static_cast<std::size_t>(i) % kinds.size()];
    sheet.growth->heat_to_first_flower_kd += i;
    sheet.name += " " + std::to_string(i);
    sheets.push_back(std::move(sheet));
  }
  return sheets;
}

Plan large_plan(const std::vector<Sheet>& sheets, int stretches) {
  Plan plan;
  plan.flowering_year = 2027;
  plan.place = lowland();
  Wish wish{.vases_per_week = stretches / 2.0, .stems_per_vase = 12};
  wish.from = {std::chrono::May, std::chrono::day{10}};
  wish.to = {std::chrono::October, std::chrono::day{17}};
  plan.wish = wish;
  plan.shelter = everything();
  plan.beds.resize(1);
  plan.beds[0].width = Millimetres{1200};
  std::size_t next = 0;
  for (int i = 0; i < stretches; ++i) {
    Stretch stretch;
    stretch.length = Millimetres{500 + 100 * (i % 11)};
    plan.beds[0].stretches.push_back(stretch);
    for (int crop = 0; crop < 3; ++crop) {
      CropEntry entry;
      entry.crop = sheets[next % sheets.size()].name;
      next += crop == 2 ? 2 : 7;
      add_planting(plan, 0, plan.beds[0].stretches.size() - 1, entry);
    }
  }
  return plan;
}

// Seconds of processor time that `work` takes.
template <class Work>
double seconds(const Work& work) {
  const std::clock_t from = std::clock();
  work();
  return static_cast<double>(std::clock() - from) / CLOCKS_PER_SEC;
}

// From ten stretches to ten thousand: of a cost that is flat the exponent is 1.
void print_growth(const std::vector<Sheet>& list, const Sheets& sheets,
                  const climate::Climate& climate) {
  fmt::print("stretches, seconds, milliseconds a stretch, choices of a stretch\n");
  double least = 0, most = 0;
  for (const int stretches : {10, 100, 1000, 10000}) {
    const Plan plan = large_plan(list, stretches);
    Schedule schedule;
    most = seconds([&] { schedule = choose_plan(plan, sheets, climate); });
    if (stretches == 10) least = most;
    fmt::print("{:6} {:8.3f} {:8.3f} {:6}\n", stretches, most, 1000 * most / stretches,
               schedule.calls);
  }
  fmt::print("exponent from 10 to 10,000: {:.2f}\n", std::log10(most / least) / 3);
}

void run(const char* command) {
  const std::vector<Sheet> list = varieties();
  Sheets sheets;
  for (const Sheet& sheet : list) sheets[sheet.name] = &sheet;
  const Plan plan = large_plan(list, kStretches);
  const auto climate = climate::Climate::from(plan.place);

  Garden garden;
  std::size_t found = 0;
  const double weighing = seconds([&] {
    for (const Sheet& sheet : list) found += garden.ask(sheet).list.size();
  });
  Schedule together;
  const double choosing = seconds([&] { together = choose_plan(plan, sheets, climate); });

  Schedule by_sums;
  const double choosing_by_sums =
      seconds([&] { by_sums = by_sum::choose_plan(plan, climate, together.weighed); });

  std::size_t weighed = 0, left_out = 0;
  for (std::size_t i = 0; i < together.weighed.size(); ++i) {
    weighed += together.weighed[i].candidates->list.size();
    left_out += together.of(i).empty();
  }
  fmt::print("command: {}\n", command);
  fmt::print("cores: {} (one used)\n", std::thread::hardware_concurrency());
  fmt::print("stretches: {}, plantings: {}, candidates a planting: {:.0f}, left out: {}\n",
             kStretches, together.weighed.size(),
             static_cast<double>(weighed) / static_cast<double>(together.weighed.size()), left_out);
  fmt::print("{} candidates of {} crops found: {:.2f} s\n", found, list.size(), weighing);
  fmt::print("by vases: {} choices of a stretch in {} rounds{}, finding included: {:.2f} s\n",
             together.calls, together.rounds, together.settled ? "" : " (not settled)", choosing);
  fmt::print("by sums, the rule before it, with nothing left to find: {:.2f} s\n",
             choosing_by_sums);
  print_growth(list, sheets, climate);
}

}  // namespace
}  // namespace trug::ground

int main(int, char** argv) {
  trug::ground::run(argv[0]);
  return 0;
}
