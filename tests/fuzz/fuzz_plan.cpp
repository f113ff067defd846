// SPDX-License-Identifier: MIT
// The text of a plan, to every output. Beside it lies a record of five years, daily.csv.
#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <numbers>

#include "base/date.h"
#include "whole_program.h"

namespace {

std::string five_years() {
  std::string text = "date,tmin_c,tmax_c\n";
  const trug::Date first = trug::make_date(2021, 8, 1);
  for (int day = 0; day < 5 * 365; ++day) {
    const double mean = 10 - 6.5 * std::cos(2 * std::numbers::pi * (day + 193) / 365);
    text += fmt::format("{},{:.1f},{:.1f}\n", trug::iso(first + trug::Days{day}),
                        mean - 5 - day % 7, mean + 5 - day % 7);
  }
  return text;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const std::string kRecord = five_years();
  const std::string text(reinterpret_cast<const char*>(data), size);
  trug::fuzz::every_output({{"plan.toml", text}, {"daily.csv", kRecord}}, "plan.toml");
  return 0;
}
