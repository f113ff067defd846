// SPDX-License-Identifier: MIT
// How long growth takes: every sheet (and group) that goes by heat, begun on each day of a year, on
// averages and through forty recorded years. Prints processor time on one core; nothing is
// asserted.
#include <fmt/core.h>

#include <cmath>
#include <ctime>
#include <memory>
#include <random>
#include <vector>

#include "garden/weather.h"
#include "growth/crop_clock.h"
#include "lowland.h"
#include "read/sheet_library.h"

namespace trug::growth {
namespace {

constexpr int kYear = 2027;
constexpr int kStarts = 366;
constexpr int kRecordedYears = 40;

// A made-up record: the averages and a wandering difference of standard deviation 3 degC.
std::shared_ptr<const DailyRecord> record(const climate::Climate& averages) {
  DailyRecord made{.first = make_date(kYear - kRecordedYears - 2, 1, 1), .days = {}};
  std::mt19937 random(1);
  std::normal_distribution<double> draw(0, 1);
  double off = 0;
  for (Date day = made.first; day < make_date(kYear + 1, 1, 1); day += Days{1}) {
    off = 0.7 * off + 3 * std::sqrt(1 - 0.49) * draw(random);
    const double mean = averages.mean_c(day) + off;
    made.days.push_back({mean - 4, mean + 4});
  }
  return std::make_shared<const DailyRecord>(std::move(made));
}

struct Kind {
  const Sheet* sheet = nullptr;
  const Group* group = nullptr;
};

std::vector<Kind> kinds_by_heat(read::SheetLibrary& library) {
  std::vector<Kind> kinds;
  Diagnostics diagnostics;
  for (const std::string& name : library.names()) {
    const Sheet* sheet = library.find(name, diagnostics);
    if (!sheet) continue;
    if (sheet->groups.empty() && sheet->growth) kinds.push_back({sheet, nullptr});
    for (const Group& group : sheet->groups) {
      if (sheet->growth || group.growth) kinds.push_back({sheet, &group});
    }
  }
  return kinds;
}

// Flowers found; all kinds begun on every day of the year before the flowering year.
int reckon(const climate::Climate& climate, const std::vector<Kind>& kinds) {
  int flowers = 0;
  for (const Kind& kind : kinds) {
    const CropClock clock(climate, *kind.sheet, kind.group, kYear);
    for (int i = 0; i < kStarts; ++i) {
      const Date start = make_date(kYear - 1, 7, 1) + Days{i};
      flowers += clock.timeline(kind.sheet->ways.front(), start, start).has_value();
    }
  }
  return flowers;
}

double seconds_since(std::clock_t from) {
  return static_cast<double>(std::clock() - from) / CLOCKS_PER_SEC;
}

void run() {
  read::SheetLibrary library;
  const std::vector<Kind> kinds = kinds_by_heat(library);
  const auto averages = climate::Climate::from(lowland());
  reckon(averages, {kinds.front()});  // day lengths are reckoned once
  const std::clock_t from = std::clock();
  const int flowers = reckon(averages, kinds);
  fmt::print("averages: {} kinds x {} starts, {} flower: {:.1f} ms\n", kinds.size(), kStarts,
             flowers, 1000 * seconds_since(from));

  const auto measured = record(averages);
  const std::clock_t recorded_from = std::clock();
  int recorded_flowers = 0;
  for (int back = 0; back < kRecordedYears; ++back) {
    recorded_flowers += reckon(averages.with_record(measured, -back), kinds);
  }
  fmt::print("{} recorded years: {} flower: {:.1f} ms\n", kRecordedYears, recorded_flowers,
             1000 * seconds_since(recorded_from));
}

}  // namespace
}  // namespace trug::growth

int main() {
  trug::growth::run();
  return 0;
}
