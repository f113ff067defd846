// SPDX-License-Identifier: MIT
#include "crops/checks.h"

#include <gtest/gtest.h>

#include <iostream>
#include <limits>

#include "crops/test_garden.h"

namespace trug {
namespace {

// So that they can be counted.
void tell_miss(const std::string& name, const std::string& answer, const std::string& band) {
  std::cout << "known miss: " << name << ": " << answer << ", not " << band << "\n";
}

}  // namespace

void look(const DateCheck& row) {
  SCOPED_TRACE(row.name + " (" + row.source + ")");
  const std::optional<Date> answer = row.ask();
  const std::string text = answer ? iso(*answer) : "never";
  const bool holds = answer && day(row.earliest) <= *answer && *answer <= day(row.latest);
  const std::string band = row.earliest + " to " + row.latest;
  if (row.known_miss.empty()) {
    EXPECT_TRUE(holds) << text << " is not within " << band;
  } else {
    EXPECT_FALSE(holds) << text << " is within " << band << " now: take the known miss away";
    EXPECT_EQ(text, row.known_miss) << "the known miss has moved; the band is " << band;
    tell_miss(row.name, text, band);
  }
}

void look(const NumberCheck& row) {
  SCOPED_TRACE(row.name + " (" + row.source + ")");
  const double answer = row.ask();
  const bool holds = row.low <= answer && answer <= row.high;
  const std::string band = std::to_string(row.low) + " to " + std::to_string(row.high);
  if (!row.known_miss) {
    EXPECT_TRUE(holds) << answer << " is not within " << band;
  } else {
    EXPECT_FALSE(holds) << answer << " is within " << band << " now: take the known miss away";
    EXPECT_NEAR(answer, *row.known_miss, 0.05) << "the known miss has moved; the band is " << band;
    tell_miss(row.name, std::to_string(answer), band);
  }
}

double days(const std::optional<Date>& from, const std::optional<Date>& to) {
  return from && to ? days_between(*from, *to) : std::numeric_limits<double>::quiet_NaN();
}

}  // namespace trug
