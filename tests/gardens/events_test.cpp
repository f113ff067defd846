// SPDX-License-Identifier: MIT
// The allotment's year as a calendar holds it: no more events than its work has occasions, and
// nothing lost.
#include <gtest/gtest.h>

#include <iostream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <utility>

#include "app/environment.h"
#include "app/options.h"
#include "app/real_files.h"
#include "app/reckoning.h"

namespace trug::app {
namespace {

// At most so many for 22 plantings in six beds, as head gardeners keep a diary (memory).
constexpr std::size_t kMostDays = 75;
constexpr int kMostEvents = 155;

Reckoning allotment() {
  const RealFiles files;
  std::ostringstream out, err;
  const Environment environment{.files = files, .out = out, .err = err, .random = {}, .clock = {}};
  Options options;
  options.plans = {std::string(TRUG_SOURCE_DIR) + "/tests/gardens/allotment.toml"};
  options.today = make_date(2026, 5, 2);
  auto reckoning = reckon(options, environment, "");
  EXPECT_TRUE(reckoning) << err.str();
  return std::move(*reckoning);
}

TEST(AllotmentEvents, AreAsManyAsItsWorkHasOccasions) {
  const Reckoning r = allotment();
  std::map<std::string, int> saved;
  int orders = 0;  // fewer than one a planting
  for (const show::JobRow& job : r.rows) {
    if (job.told_with) ++saved[std::string(to_string(job.key.kind))];
    if (!job.parts.empty()) orders += static_cast<int>(job.parts.size()) - 1;
  }
  int events = static_cast<int>(r.rows.size());
  std::cout << events + orders << " jobs, care off\norders made jointly: -" << orders << "\n";
  EXPECT_EQ(events + orders, static_cast<int>(r.jobs.size()));
  EXPECT_GT(orders, 10);
  for (const auto& [kind, count] : saved) {
    events -= count;
    std::cout << kind << " told with another job: -" << count << "\n";
  }
  std::cout << events << " events\n";
  EXPECT_LE(events, kMostEvents);
  EXPECT_GT(events, 100);
  EXPECT_GT(saved.size(), 2u);
}

// A calendar of days, of the same work.
TEST(AllotmentEvents, OfDaysAreAsManyAsItHasDaysOfWork) {
  const Reckoning r = allotment();
  std::set<Date> days;
  for (const show::JobRow& job : r.rows) {
    if (!job.told_with) days.insert(job.day);
  }
  std::cout << days.size() << " days with work\n";
  EXPECT_LE(days.size(), kMostDays);
  EXPECT_GT(days.size(), 40u);
}

TEST(AllotmentEvents, LoseNothing) {
  const Reckoning r = allotment();
  for (const show::JobRow& job : r.rows) {
    if (!job.told_with) continue;
    const show::JobRow& with = r.rows[*job.told_with];
    const std::string first = job.text.substr(0, job.text.find(". "));
    EXPECT_NE(with.text.find(first.substr(0, first.find(" Still right"))), std::string::npos)
        << job.title << ": " << job.text << "\nwith: " << with.text;
    EXPECT_EQ(with.planting_name, job.planting_name);
  }
}

}  // namespace
}  // namespace trug::app
